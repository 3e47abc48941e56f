"""A report against its book: what still holds, what was touched, and what cannot be told."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tally.book.book import Book
from tally.book.document import document_text
from tally.book.journal import chained
from tally.book.reported import LIMITS, read_reported, reported_on_pages
from tally.book.verify import verify
from tally.errors import InputError, ShoedownError
from tests.tally.book.invented import new_book, note, run

COUNT = 9
"""Entries at the report."""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, str, str]:
    """Return the bytes of a book with three entries after a report, the JSON, the hash."""
    with new_book(tmp_path_factory.mktemp("book") / "job.book") as book:
        for entry in (run("SHOE"), run("1"), run("2"), *map(note, ("one", "two", "three"))):
            book.record(entry)
        told, head = document_text(book.document()), book.head
        assert head[0] == COUNT
        for word in ("four", "five", "six"):
            book.record(note(word))
        return book.path.read_bytes(), told, head[1]


@pytest.fixture
def path(made: tuple[bytes, str, str], tmp_path: Path) -> Path:
    """Return a fresh copy of the book."""
    copy = tmp_path / "job.book"
    copy.write_bytes(made[0])
    return copy


Report = Callable[[str], str]


@pytest.fixture
def report(made: tuple[bytes, str, str], tmp_path: Path) -> Report:
    """Return what is given for a report of one form."""
    _, told, head = made
    (tmp_path / "report.json").write_text(told)
    foot = f"{'-' * 100}\n{COUNT} entries, chain ends {head}\n"
    (tmp_path / "page.txt").write_text(f"TALLY page 1\n{foot}TALLY page 2\n{foot}")
    return {
        "json": str(tmp_path / "report.json"),
        "page": str(tmp_path / "page.txt"),
        "code": f"{COUNT} {head}",
        "short": f"{COUNT} {head[:12].upper()}",
        "foot": f"{COUNT} entries, chain ends {head}",
    }.__getitem__


FORMS = ("json", "page", "code", "short", "foot")


def said(path: Path, given: str) -> tuple[bool, str]:
    """Return whether all is well, and everything that is said."""
    found = verify(path, read_reported(given))
    return found.ok, "\n".join(map(str, found.findings))


def alter(path: Path, *statements: str) -> None:
    """Change a book behind its back."""
    with closing(sqlite3.connect(path)) as other:
        for statement in statements:
            other.execute(statement)
        other.commit()


def rewrite(path: Path, seq: int, old: str, new: str) -> None:
    """Change a line and hash the chain anew from there to its end."""
    with closing(sqlite3.connect(path)) as other:
        head = other.execute("SELECT prev FROM journal WHERE seq = ?", (seq,)).fetchone()[0]
        later = other.execute("SELECT seq, line FROM journal WHERE seq >= ?", (seq,)).fetchall()
        for place, text in later:
            line = text.replace(old, new) if place == seq else text
            values = (line, head, chained(head, line), place)
            other.execute("UPDATE journal SET line = ?, prev = ?, hash = ? WHERE seq = ?", values)
            head = values[2]
        other.commit()


@pytest.mark.parametrize("form", FORMS)
def test_a_sound_book_holds_what_was_reported(path: Path, report: Report, form: str) -> None:
    ok, told = said(path, report(form))
    assert ok, told
    assert "entries 1 to 9 exactly as reported; 3 entries came after that." in told
    assert LIMITS in told


@pytest.mark.parametrize("form", FORMS)
def test_one_length_changed_by_sql_is_named(path: Path, report: Report, form: str) -> None:
    alter(path, "UPDATE journal SET line = replace(line, '4105', '4150') WHERE seq = 3")
    ok, told = said(path, report(form))
    assert not ok
    assert "Entry 3 was changed after it was written" in told
    assert "exactly as reported" not in told
    if form == "json":
        assert "Entry 3 is not as it was reported. Reported: ..." in told
        assert '"length":4105' in told
        assert '"length":4150' in told


@pytest.mark.parametrize("form", FORMS)
def test_a_chain_hashed_anew_shows_only_against_a_report(
    path: Path, report: Report, form: str
) -> None:
    rewrite(path, 8, '"two"', '"too"')
    assert verify(path).ok, "from inside nothing can tell"
    ok, told = said(path, report(form))
    assert not ok
    if form == "json":
        assert "Entry 8 is not as it was reported; 2 entries differ in all" in told
        assert '"two"' in told
        assert '"too"' in told
    else:
        assert "Entry 9 is not the one that was reported" in told
        assert "the JSON of that report names the first" in told


@pytest.mark.parametrize("form", FORMS)
def test_a_tail_cut_off_shows_only_against_a_report(path: Path, report: Report, form: str) -> None:
    alter(path, "DELETE FROM journal WHERE seq > 7")
    assert verify(path).ok
    ok, told = said(path, report(form))
    assert not ok
    if form == "json":
        assert "Entry 8 was reported and is not in the book; 2 entries differ in all" in told
    else:
        assert "made at entry 9; the book ends at entry 7" in told


@pytest.mark.parametrize("form", FORMS)
def test_what_came_after_the_report_is_not_its_concern(
    path: Path, report: Report, form: str
) -> None:
    rewrite(path, 11, '"five"', '"fife"')
    assert said(path, report(form))[0]
    alter(path, "DELETE FROM journal WHERE seq > 9")
    assert "none came after that" in said(path, report(form))[1]


def test_another_book_is_told(report: Report, tmp_path: Path) -> None:
    new_book(tmp_path / "other.book").close()
    ok, told = said(tmp_path / "other.book", report("json"))
    assert not ok
    assert "The report is of another book" in told


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ("44 0f3a9c51d2e", "The hash has 11 digits; type at least the first 12"),
        ("44 " + "a" * 65, "The hash has 65 digits"),
        ("44", "neither a file nor a code"),
        ("0f3a9c51d2e7", "neither a file nor a code"),
        ("44 0f3a9c51d2eg", "neither a file nor a code"),
        ("none.json", "neither a file nor a code"),
        ("\x1b[31m\x00", "neither a file nor a code"),
        ("", "neither a file nor a code"),
    ],
)
def test_what_is_no_report_is_told(given: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        read_reported(given)


def test_counts_are_typed_with_and_without_marks() -> None:
    head = "0f3a9c51d2e7"
    for given in (f"1,204 {head}", f" 1204  {head} ", f"1204 entries, chain ends {head}"):
        read = read_reported(given)
        assert (read.count, read.head) == (1204, head)


def test_pages_of_two_reports_are_refused() -> None:
    feet = "".join(
        f"{'-' * 100}\r\n{count} entries, chain ends {hashed * 64}\r\n"
        for count, hashed in ((9, "a"), (12, "b"))
    )
    with pytest.raises(InputError, match="different hashes, at entries 9, 12"):
        reported_on_pages(feet, "page.txt")


def test_a_remark_that_looks_like_a_foot_is_none() -> None:
    foot = f"9 entries, chain ends {'a' * 64}\n"
    with pytest.raises(InputError, match="neither the JSON nor the text page"):
        reported_on_pages(f"remark\n{foot}  {'-' * 40}\n  {foot}", "page.txt")


def test_a_file_that_is_no_report_is_told(made: tuple[bytes, str, str], tmp_path: Path) -> None:
    for name, content, message in (
        ("book", made[0], "type the count and the hash"),
        ("cut.json", made[1][:-900].encode(), "cannot be read as JSON"),
        ("changed.json", made[1].replace("three", "thr33").encode(), "Entry 9 was changed"),
    ):
        (tmp_path / name).write_bytes(content)
        with pytest.raises(ShoedownError, match=message):
            read_reported(str(tmp_path / name))


def test_a_look_at_a_report_leaves_the_book_alone(
    made: tuple[bytes, str, str], path: Path, report: Report
) -> None:
    said(path, report("json"))
    assert path.read_bytes() == made[0]
    Book.open(path).close()
