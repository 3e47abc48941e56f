"""The view of a book in a real browser: it shows what the book holds, and nothing comes from afar.

On a machine without a browser these tests are skipped and say so; in CI that is a failure.
"""

from __future__ import annotations

import asyncio
import socket
import sys
import time
from contextlib import asynccontextmanager
from urllib.parse import urlsplit

import pytest

from tally.book.book import Book
from tally.job.entries.running import ItemRun
from tests.drive.browser import LOOK_AGAIN, PATIENCE, Browser, program
from tests.drive.jobs import before, book_at, unhurried
from tests.drive.surroundings import environment

WATCH = (sys.executable, "-m", "screens.start", "watch")
needs_browser = pytest.mark.skipif(
    not program(), reason="no browser on this machine: the view in one was not looked at"
)


@pytest.fixture
def book(tmp_path):
    """Return a book a third run; its name means something to a shell and to a page."""
    return book_at(tmp_path / "a b'; $(touch x) <i>&.book", unhurried(before("89")))


def free_port():
    """Return a port of this machine that nobody listens at."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


async def answers(port):
    """Wait until somebody listens at a port of this machine."""
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        try:
            _reader, writer = await asyncio.open_connection("127.0.0.1", port)
        except OSError:
            await asyncio.sleep(LOOK_AGAIN)
        else:
            writer.close()
            return
    raise AssertionError("nobody ever listened")


@asynccontextmanager
async def served(book):
    """Serve the view of a book; give its address."""
    port = free_port()
    process = await asyncio.create_subprocess_exec(
        *WATCH,
        book,
        "--browser",
        "--port",
        str(port),
        stdout=asyncio.subprocess.PIPE,
        env=environment(),
    )
    try:
        said = await asyncio.wait_for(process.stdout.readline(), PATIENCE)
        assert f"http://127.0.0.1:{port} (from this machine only)" in said.decode()
        await answers(port)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        assert await asyncio.wait_for(process.wait(), PATIENCE) == 0


def runs(path, number):
    """Run a joint as another program would; return where the shoe is then, as a page says it."""
    with Book.open(path) as book:
        book.record(ItemRun(by="Ama Osei", at="2026-03-14T03:20:00+01:00", number=number))
        made = book.job.string[-1]
        assert made.number == number
        stick_up = 322  # the set-up of the demonstration: 3.22 ft, in its step of 0.01 ft
        return f"SHOE AT {(made.top - stick_up) / 100:,.2f} ft"


@needs_browser
async def test_a_browser_shows_the_shoe_of_the_book_and_follows_it(book, tmp_path):
    with Book.open(book, look_only=True) as found:
        head = found.head
    async with served(book) as address, Browser(tmp_path) as browser:
        await browser.open(address)
        await browser.wait_for("SHOE AT 3,533.45 ft")
        await browser.wait_for("NEXT  joint 89")
        await browser.wait_for("LOOK ONLY nothing can be entered")
        before_it = await browser.picture()
        after = await asyncio.to_thread(runs, book, "89")
        assert after == "SHOE AT 3,573.72 ft"  # 3,533.45 and the 40.27 of joint 89
        await browser.wait_for(after)
        assert await browser.picture() != before_it
        await browser.press("Enter", "Enter", 13, "\r")
        await browser.wait_for("nothing can be entered here")
        await browser.press("F3", "F3", 114)
        await browser.wait_for("joint 90: 41.06 ft")
        assert await browser.told("document.title") == f"{book.name} - look only"
        asked = {urlsplit(one).hostname for one in browser.asked if one != "about:blank"}
        assert asked == {"127.0.0.1"}
    with Book.open(book, look_only=True) as found:
        assert found.head[0] == head[0] + 1
    assert not (tmp_path / "x").exists()


@needs_browser
async def test_a_browser_is_told_of_a_book_that_is_gone(book, tmp_path):
    async with served(book) as address, Browser(tmp_path) as browser:
        await browser.open(address)
        await browser.wait_for("SHOE AT")
        book.unlink()
        await browser.wait_for("was moved, deleted or replaced")
        await browser.open(address)
        await browser.wait_for("There is no book at")
