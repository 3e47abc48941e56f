"""Verifying: every kind of damage is found and named, and none of it raises."""

import random
import sqlite3
from contextlib import closing

import pytest

from tally.book.journal import chained, genesis
from tally.book.opening import lines_after
from tally.book.reported import Reported
from tally.book.schema import TABLES
from tally.book.verify import verify
from tally.job.entries.watching import Filled, TankRead
from tests.tally.book.invented import BY, at, measure, new_book, note, run


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Return the bytes of a book with something in every table."""
    with new_book(tmp_path_factory.mktemp("book") / "job.book") as book:
        book.record(run("SHOE"))
        book.record(run("1", "centralizer"))
        book.record(TankRead(by=BY, at=at(), volume=measure("21.4 bbl", "volume")))
        book.record(Filled(by=BY, at=at(), source="trip tank"))
        book.record(run("3", despite="joint 2 is being cleaned"))
        book.record(note("wind from the north"))
        return book.path.read_bytes(), book.head


@pytest.fixture
def path(made, tmp_path):
    """Return a fresh copy of that book."""
    copy = tmp_path / "job.book"
    copy.write_bytes(made[0])
    return copy


def alter(path, *statements):
    """Change a book behind its back."""
    with closing(sqlite3.connect(path)) as other:
        for statement in statements:
            other.execute(statement)
        other.commit()


def faults(path):
    """Return the faults found, as one text."""
    report = verify(path)
    assert not report.ok
    return "\n".join(str(finding) for finding in report.findings if not finding.good)


def test_a_sound_book_is_found_sound(made, path):
    report = verify(path)
    assert report.ok, report.findings
    assert (report.count, report.head) == made[1]
    said = "\n".join(str(finding) for finding in report.findings)
    assert "9 entries" in said
    assert made[1][1] in said
    assert "cannot prove: a tail cut off" in said
    assert path.read_bytes() == made[0]


@pytest.mark.parametrize(
    ("sql", "said"),
    [
        ("UPDATE journal SET line = replace(line, '\"3\"', '\"4\"') WHERE seq = 8", "Entry 8 was"),
        ("UPDATE journal SET line = line || ' ' WHERE seq = 5", "Entry 5 was changed"),
        ("UPDATE journal SET hash = lower(hex(zeroblob(32))) WHERE seq = 6", "Entry 6 was changed"),
        ("UPDATE journal SET prev = hash WHERE seq = 6", "Entry 6 does not follow"),
        ("DELETE FROM journal WHERE seq = 6", "Entry 6 is missing: after entry 5 comes entry 7"),
        ("DELETE FROM journal WHERE seq = 1", "Entry 1 is missing"),
        ("UPDATE journal SET seq = 99 WHERE seq = 9", "Entry 9 is missing"),
        ("UPDATE journal SET line = 'not a line' WHERE seq = 5", "entry 5 cannot be read"),
        ("UPDATE journal SET line = '[' || line || ']' WHERE seq = 5", "entry 5 cannot be read"),
        ("UPDATE journal SET line = CAST(x'7bff' AS TEXT) WHERE seq = 5", "Entry 5 was changed"),
        ("UPDATE journal SET book = 'x' WHERE seq = 9", "1 lines of the journal lie under"),
        ("UPDATE items SET length_steps = 4235 WHERE number = '1'", "items, row 1: length_steps"),
        ("UPDATE items SET typed = '42.35' WHERE number = '1'", "items, row 1: typed is '42.35'"),
        ("UPDATE items SET state = 'run' WHERE number = '9'", "items, row 9: state is 'run'"),
        ("UPDATE items SET place = NULL WHERE number = 'SHOE'", "row SHOE: place is None"),
        ("DELETE FROM items WHERE number = '7'", "items lacks row 7"),
        ("UPDATE items SET number = '77' WHERE number = '7'", "items has row 77"),
        ("DELETE FROM fittings", "fittings lacks row 1, 1"),
        ("UPDATE readings SET volume_m3 = volume_m3 + 0.001", "readings, row 6, trip tank"),
        ("UPDATE people SET role = 'driller' WHERE name LIKE 'Sec%'", "people, row Second Hand"),
        ("UPDATE settings SET stick_up_steps = 0", "settings, its one row: stick_up_steps is 0"),
        ("UPDATE limits SET value = '1 s'", "limits, row least_joint_time: value is '1 s'"),
        ("INSERT INTO steps SELECT book, 'a', 'b', '', '', '', '', '', '', '', '', 1 FROM books",
         "steps has row a, b"),
        ("UPDATE items SET typed = 'x' WHERE number != 'SHOE'", "items: 25 more rows differ"),
        ("UPDATE books SET title = 'Another well'", 'the title is "Another well"'),
        ("UPDATE books SET schema = 7", "the schema is 7"),
        ("DELETE FROM books", "holds 0 books"),
        ("DROP TABLE items", "Table items cannot be read"),
        ("ALTER TABLE items RENAME COLUMN typed TO said", "Table items cannot be read"),
        ("DROP VIEW entries", "view entries"),
        ("CREATE TRIGGER t AFTER INSERT ON journal BEGIN DELETE FROM people; END", "a trigger t"),
        ("PRAGMA user_version = 9", "later release"),
        ("PRAGMA application_id = 9", "another program"),
    ],
)  # fmt: skip
def test_what_was_changed_behind_the_book_is_named(path, sql, said):
    alter(path, sql)
    assert said in faults(path)


def test_only_the_first_entry_that_does_not_fit_is_named(path):
    alter(path, "UPDATE journal SET hash = 'x' WHERE seq IN (4, 7)")
    said = faults(path)
    assert "Entry 4 was changed" in said
    assert "Entry 7 was changed" not in said


def test_a_line_written_anew_with_its_hash_breaks_the_next_one(path):
    with closing(sqlite3.connect(path)) as other:
        prev, line = other.execute("SELECT prev, line FROM journal WHERE seq = 5").fetchone()
        line = line.replace('"number":"1"', '"number":"2"')
        other.execute(
            "UPDATE journal SET line = ?, hash = ? WHERE seq = 5", (line, chained(prev, line))
        )
        other.commit()
    said = faults(path)
    assert "Entry 6 does not follow" in said
    assert "Table items" in said


def test_a_chain_of_lines_that_this_program_did_not_write_is_found(path):
    """The whole chain is hashed anew over lines with a space after each colon."""
    with closing(sqlite3.connect(path)) as other:
        (book,) = other.execute("SELECT book FROM books").fetchone()
        head = genesis(book)
        for line in lines_after(other, book, 0):
            text = line.text.replace('":', '": ')
            values = (head, head := chained(head, text), text, line.seq)
            other.execute("UPDATE journal SET prev = ?, hash = ?, line = ? WHERE seq = ?", values)
        other.commit()
    said = faults(path)
    assert "entry 1 was not written by this program" in said
    assert "does not follow" not in said


def test_a_cut_tail_shows_only_against_a_printed_head(made, path):
    count, head = made[1]
    alter(path, "DELETE FROM journal WHERE seq = 9")
    assert verify(path).ok, "a note leaves no row: nothing inside the book can tell"
    cut = verify(path, Reported(count, head))
    assert not cut.ok
    assert any("made at entry 9; the book ends at entry 8" in str(f) for f in cut.findings)


def test_a_printed_head_is_looked_for(made, path):
    count, head = made[1]
    assert verify(path, Reported(count, head[:12].upper())).ok
    assert not verify(path, Reported(count, "")).ok
    other = verify(path, Reported(count - 1, head))
    assert any("is not the one that was reported" in str(f) for f in other.findings)


@pytest.mark.parametrize("content", [b"", b"joint,length\n" * 900, b"SQLite format 3\0" * 600])
def test_a_file_that_is_no_book_is_told(tmp_path, content):
    path = tmp_path / "job.book"
    path.write_bytes(content)
    assert "job.book" in faults(path)
    assert "no book" in faults(tmp_path / "missing.book")
    assert "is a folder" in faults(tmp_path)


def everything(path):
    """Return all that a book says but when it was made, or nothing if it cannot be read."""
    try:
        with closing(sqlite3.connect(path)) as other:
            other.text_factory = bytes
            tables = ("journal", *(table.name for table in TABLES))
            rows = [other.execute(f"SELECT * FROM {name}").fetchall() for name in tables]
            return [*rows, other.execute("SELECT book, schema, title FROM books").fetchall()]
    except sqlite3.Error:
        return None


def test_flipped_bytes_are_found_wherever_they_matter(made, path):
    """Bytes at 424 places; a book found sound after that says what it said before."""
    content, _ = made
    chance = random.Random(4)
    sound = everything(path)
    found = 0
    written = [place for place, byte in enumerate(content) if byte]
    for place in [
        *range(16, 112, 4),
        *chance.sample(written, 300),
        *chance.sample(range(len(content)), 100),
    ]:
        flipped = bytearray(content)
        flipped[place] ^= chance.randrange(1, 256)
        path.write_bytes(flipped)
        if verify(path).ok:
            assert everything(path) == sound, place
        else:
            found += 1
    assert found > 200, "hardly any flip was found; the places are badly chosen"


def test_a_cut_or_torn_file_is_found(made, path):
    content, _ = made
    for size in (100, 512, 4096, 4096 * 3, len(content) - 4096, len(content) - 1):
        path.write_bytes(content[:size])
        assert not verify(path).ok, size
    for page in range(1, len(content) // 4096):
        start = page * 4096
        path.write_bytes(content[:start] + bytes(4096) + content[start + 4096 :])
        assert not verify(path).ok, page
