"""The rows: what they say, what an entry writes, and what the views add."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from tally.book.changed import changed_numbers
from tally.book.rows import differences, rows_of
from tally.book.schema import TABLES
from tally.job.depths import reaches
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import PersonAdded
from tally.job.entries.pipe import SentAway
from tally.job.entries.running import Fitted, LaidDown, PulledOut, Rejected
from tally.job.entries.steps import StepDone
from tally.job.entries.watching import Filled, TankRead
from tally.job.fold import EMPTY, fold, fold_on
from tally.job.job import Fitting, Item
from tests.tally.book.invented import BY, at, beginning, measure, note, run


def read(book, query):
    """Return what SQL finds in a book, as another tool would."""
    with closing(sqlite3.connect(book.path)) as other:
        return other.execute(query).fetchall()


def test_items_say_what_stands_now(book):
    for entry in (run("SHOE"), run("1"), run("2")):
        book.record(entry)
    book.record(LaidDown(by=BY, at=at(), number="2", reason="thread galled"))
    book.record(Rejected(by=BY, at=at(), number="3", reason="drift stuck"))
    book.record(SentAway(by=BY, at=at(), number="30", reason="bent"))
    columns = "number, kind, length_steps, typed, state, reason, place, joint"
    wanted = "('SHOE', '1', '2', '3', '4', '30')"
    assert read(book, f"SELECT {columns} FROM items WHERE number IN {wanted}") == [
        ("1", "joint", 4101, "41.01", "run", "", 2, 1),
        ("2", "joint", 4102, "41.02", "laid down", "thread galled", None, None),
        ("3", "joint", 4103, "41.03", "rejected", "drift stuck", None, None),
        ("30", "joint", 4130, "41.30", "sent away", "bent", None, None),
        ("4", "joint", 4104, "41.04", "on rack", "", None, None),
        ("SHOE", "shoe", 185, "1.85", "run", "", 1, None),
    ]


def test_every_table_says_what_the_job_says(book):
    book.record(run("SHOE"))
    book.record(run("1", "centralizer"))
    book.record(TankRead(by=BY, at=at(), volume=measure("21.4 bbl", "volume")))
    book.record(Filled(by=BY, at=at(), source="trip tank"))
    book.record(PersonAdded(by=BY, at=at(), name="Third Hand", role="driller"))
    book.record(
        StepDone(by=BY, at=at(), list_id="short", step_id="load", witness="Second Hand",
                 despite="looked at twice", second="Second Hand")
    )  # fmt: skip
    assert read(book, "SELECT number, place, what, count FROM fittings") == [
        ("1", 1, "centralizer", 1)
    ]
    assert read(book, "SELECT seq, what, volume, source, mark FROM readings ORDER BY seq") == [
        (6, "trip tank", "21.4 bbl", "", 1),
        (7, "fill", "", "trip tank", 0),
    ]
    assert ("Third Hand", "driller") in read(book, "SELECT name, role FROM people")
    assert read(book, "SELECT list, step, outcome, done_by, witness FROM steps") == [
        ("short", "load", "done", BY, "Second Hand")
    ]
    ((place, seq, what, closed_by),) = read(
        book, "SELECT place, seq, what, closed_by FROM exceptions"
    )
    assert (place, seq, closed_by) == (1, 9, "")
    assert what == book.job.exceptions[0].what
    told = {"reason": "looked at again", "second": "Third Hand"}
    book.record(ExceptionClosed(by="Second Hand", at=at(), of=9, **told))
    assert read(book, "SELECT closed_by, closing FROM exceptions") == [
        ("Second Hand", "looked at again (second person: Third Hand)")
    ]
    assert read(book, "SELECT unit, step, steps_per_unit, stick_up_steps FROM settings") == [
        ("ft", "0.01 ft", 100, 300)
    ]
    assert read(book, "SELECT name, value, owner FROM limits") == [
        ("least_joint_time", "1.5 min", BY)
    ]
    assert read(book, "SELECT title FROM books") == [("Sandpiper 2, 9-5/8 in casing",)]


def test_running_depths_agree_with_the_job(book):
    for entry in (run("SHOE"), run("1"), run("2")):
        book.record(entry)

    def agrees():
        depths = read(book, "SELECT number, length, top_depth, bottom_depth FROM running_depths")
        assert depths == [
            (each.made.number, each.made.length / 100, each.top / 100, each.bottom / 100)
            for each in reaches(book.job)
        ]
        return depths

    assert agrees()[0] == ("SHOE", 1.85, 79.03, 80.88)
    landing = OnDepth(by=BY, at=at(), stick_up=410, counted=28, typed="4.10", despite="as told")
    book.record(landing)
    assert agrees()[0] == ("SHOE", 1.85, 77.93, 79.78)


def test_tables_are_strict(book):
    book.close()
    with closing(sqlite3.connect(book.path)) as other:
        strict = dict(other.execute("SELECT name, strict FROM pragma_table_list").fetchall())
        assert {strict[name] for name in ("books", "journal", *(t.name for t in TABLES))} == {1}
        with pytest.raises(sqlite3.IntegrityError):
            other.execute("UPDATE items SET length_steps = 'long'")


def test_an_ordinary_entry_writes_only_what_it_changes():
    """The same few rows at joint 5 and at joint 1,995 of the same string."""
    job = fold(replace(entry, seq=seq) for seq, entry in enumerate(beginning(2000), start=1))
    joint = [fold_on(job, run("1", despite="no shoe"))]
    for number in range(2, 1997):
        joint.append(fold_on(joint[-1], run(str(number), despite="in order of the rack")))
    for place in (5, 1995):
        changes = list(differences(joint[place - 1], joint[place]))
        written = {change.table.name: (change.gone, len(change.put)) for change in changes}
        assert {name: size for name, size in written.items() if size[1]} == {"items": ((), 1)}
    assert list(differences(joint[3], fold_on(joint[3], note("x")))) == []


@pytest.mark.parametrize(
    "entry",
    [
        run("3", "centralizer", despite="2 lies under it"),
        PulledOut(by=BY, at=at(), number="1"),
        LaidDown(by=BY, at=at(), number="1", reason="galled"),
        Fitted(by=BY, at=at(), number="1", fittings=(Fitting("scratcher", count=2),)),
        Fitted(by=BY, at=at(), number="SHOE", fittings=(Fitting("stop collar"),), despite="late"),
        PersonAdded(by=BY, at=at(), name="Third Hand", role="driller"),
    ],
)
def test_differences_lead_from_the_old_rows_to_the_new(entry):
    start = [*beginning(), run("SHOE"), run("1", "centralizer", "centralizer")]
    old = fold(replace(each, seq=seq) for seq, each in enumerate(start, start=1))
    new = fold_on(old, replace(entry, seq=9))
    rows = rows_of(old)
    for change in differences(old, new):
        for key in change.gone:
            del rows[change.table.name][key]
        rows[change.table.name].update(change.table.keyed(change.put))
    assert rows == rows_of(new)
    assert rows != rows_of(old)
    assert all(table == {} for table in rows_of(EMPTY).values())


def test_an_item_under_another_number_is_seen_as_one_gone_and_one_new():
    one, two, three = (Item(number, "joint", 4100, "41.00") for number in "123")
    old, new = {"1": one, "2": two}, {"1": one, "3": three}
    assert changed_numbers(old, new) == {"2", "3"}
    assert changed_numbers(old, {"2": two, "1": one}) == set()
    assert changed_numbers(old, {"1": one}) == {"2"}
    assert changed_numbers(old, {"1": replace(one, state="run"), "2": replace(two)}) == {"1"}
