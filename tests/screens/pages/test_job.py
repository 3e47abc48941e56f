"""F2: what happened last, what stands open, the set-up, and what its keys enter."""

from dataclasses import replace

import pytest

from tally.job.entries.correction import Correction
from tally.job.entries.people import Note, PersonAdded, SetUp
from tally.job.setup import ROLES
from tally.units import read
from tests.screens.books import AMA, NOW, Story, app_on, setup
from tests.screens.driving import HOSTILE, faults, fill, form, rows, shown


def words_below(app, number):
    """Return the words of an entry and the lines below it, up to the next entry."""
    seen = rows(app)
    start = next(n for n, row in enumerate(seen) if row[:5].strip() == str(number))
    more = []
    for row in seen[start + 1 :]:
        if row[:20].strip():
            break
        more.append(row.strip())
    return [seen[start], *more]


async def test_the_last_entry_is_read_first_with_its_number_time_and_name(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "RUNNING 85 joints run, shoe at 3,473.76 ft" in shown(app)
        assert "last entry 03:10, 2 min ago, Ama Osei" in shown(app)
        numbers = [int(row[:5]) for row in rows(app) if row[:5].strip().isdigit()]
        assert numbers == list(range(96, 86, -1))
        assert "93 02:55 Ama Osei 87 run with bow centralizer mid-joint" in shown(app)
        assert "NEXT F4 run joint 88, 39.66 ft" in shown(app)


async def test_a_correction_says_what_was_said_first_and_what_stands_now(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.pause()
        head, first, now = words_below(app, 96)
        assert "read wrongly" in head
        assert first == "first said: 37 run"
        assert now.startswith("stands now: 37 run, measured 40.8")


async def test_a_corrected_entry_shows_what_stands_with_what_was_said_under_it(make_book):
    story = Story()
    story.starts(setup(), 5)
    story.says(Note, text="rained [/] all night")
    story.says(Note, text="rained till dawn")
    story.says(Correction, of=3, reason="written down wrongly", instead={"text": "rained till six"})
    story.says(Correction, of=4, reason="entered twice")
    app = app_on(make_book(story.entries), "job")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "note: rained till six, by entry 5" in words_below(app, 3)[0]
        assert words_below(app, 3)[1] == "first said: note: rained [/] all night"
        assert "struck, by entry 6" in words_below(app, 4)[0]
        assert words_below(app, 4)[1] == "first said: note: rained till dawn"


async def test_the_set_up_stands_as_typed_with_limits_and_people(running):
    app = app_on(running, "job")
    async with app.run_test(size=(160, 50)) as pilot:
        await pilot.pause()
        left = " ".join(" ".join(row[:116] for row in rows(app)).split())
        right = " ".join(" ".join(row[116:] for row in rows(app)).split())
    for told in (
        "hole 12 1/4 in to 8260 ft",
        "previous casing 13-3/8 in 68 lb/ft, shoe at 3010 ft, inside 12.415 in",
        "casing point 8240 ft",
        "outside 9 5/8 in, inside 8.681 in, 47 lb/ft, L-80, 34 ft to 48 ft",
        "shoe S1, 1.95 ft, float shoe",
        "mud 10.2 lb/gal",
        "pump 0.1049 bbl/stroke, at 96 %, 6 bbl/min",
        "fill closed end, filled from the active pit",
        "1 bbl Nadia Haddad, programme, page 12 trip tank",
        "trip tank against expected, one reading",
        "Ivo Marek cementer",
    ):
        assert told in left + right, told


async def test_at_eighty_columns_limits_and_people_stand_below(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("end")
        assert "3 bbl Nadia Haddad, programme, page 19" in shown(app)
        assert "Ivo Marek cementer" in shown(app)
        assert "last entries" not in shown(app)


async def test_a_set_up_that_says_little_is_shown_without_gaps(make_book):
    bare = setup(previous=None, limits={}, people=(), programme=(), items=(), order=())
    story = Story()
    story.says(SetUp, setup=bare)
    app = app_on(make_book(story.entries), "job")
    async with app.run_test(size=(160, 50)) as pilot:
        await pilot.pause()
        assert "NOTHING RUN YET 0 joints on location" in shown(app)
        assert "no limit is set" in shown(app)
        assert "nobody is named: a add a person" in shown(app)
        assert "running order as received" in shown(app)


async def test_open_exceptions_stand_first_and_at_the_foot(on_depth):
    app = app_on(on_depth, "job")
    async with app.run_test() as pilot:
        await pilot.pause()
        assert "ON DEPTH shoe at 365.80 ft, 9 joints, not hung off" in shown(app)
        assert "open exceptions: 1" in rows(app)[3]
        assert "1 open exception: F7 and o, to read and close" in shown(app)


async def test_a_note_is_written(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("n")
        await fill(pilot, text="returns [/] slow at 02:40")
        assert "97 03:12 Ama Osei note: returns [/] slow at 02:40" in shown(app)
    last = running.entries[-1]
    assert isinstance(last, Note)
    assert (last.text, last.by, last.at) == ("returns [/] slow at 02:40", AMA, NOW)


@pytest.mark.parametrize("key", ["a", "plus"])
async def test_a_person_is_added_and_the_one_at_the_keys_stays(running, key):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press(key)
        await fill(pilot, name="Sol Brandt", role="driller")
        assert app.who == AMA
    last = running.entries[-1]
    assert isinstance(last, PersonAdded)
    assert (last.name, last.role) == ("Sol Brandt", "driller")


async def test_who_is_at_the_keys_may_be_somebody_new(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("w")
        await fill(pilot, who="somebody else")
        await fill(pilot, name="Sol Brandt", role="4")
        assert app.who == "Sol Brandt"
        assert f"Sol Brandt, {ROLES[3]}" in rows(app)[0]


async def test_a_person_is_not_added_twice_nor_without_name_or_role(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("a")
        await fill(pilot, name="ama osei", role="roustabout")
        assert faults(app) == {
            "name": "Ama Osei is on the job already, as casing crew lead.",
            "role": f"'roustabout' is none of the choices; type 1 to {len(ROLES)}.",
        }
        await fill(pilot, name="", role="")
        assert faults(app) == {"name": "Name is wanted.", "role": "Role is wanted."}
        for typed in (HOSTILE[1], HOSTILE[3], HOSTILE[5]):
            await fill(pilot, name=typed)
            assert "name" in faults(app)
        await pilot.press("escape")
    assert len(running.entries) == 96


async def test_an_entry_is_corrected_from_here(running):
    app = app_on(running, "job")
    async with app.run_test() as pilot:
        await pilot.press("c")
        await pilot.pause()
        assert "Correct an entry" in form(app).heading
        await pilot.press("escape")


async def test_a_book_without_a_set_up_says_so(make_book):
    app = app_on(make_book([]), "job")
    async with app.run_test() as pilot:
        await pilot.press("end", "escape")
        assert "The job is not set up yet: e sets it up." in shown(app)


async def test_a_length_put_right_in_its_list_and_another_set_up_say_what_changed(make_book):
    story = Story()
    story.starts(setup(), 5)
    book = make_book(story.entries)
    before = book.job.items["3"].typed
    app = app_on(book, "job")
    async with app.run_test(size=(110, 40)) as pilot:
        await pilot.press("c")
        await fill(pilot, which="j3")
        await fill(pilot, length="39.84", reason="measured again")
        told = f"joint 3 length: was {before} ft, now 39.84 ft"
        assert shown(app).count(told) == 3  # as saved, at the entry, and at the correction
        assert told in words_below(app, 3)
        deeper = replace(book.job.known.hole, depth=read("8270 ft", "length"))
        again = replace(book.job.known, hole=deeper)
        book.record(SetUp(by=AMA, at=NOW, setup=again, despite="measured on location"))
        app.screen.draw()
        await pilot.pause()
        assert "hole depth: was 8260 ft, now 8270 ft" in words_below(app, 4)
