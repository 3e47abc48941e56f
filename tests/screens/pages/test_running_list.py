"""The running list from F3: moved, taken out, put in, locked, built, viewed, set."""

from screens.pages.list_text import ListTextPage
from screens.pages.rack import RackPage
from screens.pages.running_list import ListPage
from tally.feeds.places import read_places
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.rack import OrderSet
from tally.job.entries.running import Rejected
from tally.job.setup import Planned
from tally.reports.list_lines import listing
from tally.reports.running_list_text import running_list_text
from tests.screens.books import AMA, HEAVY, NADIA, NOW, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, form, offered, rows, shown


def at(app):
    """Return the number at the cursor as the screen shows it."""
    marked = [row for row in rows(app) if row.startswith(">")]
    assert len(marked) == 1, "the cursor is not in view"
    return marked[0][11:].split()[0]


def below(app):
    """Return the number in the row under the cursor."""
    seen = rows(app)
    place = next(n for n, row in enumerate(seen) if row.startswith(">"))
    return seen[place + 1][11:].split()[0]


async def test_it_opens_on_the_next_item_with_depths_and_what_goes_on(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o")
        assert isinstance(app.screen, ListPage)
        assert at(app) == "88"
        text = shown(app)
        assert "RUNNING LIST as it came with the set-up" in text
        assert "to go 4,766.24 ft 117 joints, 0 spare" in text
        assert "85 87 joint 41.79 3,476.98 4,804.81 run bow" in text
        assert "86 88 joint 39.66 3,516.64 4,763.02 NEXT" in text
        await pilot.press("escape")
        assert isinstance(app.screen, RackPage)


async def test_a_joint_is_moved_and_the_list_is_set_with_a_reason(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "l", "l")
        assert "a draft, changed and not set" in shown(app)
        assert "NEXT Enter sets this list" in shown(app)
        assert at(app) == "88"
        await pilot.press("enter")
        await fill(pilot, reason="2")
        assert "RUNNING LIST set by Ama Osei, 03:12" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, OrderSet)
    assert (last.by, last.at, last.reason) == (AMA, NOW, "order changed on the rack")
    place = last.order.index("89")
    assert last.order[place : place + 3] == ("89", "90", "88")


async def test_earlier_goes_back_to_where_it_was_and_nothing_is_left_to_set(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "l", "e", "enter")
        assert "there is nothing to set" in shown(app)
        assert "a draft" not in shown(app)


async def test_what_cannot_be_done_is_told(running):
    app = app_on(running, "rack")
    async with app.run_test(size=(100, 30)) as pilot:
        await pilot.press("o")
        for keys, said in (
            ("e", "87 is run already; it keeps its place."),
            ("u", "Nothing was changed here; there is nothing to undo."),
            ("kt", "88 is locked in its place; k unlocks it."),
            (["up", "l"], "87 is run already; it keeps its place."),
            ("t", "87 is run already; it keeps its place."),
            ("k", "87 is run; it cannot be moved in any case."),
            (["down", "k", "t", "end", "l"], "88 is not in the list."),
        ):
            await pilot.press(*keys)
            assert said in shown(app), keys


async def test_taken_out_is_set_aside_and_put_in_again_under_the_cursor(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "t")
        assert at(app) == "89"
        assert "1 set aside" in shown(app)
        await pilot.press("down", "down", "p")
        assert form(app).heading == "Put an item in, under 91"
        await fill(pilot, number="88")
        assert (at(app), below(app)) == ("88", "91")
        assert "set aside" not in shown(app)
        await pilot.press("u", "u")
        assert "a draft" not in shown(app)


async def test_an_item_far_away_is_moved_to_the_cursor(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "p")
        await fill(pilot, number="150")
        assert (at(app), below(app)) == ("150", "88")


