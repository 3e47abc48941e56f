"""What is typed into the entry line: a joint or a length, and what is on it beside the plan."""

from __future__ import annotations

import pytest

from screens.dialogs.typed_item import meaning, typed_item
from tally.errors import InputError
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.fittings import missing_on
from tally.job.setup import Lengths
from tests.screens.books import Story, app_on, setup
from tests.screens.driving import shown


def job(run: int = 8, **changed):
    """Return a job of 20 joints; the programme wants a centralizer on 1, 2, 3, 5, 10 ..."""
    story = Story()
    story.starts(setup(**changed), 20)
    story.runs(run)
    return story


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("7", "joint 7, 39.69 ft, on rack"),
        ("42.05", "joint 7 measures 42.05 ft"),
        ("42.05+", "joint 7 measures 42.05 ft, with bow centralizer mid-joint"),
        ("7 +", "joint 7, 39.69 ft, on rack, with bow centralizer mid-joint"),
        ("+", "joint 7, 39.69 ft, on rack, with bow centralizer mid-joint"),
    ],
)
def test_the_line_says_what_it_understands(text, told):
    assert meaning(job().job, text) == told


def test_one_more_than_the_programme_wants_is_two():
    before_the_tenth = job(run=11).job
    (two,) = typed_item(before_the_tenth, "41.20+").fittings
    assert (two.what, two.count) == ("bow centralizer", 2)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("42.05-", "The programme has nothing on joint 7; leave the - off."),
        ("70+", "There is no joint 70 in the book."),
        ("4..1+", "4..1"),
        ("", '"" is not read as a length'),
    ],
)
def test_what_means_nothing_is_told(text, said):
    with pytest.raises(InputError, match=said.replace("(", r"\(")):
        typed_item(job().job, text)


def test_without_a_programme_there_is_no_more_of_anything():
    with pytest.raises(InputError, match="The programme has no centralizer"):
        typed_item(job(programme=()).job, "+")


async def test_a_sign_after_the_length_says_what_is_on_it(make_book):
    story = job(limits={})
    app = app_on(make_book(story.entries), "run")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"39.69+")
        assert "joint 7 measures 39.69 ft, with bow centralizer mid-joint" in shown(app)
        await pilot.press("enter")
        assert [str(one) for one in app.job.string[-1].fittings] == ["bow centralizer mid-joint"]
        await pilot.press("8", "enter", "9", "enter", "minus")
        assert "joint 10, 40.80 ft, on rack, with nothing" in shown(app)
        await pilot.press("enter")
        assert app.job.string[-1].fittings == ()
        assert [number for _, number, _ in missing_on(app.job)] == ["10"]


async def test_the_length_of_a_joint_is_put_right_with_nothing_else_asked(make_book):
    app = app_on(make_book(job().entries), "run")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"42.05", "enter", *"measured anew", "enter")
        await pilot.press("c", *"j7", "enter", *"42.06", "enter", "1", "enter")
        assert app.job.items["7"].length == 4206
        assert app.job.string[-1].number == "7"
        assert "written down wrongly" in app.book.entries[-1].reason


def test_in_millimetres_four_figures_that_are_no_joint_are_a_length():
    story = Story()
    plan = setup(lengths=Lengths(unit="mm"), items=(), order=("1", "2", "3"), limits={})
    story.says(SetUp, setup=plan)
    listed = (Arrival(number=number, length=12603, typed="12603") for number in "123")
    story.says(Received, items=tuple(listed), source="pipe list")
    assert meaning(story.job, "12598") == "joint 1 measures 12,598 mm"
    assert meaning(story.job, "2") == "joint 2, 12,603 mm, on rack"
    with pytest.raises(InputError, match="There is no joint 125"):
        typed_item(story.job, "125")
