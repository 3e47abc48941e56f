"""What one station of a book has alone: the stream of the rig, the set-up, its half-typed text."""

from __future__ import annotations

import subprocess
import sys

import pytest

from screens.half_typed import ENDINGS, HalfTyped
from screens.held_file import HeldFile, held
from tally.book.book import Book
from tally.errors import ShoedownError
from tests.screens.books import NOW, Story, app_on, setup
from tests.screens.driving import shown

SMALL = (80, 24)
HOLDS = """
import sys
from pathlib import Path
from screens.held_file import HeldFile
taken = HeldFile.take(Path(sys.argv[1]))
taken.write("Ivo Marek since 02:10")
print("held", flush=True)
sys.stdin.read()
"""


@pytest.fixture
def path(tmp_path):
    """Return a book with some items run."""
    story = Story()
    story.starts(setup(limits={}), 20)
    story.runs(8)
    Book.create(tmp_path / "x.book", story.entries).close()
    return tmp_path / "x.book"


def now(_seconds, act):
    """Do at once what would be done a moment later."""
    act()


def test_a_file_is_held_once_and_gone_when_it_is_let_go(tmp_path):
    path = tmp_path / "held"
    one = HeldFile.take(path)
    assert HeldFile.take(path) is None
    one.write("a longer text")
    one.write("short")
    assert path.read_text() == "short"
    one.let_go()
    assert not path.exists()
    again = HeldFile.take(path)
    again.let_go(remove=False)
    assert path.exists()


def test_what_a_killed_program_held_is_free_again_and_says_who_while_it_lives(path):
    place = path.with_name("x.book.rig-held")
    holder = subprocess.Popen(
        [sys.executable, "-c", HOLDS, place], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert holder.stdout.readline() == b"held\n"
    with pytest.raises(ShoedownError, match=r"^Ivo Marek since 02:10 has it$"):
        held(path, "rig-held", "Ama Osei", NOW, "has it")
    holder.kill()
    holder.communicate()
    mine = held(path, "rig-held", "Ama Osei", NOW, "has it")
    assert place.read_text() == "Ama Osei since 03:12"
    mine.let_go()


def test_where_no_file_can_be_made_the_program_goes_on(tmp_path):
    assert held(tmp_path / "no" / "x.book", "rig-held", "Ama Osei", NOW, "has it") is None


async def test_one_station_reads_the_rig(path, tmp_path):
    (tmp_path / "recorded.txt").write_text("&&\n01151000\n!!\n")
    address = f"file:{tmp_path / 'recorded.txt'}"
    other = held(path, "rig-held", "Ivo Marek", NOW, "")
    with Book.open(path) as book:
        app = app_on(book, "run")
        app.at_start = lambda: app.follow_rig(address, "field")
        async with app.run_test(size=SMALL) as pilot:
            app._watch_over()
            await pilot.pause()
            assert "Ivo Marek since 03:12 reads the stream of the rig into this book" in shown(app)
            assert app.rig is None
            other.let_go()
            app.follow_rig(address, "field")
            assert app.rig is not None
            with pytest.raises(ShoedownError, match="has it"):
                held(path, "rig-held", "Ivo Marek", NOW, "has it")
            app.leave_rig()
            held(path, "rig-held", "Ivo Marek", NOW, "has it").let_go()


def test_each_station_has_a_file_of_its_own_for_what_is_half_typed(path):
    with Book.open(path) as book:
        one, other = HalfTyped(book, now), HalfTyped(book, now)
        one.keep("Note", {"text": "tongs"})
        other.keep("Tank", {"volume": "41"})
        late = HalfTyped(book, now)
        assert late.left.where == ""
        other.drop()
        files = [path.with_name(f"x.book{each}") for each in ENDINGS]
        assert [each.exists() for each in files[:2]] == [True, False]
        assert "tongs" in files[0].read_text()
        one.end()
        assert HalfTyped(book, now).left.texts == {"text": "tongs"}


async def test_enter_waits_for_a_glance_where_another_station_changed_what_is_next(path):
    with Book.open(path) as book, Book.open(path) as elsewhere:
        app = app_on(book, "run")
        async with app.run_test(size=SMALL) as pilot:
            story = Story()
            story.starts(setup(limits={}), 20)
            story.runs(9)
            elsewhere.record(story.entries[-1])
            app._look()
            await pilot.press("enter")
            await pilot.pause()
            assert "Look at NEXT, then press Enter again" in shown(app)
            assert len(app.job.string) == 9
            app.next_changed -= 2
            await pilot.pause(0.8)  # the key is not held down
            await pilot.press("enter")
            await pilot.pause()
            assert len(app.job.string) == 10