async def test_what_cannot_go_in_is_told(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o")
        for number, said in (
            ("999", "There is no item 999 in the book; receive it first."),
            ("19", "19 is rejected; only what is on the rack can go in."),
            ("87", "87 is run already; it keeps its place."),
        ):
            await pilot.press("p")
            await fill(pilot, number=number)
            assert said in shown(app)


async def test_hostile_text_goes_into_no_field(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "b")
        for typed in HOSTILE[:3]:
            await fill(pilot, shoe_track=typed, track=typed, places=typed, left_out=typed)
            assert {"shoe_track", "places"} <= set(faults(app)), typed
        await pilot.press("escape", "p")
        await fill(pilot, number=HOSTILE[0])
        assert list(faults(app)) == ["number"]


async def test_a_lock_is_marked(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "k")
        assert any(row.startswith(">  =   86  88") for row in rows(app))
        await pilot.press("k")
        assert any(row.startswith(">      86  88") for row in rows(app))


async def test_a_draft_is_left_with_a_second_escape_only(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "l", "escape")
        assert isinstance(app.screen, ListPage)
        assert "The list is changed and not set: Enter sets it, Esc again drops it." in shown(app)
        await pilot.press("down", "escape")
        assert isinstance(app.screen, ListPage)
        await pilot.press("escape")
        assert isinstance(app.screen, RackPage)
        await pilot.press("o")
        assert "a draft" not in shown(app)
    assert len(running.entries) == 96


def mixed():
    """Return a job of two weights with a crossover and a marker, nothing run."""
    pieces = (
        Planned(number="M1", kind="marker", length=1000, typed="10.00"),
        Planned(number="X1", kind="crossover", length=300, typed="3.00"),
    )
    story = Story()
    plan = setup(pipes=(*setup().pipes, HEAVY), items=(*setup().items, *pieces), order=())
    story.starts(plan, 120)
    heavy = tuple(
        Arrival(number=f"H{n}", length=4100, typed="41.00", pipe=HEAVY.name) for n in range(1, 101)
    )
    story.says(Received, items=heavy)
    return story


async def test_a_list_is_built_by_rules_and_its_rules_are_kept(make_book):
    book = make_book(mixed().entries)
    app = app_on(book, "rack")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o")
        assert "not with a shoe" in shown(app)
        await pilot.press("b")
        assert "Pipes from the shoe up: 1 9-5/8 in 47 lb/ft 2 9-5/8 in 53.5 lb/ft" in shown(app)
        await fill(
            pilot,
            pipes="2 1",
            places="M1 at 6000, X1 above 90",
            left_out="118-120",
        )
        text = shown(app)
        assert "*= S1 shoe 1.95" in text
        assert "= 1 H1 joint 41.00" in text
        assert "3 set aside" in text
        assert "nothing to look at in it" in text
        await pilot.press("enter")
        await fill(pilot, reason="1")
        await pilot.press("b")
        assert offered(app)["places"] == "M1 at 6000 ft, X1 above 90"
        assert offered(app)["pipes"] == "2 1"
        assert offered(app)["left_out"] == "118-120"
    order = book.job.order
    assert order[:5] == ("S1", "H1", "H2", "C1", "H3")
    assert order[order.index("X1") - 1 : order.index("X1") + 2] == ("H90", "X1", "1")
    assert book.job.aside == ("118", "119", "120")
    assert book.job.locked == ("S1", "H1", "H2", "C1")


async def test_rules_that_cannot_be_read_are_told_beside_the_field(make_book):
    app = app_on(make_book(mixed().entries), "rack")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "b")
        for pipes, places, track, said in (
            ("3", "M1 beside 40", "two", "is no place: type it like"),
            ("1 1", "M1 above 0", "-1", "is no joint: count it from the shoe"),
        ):
            await fill(pilot, pipes=pipes, places=places, shoe_track=track)
            told = faults(app)
            assert told["pipes"] == "Type each pipe once by its number, 1 to 2."
            assert said in told["places"]
            assert "not a whole number" in told["shoe_track"]


async def test_rules_that_cannot_be_followed_are_refused(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "b")
        await fill(pilot, left_out="19")
        assert "19 was rejected; it cannot be in the list." in shown(app)
        assert "a draft" not in shown(app)


async def test_a_doubtful_list_asks_before_it_is_set(make_book):
    book = make_book(mixed().entries)
    app = app_on(book, "rack")
    async with app.run_test(size=(100, 40)) as pilot:
        await pilot.press("o", "l", "enter")
        await fill(pilot, reason="1")
        assert "Stop: this was not expected" in shown(app)
        assert "The list starts with joint 2, not with a shoe." in shown(app)
        await pilot.press("escape")
        await pilot.pause()
        assert "Not entered; nothing was changed." in shown(app)
    assert not isinstance(book.entries[-1], OrderSet)


async def test_what_there_is_to_look_at_stands_at_its_row_and_in_a_panel(make_book):
    app = app_on(make_book(mixed().entries), "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "slash", "H", "1", "enter")
        assert at(app) == "H1"
        assert "> ! 121 H1" in shown(app) or any(row.startswith(">!") for row in rows(app))
        assert "! Weight 47 lb/ft to 53.5 lb/ft changes between 120 and H1" in shown(app)
        await pilot.press("g")
        assert "To look at in the list" in shown(app)
        assert "There is no collar in the list" in shown(app)


async def test_the_screen_shows_the_text_that_is_printed(running):
    printed = running_list_text(listing(running.job, running.entries, running.head)).splitlines()
    app = app_on(running, "rack")
    async with app.run_test(size=(100, 46)) as pilot:
        await pilot.press("o", "v")
        assert isinstance(app.screen, ListTextPage)
        seen = rows(app)[2:40]
        for each in seen:
            assert each in [one.rstrip() for one in printed], each
        assert "A DRAFT" not in shown(app)
        await pilot.press("escape", "l", "v")
        assert "*** A DRAFT: this list is not set; do not run by it. ***" in shown(app)
        await pilot.press("escape")
        assert isinstance(app.screen, ListPage)


async def test_what_another_program_enters_is_taken_in_and_the_draft_kept(running):
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "l")
        running.record(Rejected(by=NADIA, at=NOW, number="95", reason="bent"))
        await pilot.press("down")
        await pilot.pause()
        order = app.screen.draft.order
        assert "95" not in order
        assert order[order.index("89") : order.index("89") + 2] == ("89", "88")


async def test_the_list_of_a_string_on_depth_is_closed(on_depth):
    app = app_on(on_depth, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o")
        assert "NEXT the string is on depth; its list is closed" in shown(app)
        await pilot.press("end", "t", "enter")
        if form_is_asked(app):
            await fill(pilot, reason="1")
        assert "its list is closed" in shown(app)
    assert not isinstance(on_depth.entries[-1], OrderSet)


def form_is_asked(app):
    return app.screen.__class__.__name__ == "Form"


async def test_a_look_only_book_sets_no_list(running):
    running.look_only = True
    app = app_on(running, "rack")
    async with app.run_test() as pilot:
        await pilot.press("o", "l", "enter")
        await fill(pilot, reason="1")
        assert "open to look only; nothing was saved" in shown(app)


def test_places_come_back_as_they_are_shown():
    text = "M1 at 5000 ft, X1 above 40, C2 at 1,5 m"
    places = read_places(text, "ft")
    assert [place.number for place in places] == ["M1", "X1", "C2"]
    again = read_places(", ".join(str(place) for place in places), "ft")
    assert again == places
