"""Random acts by two programs: the rows, a rebuild and a book opened again all say the same."""

from __future__ import annotations

import tempfile
from collections import Counter
from contextlib import suppress
from pathlib import Path

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from tally.book.book import Book
from tally.book.verify import verify
from tally.errors import EntryRefused
from tally.job.checks import CHECKS
from tally.job.counts import coming
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note, PersonAdded
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.rack import BundleCounted, Checked, EquipmentNoted, OrderSet
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.steps import StepDone
from tally.job.entries.watching import Filled, TankRead
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.job.job import Fitting, Job
from tally.job.running_list import current
from tests.tally.book.invented import BY, at, measure, new_book

IN_MEMORY = Path("/dev/shm")
FOLDER = IN_MEMORY if IN_MEMORY.is_dir() else None
"""Where thousands of entries cost no disk."""
JOINTS = 8
DONE: Counter[str] = Counter()
"""The kinds of entries that the book took, over all examples."""


def one_of(names: object, which: int) -> str:
    """Return one of some names; a number that is nowhere if there is none."""
    found = list(names)  # type: ignore[call-overload]
    return str(found[which % len(found)]) if found else "nowhere"


def amended(entry: Entry, due: str, number: str, which: int) -> dict[str, object]:
    """Return what may stand instead of an entry, or something that fits no entry."""
    if isinstance(entry, ItemRun):
        again = {"number": (entry.number, due, number)[which % 3]}
        return again | ({"length": 4020, "typed": "40.20"} if which % 2 else {})
    if isinstance(entry, Note):
        return {"text": f"said {which}"}
    if isinstance(entry, Rejected | LaidDown | SentAway):
        return {"number": entry.number, "reason": "worn"}
    return {"colour": "red"}


def entry_for(act: str, job: Job, entries: tuple[Entry, ...], which: int) -> Entry:
    """Return an entry of one kind; the job may well refuse it."""
    own = {"by": BY, "at": at(), "despite": "seen so"}
    number = one_of(job.items, which)
    on_top = one_of([job.string[-1].number] if job.string else [], which)
    in_string = one_of((made.number for made in job.string), which)
    left = next((each.seq for each in job.open_exceptions()), 0)
    due = one_of((item.number for item in coming(job)), 0)
    fitting = Fitting(("centralizer", "stop collar", "scratcher")[which % 3], count=which % 4 + 1)
    coming_in = (Arrival(number=f"L{which}", length=3900 + which % 400, typed="as measured"),)
    landing = {"stick_up": which % 700, "counted": which % (JOINTS + 1), "typed": f"{which % 700}"}
    acts = {
        "run": lambda: ItemRun(number=due, **own),
        "run fitted": lambda: ItemRun(number=due, fittings=(fitting, fitting), **own),
        "run another": lambda: ItemRun(number=number, length=4000 + which % 90, typed="m", **own),
        "reject": lambda: Rejected(number=number, reason="drift stuck", **own),
        "lay down": lambda: LaidDown(number=(on_top, number)[which % 2], reason="galled", **own),
        "pull": lambda: PulledOut(number=on_top, **own),
        "fit": lambda: Fitted(number=in_string, fittings=(fitting,) * (which % 3), **own),
        "tank": lambda: TankRead(volume=measure(f"{which % 90} bbl", "volume"), **own),
        "fill": lambda: Filled(source=("active pit", "trip tank")[which % 2], **own),
        "note": lambda: Note(text=f"note {which}", **own),
        "person": lambda: PersonAdded(name=f"Hand {which % 3}", role="driller", **own),
        "receive": lambda: Received(items=coming_in, **own),
        "send away": lambda: SentAway(number=number, reason="bent", **own),
        "step": lambda: StepDone(
            list_id="short", step_id=("look", "load")[which % 2], state=("whole", "")[which % 2],
            witness="Second Hand", second="Second Hand", **own,
        ),
        "check": lambda: Checked(
            what=CHECKS[which % 4], passed=which % 3 > 0, numbers=(number,), **own
        ),
        "bundle": lambda: BundleCounted(
            bundle=f"T{which % 3}", noted=which % 5, counted=which % 6, **own
        ),
        "equipment": lambda: EquipmentNoted(name="spider", here=which % 2 == 0, **own),
        "order": lambda: OrderSet(
            order=current(job).order[:: (1, -1)[which % 2]], reason="as it lies", **own
        ),
        "on depth": lambda: OnDepth(**landing, **own),
        "hang off": lambda: HungOffAt(load=measure("120 klbf", "force"), **own),
        "close": lambda: ExceptionClosed(of=left, reason="settled", **own),
        "strike": lambda: Correction(of=which % (len(entries) + 2), reason="never was", **own),
        "amend": lambda: Correction(
            of=(which % len(entries)) or len(entries), reason="typed wrong",
            instead=amended(entries[which % len(entries) - 1], due, number, which), **own,
        ),
    }  # fmt: skip
    return acts[act]()


ACTS = (
    "run", "run", "run", "run fitted", "run another", "reject", "lay down", "pull", "fit", "tank",
    "fill", "note", "person", "receive", "send away", "step", "on depth", "hang off", "close",
    "strike", "amend", "check", "bundle", "equipment", "order",
)  # fmt: skip


RARE = ("run", "run", "run", "pull", "on depth", "close", "hang off")
"""Acts in an order that random ones seldom find."""


@example([(act, 100, False) for act in RARE])
@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(
    st.lists(
        st.tuples(st.sampled_from(ACTS), st.integers(0, 5000), st.booleans()),
        min_size=10,
        max_size=40,
    )
)
def test_rows_rebuild_and_reopening_agree_after_any_acts(acts):
    with tempfile.TemporaryDirectory(dir=FOLDER) as folder:
        path = Path(folder) / "job.book"
        with new_book(path, JOINTS) as first, Book.open(path) as second:
            for act, which, by_second in acts:
                book = second if by_second else first
                entry = entry_for(act, book.job, book.entries, which)
                count = book.head[0]
                with suppress(EntryRefused):
                    job = book.record(entry)
                    assert job is book.job
                    assert book.head[0] > count
                    DONE[act] += 1
            first.poll()
            second.poll()
            assert first.job == second.job == fold(first.entries)
            assert first.entries == second.entries
            report = verify(path)
            assert report.ok, report.findings
            with Book.open(path, look_only=True) as again:
                assert again.job == first.job
                assert again.entries == first.entries
                assert again.head == first.head == (report.count, report.head)


def test_the_random_acts_reached_every_kind():
    """Runs after the acts: an act that the book never took would have tried nothing."""
    assert set(ACTS) - DONE.keys() == set()
