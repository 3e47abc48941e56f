"""The questions of an office, asked of books with known answers; both engines answer alike."""

import json
from dataclasses import replace

import pytest

from tally.book.book import Book
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.landing import OnDepth
from tally.job.entries.people import ListTaken, SetUp
from tally.job.entries.running import ItemRun
from tally.job.entries.steps import StepDone
from tally.job.entry import to_fields as entry_fields
from tally.job.setup import Limit
from tally.office.views import EVERY_VIEW
from tally.steps.model import Checklist, Step, to_fields
from tests.tally.book.invented import BY, received, setup
from tests.tally.office.look import ask
from tests.tally.office.test_gathering import bring

BUMP = "plug-release"


def clock(hour, minute=0):
    """Return a time of the day of the job."""
    return f"2026-03-14T{hour:02}:{minute:02}:00+01:00"


def checklist():
    """Return a list with the volume at the bump, held against a limit."""
    step = Step(
        id="bump-volume",
        text="Give the volume pumped at the bump",
        who="cementer",
        want="value",
        quantity="volume",
        expect="limit:over_displacement",
        compare="at most",
    )
    return Checklist(
        id=BUMP, title="Plugs", page="plugs", purpose="", caution="", steps=(step,), source=""
    )


def entries(well, rig, joints, minutes, bump):
    """Yield a job: the shoe at five, so many joints so many minutes apart, on depth, a bump."""
    plan = setup()
    limit = Limit(text="2 bbl", owner=BY, source="invented")
    plan = replace(
        plan,
        well=replace(plan.well, name=well, rig=rig),
        limits={**plan.limits, "over_displacement": limit},
    )
    yield SetUp(by=BY, at=clock(4), setup=plan)
    yield ListTaken(by=BY, at=clock(4), checklist=to_fields(checklist()))
    yield replace(received(1, 30), at=clock(4))
    yield ItemRun(by=BY, at=clock(5), number="SHOE")
    for number in range(1, joints + 1):
        at = clock(5 + number * minutes // 60, number * minutes % 60)
        yield ItemRun(by=BY, at=at, number=str(number))
    yield OnDepth(
        by=BY, at=clock(20), stick_up=300, typed="3.00", counted=30 - joints, despite="short string"
    )
    yield StepDone(by=BY, at=clock(21), list_id=BUMP, step_id="bump-volume", value=bump,
                   despite="" if bump == "1 bbl" else "tank read twice")  # fmt: skip


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    """Return the paths of three books of two rigs; one exception is closed."""
    told = (
        ("Avocet 1", "Rig 7", 12, 10, "1 bbl"),
        ("Avocet 2", "Rig 7", 8, 15, "5.5 bbl"),
        ("Curlew 3", "Rig 9", 5, 24, "1 bbl"),
    )
    folder = tmp_path_factory.mktemp("books")
    paths = [folder / f"{each[0]}.book" for each in told]
    for path, each in zip(paths, told, strict=True):
        Book.create(path, entries(*each)).close()
    with Book.open(paths[1]) as book:
        book.record(
            ExceptionClosed(by=BY, at=clock(22), of=book.job.landing.seq, reason="looked at")
        )
    return paths


@pytest.fixture(scope="module", params=["SQLite", "PostgreSQL"])
def office(request, books, tmp_path_factory):
    """Return where they are gathered, in either engine."""
    if request.param == "SQLite":
        where = str(tmp_path_factory.mktemp("office") / "office.db")
    else:
        where = request.getfixturevalue("new_database")()
    bring(where, *books)
    return where


def test_joints_an_hour_by_rig(office):
    found = ask(office, "SELECT rig, strings, joints, hours, joints_an_hour FROM joints_an_hour")
    assert [(rig, int(n), int(j), float(h), float(r)) for rig, n, j, h, r in found] == [
        ("Rig 7", 2, 20, 4.0, 5.0),
        ("Rig 9", 1, 5, 2.0, 2.5),
    ]


def test_centralizers_missing(office):
    found = ask(office, "SELECT rig, title, missing, closed_by FROM centralizers_missing")
    on = ", ".join(f"centralizer mid-joint on {number}" for number in (1, 2, 5))
    assert found == [
        ("Rig 7", "Avocet 1, 9-5/8 in casing", on, ""),
        ("Rig 7", "Avocet 2, 9-5/8 in casing", on, BY),
        ("Rig 9", "Curlew 3, 9-5/8 in casing", on, ""),
    ]


def test_bumps_off_volume(office):
    found = ask(office, "SELECT rig, title, pumped_at_bump, what FROM bumps_off_volume")
    assert [row[:3] for row in found] == [("Rig 7", "Avocet 2, 9-5/8 in casing", "5.5 bbl")]
    assert "Give the volume pumped at the bump" in found[0][3]


def test_open_exceptions(office):
    found = ask(office, "SELECT title, what FROM open_exceptions")
    assert [(title[:8], what[:8]) for title, what in found] == [
        ("Avocet 1", "On depth"),
        ("Avocet 2", "Plugs, G"),
        ("Curlew 3", "On depth"),
    ]


def test_entries_and_depths_can_be_asked_too(office):
    entries_of = "SELECT kind, count(*) FROM entries WHERE made_by = 'Tally Keeper' GROUP BY kind"
    assert dict(ask(office, entries_of))["item run"] == 28
    ((deepest,),) = ask(office, "SELECT max(bottom_depth) FROM running_depths WHERE number = '12'")
    assert float(deepest) == 38.12, "the top joint of twelve: its length less the stick-up"


def test_a_rig_and_a_time_are_as_corrected(office_at, tmp_path):
    path = tmp_path / "Avocet 1.book"
    with Book.create(path, entries("Avocet 1", "Rig 7", 4, 30, "1 bbl")) as book:
        plan = book.entries[0].setup
        right = replace(book.entries[0], setup=replace(plan, well=replace(plan.well, rig="Rig 8")))
        fields = json.loads(json.dumps(entry_fields(right)))
        instead = {"setup": fields["setup"]}
        book.record(Correction(by=BY, at=clock(22), of=1, reason="wrong rig", instead=instead))
        last = next(one for one in book.entries if getattr(one, "number", "") == "4")
        book.record(Correction(by=BY, at=clock(22), of=last.seq, reason="it was not run"))
    bring(office_at, path)
    ((rig, joints, hours),) = ask(office_at, "SELECT rig, joints, hours FROM joints_an_hour")
    assert (rig, int(joints), float(hours)) == ("Rig 8", 3, 1.5)


def test_every_view_answers_when_there_is_no_book(office_at):
    bring(office_at)
    for name in EVERY_VIEW:
        assert ask(office_at, f"SELECT * FROM {name}") == []
