"""Every kind of entry can be brought up for correction, and a reason is not taken for another."""

from __future__ import annotations

import dataclasses

import pytest

from screens.dialogs.correct import _change
from screens.dialogs.correctable import MAKERS
from screens.pages.page import Page
from tally.book.book import Book
from tally.cement.returns import LESS
from tally.job.entries.correction import Correction
from tally.job.entries.pumping import Pumped
from tally.job.entries.running import ItemRun, Rejected
from tally.job.entry import Entry, catalogue
from tally.units import read
from tests.screens.books import app_on, book_of, third
from tests.screens.demo_books import at, up_to
from tests.screens.driving import fill, form, offered, shown
from tests.tally.job.kinds import EVERY


@pytest.fixture
def book(tmp_path):
    """Return a book with the string about one third run."""
    with book_of(tmp_path, third()) as made:
        yield made


async def test_the_form_of_every_kind_opens(book: Book):
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        for entry in EVERY:
            assert isinstance(app.screen, Page), entry.KIND
            app.screen.act(_change(app.screen, entry, ""))
            await pilot.pause()
            assert form(app).heading.startswith("Entry 7: "), entry.KIND
            keys = [field.key for field in form(app).fields]
            assert len(keys) == len(set(keys)), entry.KIND
            await pilot.press("escape")
            await pilot.pause()


async def test_the_reason_of_a_rejected_joint_is_corrected_for_another_reason(book: Book):
    rejected = next(each for each in book.entries if isinstance(each, Rejected))
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        await pilot.press("c")
        await fill(pilot, which=str(rejected.seq))
        assert offered(app)["its_reason"] == "failed drift at the pin end"
        await fill(pilot, its_reason="failed drift at the box end", reason="2")
    assert book.job.items["19"].reason == "failed drift at the box end"
    assert book.entries[-1].said() == f"entry {rejected.seq} corrected: read wrongly"


@pytest.fixture
def pumped(tmp_path):
    """Return a book that is displacing, its last entry a reading of the pump with everything."""
    with Book.create(tmp_path / "pumped.db", up_to(at("17:41:20"))) as made:
        yield made


STAND_BY_THEMSELVES = {
    "checklist taken": {"checklist"},
    "correction": {"of", "reason", "instead"},
    "exception closed": {"of"},
    "file followed": {"path", "asked"},
    "handed over": {"taken"},
    "item run": {"second"},
    "order set": {"order", "locked", "aside", "rules", "length"},
    "person added": {"name"},
    "pin set": {"name", "pin"},
    "pulled out": {"number"},
    "pumped": {"doubt", "source"},
    "received": {"items", "source", "sha256", "read_back"},
    "set up": {"setup"},
    "taken over": {"name"},
    "time lost": {"began"},
    "waiting rules": {"rules"},
}
"""What is not typed in a form of the entry, or corrected in another way (a list, a set-up)."""
LEFT_AS_THEY_ARE = {"readings", "report signed"}
TEXT_OF_A_LENGTH, WHICH_STEP = {"typed"}, {"list_id", "step_id"}


def test_every_typed_field_of_every_kind_can_be_corrected():
    always = {one.name for one in dataclasses.fields(Entry)} | TEXT_OF_A_LENGTH | WHICH_STEP
    for name, kind in catalogue().items():
        if name not in LEFT_AS_THEY_ARE:
            own = {one.name for one in dataclasses.fields(kind)} - always
            offers = set(MAKERS.get(name, {}))
            assert own - offers == STAND_BY_THEMSELVES.get(name, set()), name


async def test_returns_of_a_pump_reading_are_corrected_and_what_is_not_touched_stays(pumped: Book):
    told = {"tank": read("12.0 m3", "volume"), "rate": read("0.5 m3/min", "flow rate")}
    made = pumped.record(Pumped(by="N. Haddad", at=at("17:41:30"), despite="read again", **told))
    app = app_on(pumped, "plugs")
    async with app.run_test(size=(80, 50)) as pilot:
        await pilot.press("c")
        await fill(pilot, which=str(made.seq))
        await fill(pilot, returns_seen="less than pumped", returns="2 bbl/min", reason="2")
    last = pumped.job.pumped[-1]
    assert last.returns is not None
    assert (last.returns_seen, last.returns.text) == (LESS, "2 bbl/min")
    assert last.tank == told["tank"]
    assert last.rate == told["rate"]


def last_run(book: Book) -> int:
    return [entry.seq for entry in book.entries if isinstance(entry, ItemRun)][-1]


async def test_striking_asks_for_nothing_but_the_reason(book: Book):
    struck = last_run(book)
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        await pilot.press("c")
        await fill(pilot, which=str(struck))
        await pilot.press("2")
        assert shown(app).count("Why") == 1
        asked = [field for field in form(app).fields if app.screen.query(f"#label-{field.key}")]
        seen = [f.key for f in asked if app.screen.query_one(f"#field-{f.key}").display]
        assert seen == ["act", "reason"]
        await pilot.press("enter", "3", "enter")
        await pilot.pause()
    last = book.entries[-1]
    assert isinstance(last, Correction)
    assert (last.of, last.instead, last.reason) == (struck, None, "entered twice")


async def test_a_correction_that_changes_nothing_is_no_entry(book: Book):
    count = book.head[0]
    app = app_on(book, "run")
    async with app.run_test() as pilot:
        await pilot.press("c")
        await fill(pilot, which=str(last_run(book)))
        await fill(pilot, reason="1")
        assert "Nothing was changed" in shown(app)
    assert book.head[0] == count
