"""The script of keys.py fed to the app key by key, and its count against the spreadsheet's.

What plain entry alone gives is a draw: a length and Enter are as many keys in a good spreadsheet.
The gain is in what the programme installs by itself, in what is put right, and in a piece that was
not planned.
"""

from __future__ import annotations

import asyncio
from decimal import Decimal

import pytest

from tally.book.verify import verify
from tally.job.counts import balance
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.setup import Limit, Rule
from tests.bench import keys
from tests.bench.readme import BEGIN, END, README
from tests.screens.any_keys import _key
from tests.screens.books import AMA, Story, app_on, book_of, setup

NOT_STRAPPED = 4100
"""What each joint is listed with, in hundredths of a foot, before anybody has measured it."""
MOST = 0.9


def story() -> list:
    """Return the entries of a job whose lengths are typed as the joints go down."""
    numbers = [str(number) for number in range(1, keys.JOINTS + 11)]
    plan = setup(
        items=(),
        order=tuple(numbers),
        previous=None,
        programme=(Rule(what="bow centralizer", joints=tuple(sorted(keys.PLANNED))),),
        limits={"length_difference": Limit(text="4 ft", owner=AMA, source="not strapped")},
    )
    told = Story()
    told.says(SetUp, setup=plan)
    listed = (Arrival(number=number, length=NOT_STRAPPED, typed="41") for number in numbers)
    told.says(Received, items=tuple(listed), source="delivery note")
    return told.entries


async def fed(app, pilot, pressed) -> None:
    """Send keys as a quick hand does, and wait until the last one has had its effect."""
    for key in pressed:
        app.post_message(_key(key))
    quiet = 0
    while quiet < 20:
        await asyncio.sleep(0.001)
        quiet = quiet + 1 if not app._ahead and app._is_quiet() else 0
    await pilot.pause()


async def test_the_keys_that_are_counted_make_the_tally(tmp_path):
    pressed = [key for act in keys.script() for key in act.ours]
    assert len(pressed) == keys.ours().keys
    with book_of(tmp_path, story()) as book:
        app = app_on(book, "run")
        async with app.run_test(size=(80, 24)) as pilot:
            await fed(app, pilot, pressed)
            assert app.focused is None
            job = app.job
        entries = len(book.entries)
    in_string = [number for number in range(1, keys.JOINTS + 1) if number != keys.LAID_DOWN]
    assert [made.number for made in job.string] == [str(number) for number in in_string]
    wanted = [Decimal(keys.length(number)) for number in in_string]
    assert [Decimal(made.length) / 100 for made in job.string] == wanted
    assert Decimal(job.length) / 100 == sum(wanted)
    fitted = {int(made.number) for made in job.string if made.fittings}
    assert fitted == keys.PLANNED | keys.NOT_PLANNED
    assert balance(job).laid_down.count == 1
    assert job.items[str(keys.LAID_DOWN)].reason == "thread"
    assert entries == 2 + keys.JOINTS + len(keys.CORRECTED_AFTER) + 1
    assert job.exceptions == ()
    assert verify(book.path).ok


def test_the_script_is_the_one_that_was_agreed():
    assert len(keys.PLANNED) == 30
    assert len(keys.PLANNED | keys.NOT_PLANNED) == 40
    assert sorted(keys.CORRECTED_AFTER.values()) == [1, 2, 3, 10, 10]
    assert all(keys.wrong(number) != keys.length(number) for number in keys.put_right().values())
    assert all(len(keys.length(number)) == 5 for number in range(1, keys.JOINTS + 1))


def test_the_spreadsheet_is_counted_by_its_rules():
    """By hand: 60 joints of 6 keys, 40 of 8; 10 rows up 25 keys, 1, 2 and 3 rows 7, 9 and 11; 5."""
    assert keys.spreadsheet().keys == 60 * 6 + 40 * 8 + 2 * 25 + 7 + 9 + 11 + 5
    assert keys.spreadsheet().decisions == 60 + 2 * 40 + 2 * 5 + 2
    assert keys.planned_spreadsheet().keys == 90 * 6 + 10 * 8 + 2 * 25 + 7 + 9 + 11 + 5


def test_ours_takes_at_most_nine_tenths_of_the_keys():
    assert keys.ours().keys <= MOST * keys.spreadsheet().keys
    assert keys.ours().keys <= keys.planned_spreadsheet().keys


@pytest.mark.parametrize("key", keys.KEY_TIMES)
def test_ours_takes_at_most_nine_tenths_of_the_time_by_the_model(key):
    assert keys.ours().seconds(key) <= MOST * keys.spreadsheet().seconds(key)


def test_a_length_alone_is_a_draw():
    plain = next(keys.script())
    assert (len(plain.ours), plain.decisions) == (plain.sheet, plain.sheet_decisions)


def test_the_readme_tells_these_figures():
    told = README.read_text("utf-8").split(BEGIN)[1].split(END)[0]
    assert keys.sentence() in told
