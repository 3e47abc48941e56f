"""The command line on books: new, verify, export, and what only looks."""

from __future__ import annotations

import json
import re
import shutil
import sqlite3
from pathlib import Path

from demo_db.play import play
from tally.book.book import Book
from tally.job.entries.people import Note
from tests.screens.by_command import JOB, program, run


def test_new_makes_a_book_that_verifies(tmp_path: Path) -> None:
    book = tmp_path / "job.db"
    done = run("new", book, "--from", JOB, "--by", "Ama Osei")
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.splitlines() == [
        "Larkspur 14, 9-5/8 in intermediate: 205 joints on location.",
        f"Book made: {book}",
    ]
    assert run("verify", book).exit_code == 0
    assert run("new", book, "--from", JOB).exit_code == 2


def test_new_tells_of_a_slurry_that_its_recipe_does_not_make(tmp_path: Path) -> None:
    lead = 'name = "lead"\nkind = "slurry"\n'
    text = JOB.read_text("utf-8").replace(lead, f'{lead}slurry_yield = "2.30 ft3/sk"\n')
    for each in JOB.parent.iterdir():
        if each.is_file():
            (tmp_path / each.name).write_bytes(each.read_bytes())
    (tmp_path / "job.toml").write_text(text, "utf-8")
    done = run("new", tmp_path / "x.db", "--from", tmp_path / "job.toml", "--by", "Ama Osei")
    doubt, water = [each for each in done.stdout.splitlines() if each.startswith("In doubt: ")]
    assert doubt.startswith("In doubt: Yield of lead is typed as 2.30 ft3/sk, but its recipe makes")
    assert "The typed one is used for the sacks" in doubt
    assert water.startswith("In doubt: Mix water of lead is not typed: ")


def test_the_login_name_stands_in_for_by(tmp_path: Path) -> None:
    book = tmp_path / "job.db"
    done = program("new", book, "--from", JOB, LOGNAME="kweku")
    assert (done.returncode, done.stderr) == (0, "")
    with sqlite3.connect(book) as connection:
        lines = connection.execute("SELECT line FROM journal").fetchall()
    connection.close()
    assert {json.loads(line)["by"] for (line,) in lines} == {"kweku"}


def test_verify_finds_a_changed_line_and_leaves_with_1(tmp_path: Path) -> None:
    book = play(tmp_path / "job.db", until="third")
    assert program("verify", book).returncode == 0
    with sqlite3.connect(book) as connection:
        triggers = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        for (name,) in triggers.fetchall():
            connection.execute(f'DROP TRIGGER "{name}"')
        connection.execute("UPDATE journal SET line = replace(line, '40.77', '40.78')")
        connection.execute("UPDATE journal SET line = line || ' ' WHERE seq = 9")
    connection.close()
    done = program("verify", book)
    assert done.returncode == 1
    assert done.stderr == ""
    assert "9" in done.stdout
    assert "FAULTS" in done.stdout


def test_verify_of_no_book_leaves_with_1() -> None:
    done = run("verify", "none.db")
    assert done.exit_code == 1
    assert "There is no book at" in done.stdout


def test_export_writes_its_files_and_says_where(third: Path, tmp_path: Path) -> None:
    done = run("export", third, "--to", tmp_path / "out")
    assert done.exit_code == 0
    first, *written = done.stdout.splitlines()
    assert first.startswith("NOT FINAL")
    paths = [Path(line.removeprefix("Written: ")) for line in written]
    assert sorted(paths) == sorted((tmp_path / "out").iterdir())
    assert {path.name for path in paths} >= {"job-tally-not-final.txt", "job-job.toml"}


def test_an_export_of_some_kinds_only(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path / "a", "--only", "job", "--only", "text").stdout
    assert {path.suffix for path in (tmp_path / "a").iterdir()} == {".toml", ".txt"}
    refused = run("export", third, "--to", tmp_path / "b", "--only", "parchment")
    assert refused.exit_code == 2
    assert 'no kind of report "parchment"; the kinds are text, csv,' in refused.stderr
    assert not (tmp_path / "b").exists()


def test_the_job_file_of_an_export_makes_the_same_set_up(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path).exit_code == 0
    again = tmp_path / "again.db"
    assert run("new", again, "--from", tmp_path / "job-job.toml").exit_code == 0
    with Book.open(third) as first, Book.open(again) as second:
        assert second.job.setup == first.job.setup


def test_the_json_of_an_export_makes_the_same_book(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path / "one", "--only", "json").exit_code == 0
    file, again = tmp_path / "one" / "job-book.json", tmp_path / "job.db"
    made = run("new", again, "--from", file)
    assert made.exit_code == 0
    assert "Book made again and verified" in made.stdout
    assert run("export", again, "--to", tmp_path / "two", "--only", "json").exit_code == 0
    assert (tmp_path / "two" / "job-book.json").read_bytes() == file.read_bytes()
    assert "already" in run("new", again, "--from", file).stderr
    assert "leave --by out" in run("new", "x.db", "--from", file, "--by", "Ama").stderr
    file.write_text(file.read_text().replace("Larkspur", "Larkspar"))
    refused = run("new", tmp_path / "third.db", "--from", file)
    assert (refused.exit_code, "Entry 1 was changed" in refused.stderr) == (2, True)
    assert not (tmp_path / "third.db").exists()


def test_a_book_is_held_against_what_it_exported(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path).exit_code == 0
    page = tmp_path / "job-tally-not-final.txt"
    book_file = Path(shutil.copy(third, tmp_path / "copy.db"))
    with Book.open(book_file) as book:
        count, head = book.head
        book.record(Note(by="Ama Osei", at="2026-03-02T00:00:00+01:00", text="after the report"))
    for given in (tmp_path / "job-book.json", page, f"{count} {head[:12]}"):
        done = run("verify", book_file, "--against", given)
        assert done.exit_code == 0, done.stdout
        assert f"entries 1 to {count} exactly as reported; 1 entry came after" in done.stdout
        assert ("word for word" in done.stdout) == (given is page)
    text = page.read_text("ascii")
    page.write_text(text.replace("SHOE DEPTH  ", "SHOE DEPTH 9", 1))
    done = run("verify", book_file, "--against", page)
    assert done.exit_code == 1
    assert re.search(
        r'Line \d+ of the page reads "SHOE DEPTH 9.*this release writes "SHOE', done.stdout
    )
    listing = run("verify", book_file, "--against", tmp_path / "job-running-list.txt")
    assert "Only the count and the hash of this page were looked at." in listing.stdout
    refused = run("verify", book_file, "--against", "44 0f3a")
    assert (refused.exit_code, "at least the first 12" in refused.stderr) == (2, True)


def test_look_only_commands_leave_the_book_as_it_was(third: Path, tmp_path: Path) -> None:
    before = third.read_bytes()
    for words in (("figures", third), ("export", third, "--to", tmp_path), ("verify", third)):
        assert run(*words).exit_code == 0
    assert third.read_bytes() == before
