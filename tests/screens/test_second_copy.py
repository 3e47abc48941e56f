"""The second copy: made when nobody enters, told in words when it fails, never in the way."""

import asyncio
import shutil
import threading
import time
from pathlib import Path

import pytest

from screens import second_copy
from screens.app import ShoedownApp
from screens.second_copy import QUIET_SECONDS, SecondCopy, copy_on_leaving
from tally.book.book import Book
from tally.book.second_place import SETTING, copy_name
from tally.errors import BookMissing
from tests.screens.driving import shown
from tests.tally.book.invented import new_book, note


@pytest.fixture
def second(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that is set for copies."""
    (tmp_path / "second").mkdir()
    monkeypatch.setenv(SETTING, str(tmp_path / "second"))
    return tmp_path / "second"


@pytest.fixture
def book(tmp_path: Path):
    """Yield a short book."""
    with new_book(tmp_path / "job.book") as made:
        yield made


def test_it_is_due_once_nobody_has_entered_anything_for_a_while(tmp_path: Path) -> None:
    copy = SecondCopy(None, tmp_path)  # type: ignore[arg-type]
    assert not copy.due((3, "a"), 100.0)
    assert not copy.due((3, "a"), 100.0 + QUIET_SECONDS - 0.1)
    assert not copy.due((4, "b"), 100.0 + QUIET_SECONDS)
    assert not copy.due((4, "b"), 100.0 + 2 * QUIET_SECONDS - 0.1)
    assert copy.due((4, "b"), 100.0 + 2 * QUIET_SECONDS)


async def until(pilot, what) -> None:
    """Wait for something, at most some seconds."""
    for _ in range(200):
        if what():
            return
        await pilot.pause(0.02)
    raise AssertionError("it did not happen")


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """Take quiet for granted, and look often."""
    monkeypatch.setattr(second_copy, "QUIET_SECONDS", 0.0)
    monkeypatch.setattr(second_copy, "LOOK_SECONDS", 0.02)
    monkeypatch.setattr("screens.app.SETTLED_SECONDS", 0.01)


async def test_the_copy_follows_the_book(book: Book, second: Path, quick: None) -> None:
    place = second / copy_name(book.path, book.id)
    app = ShoedownApp(book, who="Ama")
    async with app.run_test() as pilot:
        await until(pilot, place.exists)
        book.record(note("later"))
        await until(pilot, lambda: entries(place) == book.head[0])
    assert [each.name for each in second.iterdir()] == [place.name]


def entries(place: Path) -> int:
    """Return how many entries a copy has; 0 while a newer one takes its place."""
    try:
        with Book.open(place, look_only=True) as copy:
            return copy.head[0]
    except BookMissing:
        return 0


async def test_a_failure_is_told_once_and_entering_goes_on(
    book: Book, second: Path, quick: None
) -> None:
    shutil.rmtree(second)
    app = ShoedownApp(book, who="Ama")
    async with app.run_test(size=(160, 40)) as pilot:
        await until(pilot, lambda: "No second copy: There is no folder" in shown(app))
        await pilot.press("down")
        book.record(note("still saved"))
        for _ in range(5):
            await pilot.pause(0.03)
        assert "No second copy" not in shown(app)
    assert book.head[0] == 4


async def test_a_drive_that_is_no_place_for_a_book_is_told(
    book: Book, quick: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tally.book.medium.medium", lambda _path: "removable")
    app = ShoedownApp(book, who="Ama")
    async with app.run_test(size=(200, 40)) as pilot:
        await until(pilot, lambda: "job.book lies on a removable drive" in shown(app))


async def test_an_entry_does_not_wait_for_a_copy(
    book: Book, second: Path, quick: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun = asyncio.Event()
    loop = asyncio.get_running_loop()
    held = asyncio.Event()

    def slow(*_: object) -> None:
        loop.call_soon_threadsafe(begun.set)
        asyncio.run_coroutine_threadsafe(held.wait(), loop).result(5)

    monkeypatch.setattr(second_copy, "copied", slow)
    async with ShoedownApp(book, who="Ama").run_test():
        await asyncio.wait_for(begun.wait(), 5)
        book.record(note("while it is copied"))
        assert book.head[0] == 4
        held.set()


async def test_a_book_left_while_it_is_copied_is_left_without_a_fault(
    book: Book, second: Path, quick: None, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, app = threading.Event(), ShoedownApp(book, who="Ama")

    def late(*_: object) -> None:
        begun.set()
        time.sleep(0.2)
        raise BookMissing("the stick was pulled out")

    monkeypatch.setattr(second_copy, "copied", late)
    async with app.run_test() as pilot:
        await until(pilot, begun.is_set)
        app.exit()
    await asyncio.sleep(0.3)
    assert app.return_code == 0


def test_a_book_that_is_left_is_copied(book: Book, second: Path) -> None:
    assert copy_on_leaving(book) == ""
    assert entries(second / copy_name(book.path, book.id)) == 3
    shutil.rmtree(second)
    assert copy_on_leaving(book).startswith("No second copy: There is no folder")


def test_where_no_second_place_is_set_nothing_is_copied(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(SETTING, raising=False)
    assert copy_on_leaving(book) == ""
    assert [each.name for each in tmp_path.iterdir()] == ["job.book"]
