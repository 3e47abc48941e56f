"""F3: the rack as it is seen, moved through, and what its keys enter."""

from dataclasses import replace

import pytest

from screens.widgets import rack_list
from tally.job.entries.pipe import Received, SentAway
from tally.job.entries.running import Rejected
from tally.job.setup import Lengths
from tests.screens.books import AMA, HEAVY, NOW, Story, app_on, setup, third
from tests.screens.driving import HOSTILE, faults, fill, form, offered, rows, shown


def at(app):
    """Return the number at the cursor as the screen shows it."""
    marked = [row for row in rows(app) if row[8:9] == ">"]
    assert len(marked) == 1, "the cursor is not in view"
    return marked[0][9:].split()[0]


async def test_it_opens_on_the_next_item_with_some_run_before_it(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert at(app) == "88"
        assert "87 joint 41.79 run 85th joint 02:55" in shown(app)
        assert "NEXT joint 88 is due, 39.66 ft: F4 run" in shown(app)


@pytest.mark.parametrize(
    ("keys", "number"),
    [
        (["up"], "87"),
        (["down", "down"], "90"),
        (["home"], "S1"),
        (["end"], "205"),
        (["end", "down"], "205"),
        (["home", "pagedown"], "12"),
        (["pageup"], "75"),
        (["end", "full_stop"], "88"),
    ],
)
async def test_the_cursor_moves_and_stays_in_view(running, keys, number):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press(*keys)
        assert at(app) == number


async def test_only_the_rows_in_view_are_drawn_of_two_thousand(make_book, monkeypatch):
    order = ("S1", "1", "2", "C1", *(str(number) for number in range(3, 2001)))
    app = app_on(make_book(third(2000, setup(order=order))), "rack")
    drawn = []
    real = rack_list.rack_line
    monkeypatch.setattr(
        "screens.pages.rack.rack_line",
        lambda row, *given, **named: drawn.append(row) or real(row, *given, **named),
    )
    async with app.run_test() as pilot:
        await pilot.press("end")
        assert at(app) == "2000"
        drawn.clear()
        await pilot.press("home")
        assert at(app) == "S1"
        assert 0 < len(drawn) < 24


async def test_a_digit_opens_the_line_and_goes_to_the_joint(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("1", "9")
        assert "joint 19, 41.63 ft, rejected (failed drift" in shown(app)
        await pilot.press("enter")
        assert at(app) == "19"
        await pilot.press("slash", "C", "1", "enter")
        assert at(app) == "C1"


async def test_under_the_list_stands_what_else_is_known_as_far_as_it_fits(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("1", "9", "enter")
        assert rows(app)[20][8:] == "joint 19: 41.63 ft, typed 41.63  failed drift at the pin end"
        await pilot.press("full_stop")
        assert rows(app)[20].endswith("typed 39.66  9-5/8 in 47 lb/ft  received in entry 2")


async def test_a_number_that_is_not_in_the_book_stays_in_the_line(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("9", "9", "9", "enter")
        assert "There is no item 999 in the book." in shown(app)
        await pilot.press("escape")
        assert at(app) == "88"


async def test_a_joint_received_later_is_counted_in(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        assert offered(app)["kind"] == "joint"
        await fill(pilot, number="A12", length="41.35")
        assert f"saved 03:12 {running.entries[-1].said()}" in shown(app)
        assert "205 = 85 + 118 + 1 + 1 agrees" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, Received)
    assert (last.by, last.at, last.items[0].length, last.items[0].typed) == (
        AMA,
        NOW,
        4135,
        "41.35",
    )


async def test_make_up_loss_is_taken_off_a_joint_received_later(make_book):
    lengths = Lengths(unit="ft", measured_as="overall", make_up_loss="3.875 in")
    story = Story()
    story.starts(setup(lengths=lengths), 5)
    book = make_book(story.entries)
    app = app_on(book, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        assert "overall; 3.875 in make-up loss is taken off" in shown(app)
        await fill(pilot, number="6", length="41.35")
    assert book.job.items["6"].length == 4103


async def test_the_pipe_is_asked_only_where_there_are_several(make_book):
    story = Story()
    story.starts(setup(pipes=(*setup().pipes, HEAVY)), 5)
    book = make_book(story.entries)
    app = app_on(book, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        await fill(pilot, number="6", length="41.35", pipe="2")
    assert book.job.items["6"].pipe == HEAVY.name


@pytest.mark.parametrize(
    ("number", "told"),
    [
        ("88", "88 is taken: joint 88 is in the book, on rack; give it a number of its own."),
        ("019", "019 is taken: joint 19 is in the book, rejected; give it a number of its own."),
        ("8 8", "is no number of an item: use letters, digits and hyphens only"),
        ("", "Number as painted on it is wanted."),
    ],
)
async def test_a_number_that_cannot_be_used_is_told_beside_its_field(running, number, told):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        await fill(pilot, number=number, length="41.35")
        assert told in faults(app)["number"]
    assert len(running.entries) == 96


async def test_a_length_out_of_the_range_of_the_pipe_asks_for_a_reason(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        await fill(pilot, number="206", length="4127")
        assert "206: 4,127.00 ft is outside 34 ft to 48 ft, the range of this pipe." in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "Not entered; nothing was changed." in shown(app)
        assert len(running.entries) == 96
        await pilot.press("a")
        await fill(pilot, number="206", length="27.5")
        await fill(pilot, reason="cut joint, measured twice")
    assert running.job.items["206"].length == 2750
    assert running.entries[-1].despite == "cut joint, measured twice"


async def test_nothing_doubtful_is_counted_in(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        for typed in HOSTILE:
            await fill(pilot, number=typed, length=typed)
            assert list(faults(app)) == ["number", "length"], typed
        await pilot.press("escape")
    assert len(running.entries) == 96


async def test_the_item_at_the_cursor_is_sent_away(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("end", "up", "s")
        assert offered(app)["number"] == "204"
        await fill(pilot, reason="2")
        assert "204 joint 40.08 sent away damaged, for repair" in shown(app)
        assert "sent away 2 joints, 80.53 ft: not counted" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, SentAway)
    assert (last.number, last.reason) == ("204", "damaged, for repair")


async def test_an_item_in_the_string_is_not_sent_away(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("up", "s")
        await fill(pilot, reason="1")
        assert "Item 87 is in the string; it cannot be sent away." in shown(app)
    assert len(running.entries) == 96


async def test_the_item_at_the_cursor_is_rejected(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("down", "x")
        assert offered(app)["number"] == "89"
        await fill(pilot, reason="box end dented [/]")
        assert at(app) == "89"
        assert "89 joint 40.03 rejected box end dented [/]" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, Rejected)
    assert (last.number, last.reason) == ("89", "box end dented [/]")


@pytest.mark.parametrize("key", ["x", "s"])
async def test_a_reason_is_wanted_and_a_number_of_the_book(running, key):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press(key)
        await fill(pilot, number="999", reason="")
        assert faults(app) == {
            "number": "There is no item 999 in the book; check the number.",
            "reason": "Reason is wanted.",
        }
        await pilot.press("escape")
    assert len(running.entries) == 96


async def test_joints_that_the_order_names_and_nobody_brought_are_named(make_book):
    story = Story()
    story.starts(setup(order=("S1", "1", "2", "C1", "3", "301", "302", "4")), 4)
    app = app_on(make_book(story.entries), "rack")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "in the running order, never received: 301, 302" in shown(app)
        await pilot.press("3", "0", "2")
        assert "302 is in the running order and was never received" in shown(app)
        await pilot.press("enter")
        assert at(app) == "302"
        await pilot.press("x")
        await fill(pilot, reason="1")
        assert "There is no item 302 in the book; check the number." in faults(app)["number"]


async def test_a_book_without_a_set_up_says_so_and_takes_nothing(make_book):
    app = app_on(make_book([]), "rack")
    async with app.run_test() as pilot:
        await pilot.press("down", "end", "a")
        assert "The job is not set up" in shown(app)


async def test_a_look_only_station_is_told_that_nothing_is_saved(running):
    from tally.book.book import Book

    with Book.open(running.path, look_only=True) as looked:
        app = app_on(looked, "rack")
        async with app.run_test() as pilot:
            await pilot.press("x")
            await fill(pilot, reason="1")
            assert "The book is open to look only; nothing was saved." in shown(app)
    assert len(running.entries) == 96


async def test_the_balance_out_is_what_is_next(running, monkeypatch):
    app = app_on(running, "rack")
    wrong = replace(running.job, received=running.job.received + 1)
    monkeypatch.setattr(type(app), "job", wrong)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "NEXT the balance does not agree" in shown(app)


async def test_what_is_asked_can_be_left(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("a")
        assert form(app).heading == "Receive one item"
        await pilot.press("escape", "s", "escape", "x", "escape")
        assert at(app) == "88"
    assert len(running.entries) == 96
