"""F2, e on a job that stands: a change in words, its reason, its draft, what is refused."""

import pytest

from screens.pages.job import JobPage
from screens.pages.set_up import SetUpPage
from tally.book.book import Book
from tally.errors import EntryRefused
from tally.job.entries.people import SetUp
from tally.job.fold import fold_on
from tests.screens.books import AMA, NOW, Story, app_on, setup
from tests.screens.driving import fill, offered, shown
from tests.screens.pages.setting_up import at, draft_file, opened, page


@pytest.fixture
def standing(make_book):
    """Return a book that is set up, with five joints on location."""
    story = Story()
    story.starts(setup(order=("S1", "1", "2", "C1", "3", "4", "5"), programme=()), 5)
    return make_book(story.entries)


async def test_a_change_starts_from_what_stands_is_told_in_words_and_wants_a_reason(standing):
    app = app_on(standing, "job")
    async with app.run_test() as pilot:
        await pilot.press("e")
        assert "CHANGE OF THE SET-UP" in shown(app)
        assert "nothing is changed yet" in shown(app)
        assert "pipe list" not in shown(app)
        await opened(pilot, "mud")
        empty = dict.fromkeys(
            ("plastic_viscosity", "yield_point", "conditioning_rate", "gel_strength"), ""
        )
        assert offered(app) == {"weight": "10.2 lb/gal"} | empty
        await fill(pilot, weight="10.6")
        await pilot.press("end")
        assert "mud, weight: 10.2 lb/gal, now 10.6 lb/gal" in shown(app)
        await pilot.press("s")
        await pilot.pause()
        assert "- mud, weight: 10.2 lb/gal, now 10.6 lb/gal" in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "Not saved; the draft is kept." in shown(app)
        assert len(standing.entries) == 2
        await pilot.press("s")
        await fill(pilot, reason="1")
        assert isinstance(app.screen, JobPage)
        assert "the set-up is changed: the programme changed" in shown(app)
        assert "set-up changed (the programme changed)" in shown(app)
    entry = standing.entries[-1]
    assert isinstance(entry, SetUp)
    assert entry.setup.pumping.mud_weight.text == "10.6 lb/gal"
    assert (entry.by, entry.despite) == (AMA, "the programme changed")
    assert not draft_file(standing.path).exists()


async def test_what_the_job_forbids_is_refused_before_a_reason_is_asked(standing):
    app = app_on(standing, "job")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await opened(pilot, "tally")
        await fill(pilot, unit="m", stick_up="3.22 ft")
        await pilot.press("s")
        await pilot.pause()
        assert isinstance(app.screen, SetUpPage)
        assert "The tally unit and how joints are measured stay" in shown(app)
        refused = SetUp(by=AMA, at=NOW, setup=page(app).work.looked.job.setup, despite="x")
    with pytest.raises(EntryRefused, match="tally unit"):
        fold_on(standing.job, refused)
    assert len(standing.entries) == 2


async def test_nothing_changed_is_nothing_to_save(standing):
    app = app_on(standing, "job")
    async with app.run_test() as pilot:
        await pilot.press("e", "s")
        await pilot.pause()
        assert "Nothing would change; there is nothing to save." in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, JobPage)
        assert "draft" not in shown(app)


async def test_the_draft_of_a_change_goes_on_until_it_is_thrown_away(standing):
    app = app_on(standing, "job")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await opened(pilot, "mud")
        await pilot.press("end", "x", "escape", "escape")
        await pilot.pause()
        assert "what is typed is kept as a draft, e goes on with it" in shown(app)
        await pilot.press("e")
        assert "mud 1 fault" in shown(app)
        await pilot.press("b")
        await fill(pilot, what="1")
        assert "mud 1 fault" in shown(app)
        await pilot.press("b")
        await fill(pilot, what="2")
        assert page(app).work.draft == page(app).work.standing
        assert not draft_file(standing.path).exists()


async def test_the_pages_can_be_turned_and_the_set_up_is_still_there(standing):
    app = app_on(standing, "job")
    async with app.run_test() as pilot:
        await pilot.press("e")
        await at(pilot, "survey")
        await pilot.press("f4")
        await pilot.pause()
        assert "NEXT shoe" in shown(app)
        await pilot.press("f2")
        await pilot.pause()
        assert page(app).sheet.name == "survey"


async def test_a_book_opened_to_look_only_is_not_set_up(standing):
    with Book.open(standing.path, look_only=True) as looked:
        app = app_on(looked, "job")
        async with app.run_test() as pilot:
            await pilot.press("e")
            await pilot.pause()
            assert "its set-up cannot be changed here" in shown(app)
