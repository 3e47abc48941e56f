"""A pump file followed on F6: named, asked about, shown with its age, kept, left, resumed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.pilot import Pilot

from screens.app import ShoedownApp
from tally.book.book import Book
from tally.book.verify import verify
from tally.job.batch import rows_of
from tally.job.entries.following import FileFollowed, FileLeft
from tally.job.entries.pumping import Pumped
from tally.job.entries.readings import Readings
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.driving import faults, fill, form, offered, shown

TITLES = "Time (s),Volume (bbl),Pressure (psi),Rate (bbl/min)\n"
BEFORE = at("16:05:30")
"""The top plug is away and nothing of the displacement is read yet."""
EARLY = at("14:30:00")
"""Nothing is pumped yet: a page is drawn quickly then."""


def rows(start: int, end: int) -> str:
    """Return a row every second, a tenth of a barrel each."""
    return "".join(f"{n},{300 + 0.1 * n:.1f},{400 + n % 5},6.0\n" for n in range(start, end))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Return a pump file with its titles and two rows."""
    made = tmp_path / "job.csv"
    made.write_text(TITLES + rows(0, 2))
    return made


@pytest.fixture(autouse=True)
def _looks_often(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("screens.followed_file.LOOK_SECONDS", 0.05)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Return the book of the demonstration at the early moment."""
    return Book.create(tmp_path / "larkspur.book", up_to(EARLY))


async def until(pilot: Pilot[None], wanted: str) -> str:
    """Wait until the page shows a pattern; return the page."""
    for _ in range(100):
        page = shown(pilot.app)
        if re.search(wanted, page):
            return page
        await pilot.pause(0.05)
    raise AssertionError(f"'{wanted}' did not come:\n{page}")


async def named(pilot: Pilot[None], path: Path) -> None:
    """Name the file to follow."""
    await pilot.press("e")
    await until(pilot, "The pump file")
    await fill(pilot, path=str(path))


def kept(book: Book) -> list[float | None]:
    """Return the volume of every row that the book keeps."""
    return [row[0] for text in book.batches().values() for _, row in rows_of(text)]


def app_on(book: Book) -> ShoedownApp:
    """Return the app on F6 at the early moment."""
    return app_at(book, "plugs", EARLY)


async def test_it_is_followed_shown_kept_and_left(tmp_path: Path, path: Path) -> None:
    book = Book.create(tmp_path / "displacing.book", up_to(BEFORE))
    async with app_at(book, "plugs", BEFORE).run_test(size=(110, 40)) as pilot:
        await named(pilot, path)
        await until(pilot, r"FILE job.csv \d\d:\d\d, 0 s ago 300.1 bbl 401 psi 6.0 bbl/min")
        with path.open("a") as file:
            file.write(rows(2, 1500))
        await until(pilot, r"FILE job.csv .* 449.9 bbl 404 psi")
        first = next(one for one in book.entries if isinstance(one, FileFollowed))
        assert any(isinstance(one, Readings) for one in book.entries)
        await pilot.press("c")
        await until(pilot, "Correct an entry")
        assert offered(pilot.app)["which"] == str(first.seq)  # the last entry that a person made
        await pilot.press("escape", "e")
        await until(pilot, "Leave the pump file")
        await fill(pilot, reason="rigged down")
        page = await until(pilot, "pump file left")
        assert "FILE job.csv" not in page
        assert kept(book) == [round(300 + 0.1 * n, 1) for n in range(1500)]
    told = [
        entry for entry in book.entries if isinstance(entry, Readings | FileFollowed | FileLeft)
    ]
    assert isinstance(told[0], FileFollowed)
    assert told[-1].said() == "pump file left (rigged down)"
    assert any(isinstance(one, Pumped) and one.source == "job.csv" for one in book.entries)
    assert verify(book.path).ok


async def test_what_is_in_doubt_is_asked_and_the_answer_stands_in_the_book(
    book: Book, path: Path
) -> None:
    path.write_text(TITLES.replace("(psi)", "").replace("(s)", "") + rows(0, 5))
    async with app_on(book).run_test(size=(110, 40)) as pilot:
        await named(pilot, path)
        page = await until(pilot, 'In which unit is the column "Pressure"')
        assert 'In which unit is the column "Time"' in page
        await fill(pilot, **{field.key: "psi" for field in form(pilot.app).fields})
        assert "'psi' is no unit of time" in " ".join(faults(pilot.app).values())
        asked = {field.label: field.key for field in form(pilot.app).fields}
        await fill(pilot, **{asked["Unit of time"]: "s"})
        await until(pilot, r"FILE job.csv .* 300.4 bbl 404 psi")
    followed = next(entry for entry in book.entries if isinstance(entry, FileFollowed))
    assert followed.asked == {"unit of pressure": "psi", "unit of time": "s"}


async def test_a_file_that_is_not_there_is_refused_beside_its_field(book: Book) -> None:
    async with app_on(book).run_test(size=(110, 40)) as pilot:
        await named(pilot, Path("/nowhere/[/]job.csv"))
        assert "There is no file" in shown(pilot.app)
        await pilot.press("escape")
        await pilot.pause()
        assert "FILE" not in shown(pilot.app)


async def test_it_goes_on_when_the_book_is_opened_again(book: Book, path: Path) -> None:
    path.write_text(TITLES + rows(0, 1200))
    async with app_on(book).run_test(size=(110, 40)) as pilot:
        await named(pilot, path)
        await until(pilot, r"FILE job.csv .* 419.9 bbl")
    before = kept(book)
    assert 500 <= len(before) <= 1200
    book.close()
    with path.open("a") as file:
        file.write(rows(1200, 1700))
    with Book.open(book.path) as again:
        async with app_on(again).run_test(size=(110, 40)) as pilot:
            await until(pilot, r"FILE job.csv .* 469.9 bbl")
            await pilot.press("e")
            await until(pilot, "Leave the pump file")
            await fill(pilot, reason="")
            await until(pilot, "pump file left")
        assert kept(again) == [round(300 + 0.1 * n, 1) for n in range(1700)]
    assert verify(book.path).ok


async def test_a_replaced_file_is_left_by_itself_with_the_reason(book: Book, path: Path) -> None:
    path.write_text(TITLES + rows(0, 600))
    async with app_on(book).run_test(size=(110, 40)) as pilot:
        await named(pilot, path)
        await until(pilot, r"FILE job.csv .* 359.9 bbl")
        path.write_text(TITLES + rows(2000, 2005))
        await until(pilot, "'job.csv' was replaced or became shorter; no row of it is kept")
        assert kept(book) == [round(300 + 0.1 * n, 1) for n in range(600)]
    assert "replaced" in book.entries[-1].said()
    assert book.job.followed is None


async def test_two_programs_keep_no_row_twice(book: Book, path: Path) -> None:
    path.write_text(TITLES + rows(0, 20))
    async with app_on(book).run_test(size=(110, 40)) as pilot:
        await named(pilot, path)
        await until(pilot, r"FILE job.csv .* 301.9 bbl")
        with Book.open(book.path) as other:
            async with app_on(other).run_test(size=(110, 40)) as second:
                await until(second, r"FILE job.csv .* 301.9 bbl")
                with path.open("a") as file:
                    file.write(rows(20, 1400))
                await until(second, r"FILE job.csv .* 439.9 bbl")
                await until(pilot, r"FILE job.csv .* 439.9 bbl")
    with Book.open(book.path) as after:
        found = kept(after)
        assert found == [round(300 + 0.1 * n, 1) for n in range(len(found))]
        assert len(found) >= 1000
