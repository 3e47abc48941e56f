"""What verifying a book tells of its signatures."""

import sqlite3
from contextlib import closing

import pytest

from tally.book.book import Book
from tally.book.journal import chained
from tally.book.verify import verify
from tally.job.entries.correction import Correction
from tally.job.entries.signing import ReportSigned
from tests.tally.book.invented import note
from tests.tally.job.invented import LEAD, REP, landed

ROLE = "company representative"


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "job.book", landed().entries) as made:
        yield made


def sign(book, meaning="approved", name=REP, role=ROLE):
    count, head = book.head
    told = {"name": name, "role": role, "meaning": meaning, "reports": ("tally",)}
    book.record(ReportSigned(by=name, at=book.job.last, entries=count, head=head, **told))
    return count


def told(book):
    """Return what verifying says of signatures, each with whether it is good."""
    found = verify(book.path).findings
    return [(str(each), each.good) for each in found if "casing tally" in str(each)]


def test_a_signature_holds_and_nothing_came_after(book):
    count = sign(book)
    assert told(book) == [
        (
            f"Entry {count + 1}, casing tally: approved by {REP}, {ROLE}, without a PIN: entries "
            f"1 to {count} are as signed; nothing but signatures and PINs came after it.",
            True,
        )
    ]
    assert verify(book.path).ok


def test_an_entry_after_it_is_counted_and_one_that_amends_is_named(book):
    sign(book, "prepared", LEAD, "casing crew lead")
    sign(book)
    book.record(note("slips set"))
    assert [each.endswith("are as signed; 1 entry came after it.") for each, _ in told(book)] == [
        True,
        True,
    ]
    book.record(Correction(by=LEAD, at=book.job.last, of=4, reason="slip",
                           instead={"number": "1"}))  # fmt: skip
    seq = book.head[0]
    assert all(
        each.endswith(f"are as signed; 2 entries came after it, {seq} amending what was signed.")
        for each, _ in told(book)
    )
    assert verify(book.path).ok


def test_a_signature_written_into_a_chain_made_anew_does_not_hold(book):
    """A length is changed and every hash after it made anew; the signature names another end."""
    count = sign(book)
    path = book.path
    book.close()
    with closing(sqlite3.connect(path)) as other:
        rows = other.execute("SELECT seq, prev, line FROM journal ORDER BY seq").fetchall()
        head = rows[0][1]
        for seq, _, line in rows:
            text = line.replace('"typed":"40.07"', '"typed":"40.70"') if seq == 2 else line
            other.execute(
                "UPDATE journal SET prev = ?, line = ?, hash = ? WHERE seq = ?",
                (head, text, chained(head, text), seq),
            )
            head = chained(head, text)
        other.commit()
    report = verify(path)
    assert any("The chain holds" in str(each) for each in report.findings), "the forger was good"
    assert not report.ok
    (bad,) = [str(each) for each in report.findings if "does not hold" in str(each)]
    assert f"approved by {REP}" in bad
    assert f"was made on {count} entries" in bad


def test_signatures_are_rows_for_other_tools(book):
    count = sign(book)
    with closing(sqlite3.connect(book.path)) as other:
        rows = other.execute(
            "SELECT seq, name, role, meaning, pin, reports, entries, head FROM signatures"
        ).fetchall()
        (hashed,) = other.execute("SELECT hash FROM journal WHERE seq = ?", (count,)).fetchone()
    assert rows == [(count + 1, REP, ROLE, "approved", 0, "tally", count, hashed)]
