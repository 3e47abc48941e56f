"""Any sequence of acts and corrections agrees with the same acts reckoned by hand."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from datetime import timedelta
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from tally.book.standing import begun
from tally.errors import EntryRefused
from tally.job import volumes
from tally.job.counts import balance, next_item
from tally.job.depths import reaches, shoe_depth, to_go
from tally.job.entries.correction import Correction
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note, SetUp
from tally.job.entries.pipe import Arrival, Received, SentAway
from tally.job.entries.running import Fitted, ItemRun, LaidDown, PulledOut, Rejected
from tally.job.entries.watching import Filled, TankRead
from tally.job.entry import Entry, to_fields
from tally.job.fittings import installed
from tally.job.fold import effective, fold, fold_on
from tally.job.job import EMPTY, Fitting, Job
from tally.job.setup import Hole
from tally.job.tank import last_reading
from tally.units import from_unit, read
from tests.tally.job.by_hand import Act, Sheet, allowed, reckon
from tests.tally.job.invented import LEAD, START, Telling, running, setup
from tests.tally.job.whole_figures import assert_whole

BARREL = from_unit(1, "bbl")
NUMBERS = st.sampled_from(["S1", "C1", "1", "2", "3", "4", "5", "6", "P1", "no such"])
STEPS = st.integers(3000, 4800)
TENTHS = st.integers(0, 90).map(lambda tenths: Fraction(tenths, 10))
PLAN = setup(
    hole=Hole(
        diameter=read("12-1/4 in", "diameter"),
        depth=read("3000 ft", "length"),
        casing_point=read("250 ft", "length"),
    ),
    order=("S1", "1", "2", "C1", "3", "4", "5", "6"),
)
ITEMS = st.lists(
    st.tuples(st.sampled_from(["1", "2", "3", "4", "5", "6", "P1"]), STEPS), min_size=1, max_size=4
)


def made(act: Act) -> tuple[type[Entry], dict[str, Any]]:
    """Return the kind of entry that says an act, and its fields."""
    reason, number = {"reason": "as told"}, {"number": act.get("number", "")}
    pieces = (Fitting("bow", count=act["pieces"]),) if act.get("pieces") else ()
    barrels = None
    if act.get("bbl") is not None:
        barrels = read(f"{float(act['bbl']):.1f} bbl", "volume")
    told: dict[str, tuple[type[Entry], dict[str, Any]]] = {
        "receive": (
            Received,
            {
                "items": tuple(
                    Arrival(
                        number=n,
                        length=length,
                        typed=f"{length / 100:.2f}",
                        kind="pup" if n.startswith("P") else "joint",
                    )
                    for n, length in act.get("items", ())
                )
            },
        ),
        "send": (SentAway, number | reason),
        "run": (ItemRun, number | {"length": act.get("length"), "fittings": pieces}),
        "reject": (Rejected, number | reason),
        "lay down": (LaidDown, number | reason),
        "pull": (PulledOut, number | reason),
        "fit": (Fitted, number | {"fittings": pieces}),
        "tank": (TankRead, {"volume": barrels, "mark": act.get("mark", False)}),
        "fill": (Filled, {"source": act.get("source", ""), "volume": barrels}),
        "land": (
            OnDepth,
            {"stick_up": act.get("stick_up", 0), "counted": act.get("counted", 0)},
        ),
        "hang": (HungOffAt, {"load": read("170 klbf", "force")}),
        "note": (Note, {"text": "tight"}),
    }
    return told[act["what"]]


@st.composite
def acts(draw: Any, what: str) -> Act:
    """Draw one act."""
    drawn: dict[str, Any] = {"what": what}
    if what in ("send", "run", "reject", "lay down", "pull", "fit"):
        drawn["number"] = draw(NUMBERS)
    if what in ("run", "fit"):
        drawn["pieces"] = draw(st.integers(0, 2))
    if what == "run":
        drawn["length"] = draw(st.none() | STEPS)
    if what == "receive":
        drawn["items"] = draw(ITEMS)
    if what == "tank":
        drawn |= {"bbl": draw(TENTHS), "mark": draw(st.booleans())}
    if what == "fill":
        source = draw(st.sampled_from(["active pit", "trip tank"]))
        drawn |= {"bbl": draw(st.none() | TENTHS), "source": source}
    if what == "land":
        drawn |= {"stick_up": draw(st.integers(0, 900)), "counted": draw(st.integers(0, 6))}
    return drawn


WHATS = ("receive", "send", "run", "reject", "lay down", "pull", "fit", "tank", "fill", "note")


class AnySequence(RuleBasedStateMachine):
    """The book's own path, through the text of its lines, beside a sheet kept by hand."""

    def __init__(self) -> None:
        super().__init__()
        self.standing = begun("any sequence")
        self.acts: dict[int, Act | None] = {}
        """By entry; none: it was struck."""
        self.corrects: set[int] = set()

    @property
    def job(self) -> Job:
        return self.standing.job

    def sheet(self, before: int = 10**6) -> Sheet:
        """Return the acts reckoned by hand, those before an entry."""
        return reckon([(n, act) for n, act in self.acts.items() if act and n < before])

    def entry(self, kind: type[Entry], **told: Any) -> Entry:
        at = START + timedelta(minutes=self.standing.count)
        return kind(by=LEAD, at=at.isoformat(), **{"despite": "because", **told})

    def records(self, entry: Entry) -> bool:
        """Record an entry; whether the book took it."""
        before = self.standing
        try:
            _, self.standing = self.standing.next(entry)
        except EntryRefused:
            assert self.standing is before
        return self.standing is not before

    def does(self, act: Act) -> None:
        kind, told = made(act)
        may = allowed(self.sheet(), act)
        assert self.records(self.entry(kind, **told)) is may, act
        if may:
            self.acts[self.standing.count] = act

    @initialize()
    def sets_up(self) -> None:
        assert self.records(self.entry(SetUp, setup=PLAN))
        self.does({"what": "receive", "items": [(str(n), 4000 + n) for n in range(1, 5)]})

    @rule(data=st.data())
    def runs_the_next(self, data: Any) -> None:
        sheet = self.sheet()
        due = [n for n in PLAN.order if sheet.stands.get(n) == "on rack"]
        if due:
            self.does({**data.draw(acts("run")), "number": due[0]})

    @rule(off=st.sampled_from(["pull", "lay down"]))
    def takes_the_top_off(self, off: str) -> None:
        top = self.sheet().string[-1:]
        if top:
            self.does({"what": off, "number": top[0]})

    @rule(source=st.sampled_from(["active pit", "trip tank"]))
    def fills_to_the_top(self, source: str) -> None:
        self.does({"what": "fill", "bbl": None, "source": source})

    @rule(tenths=st.integers(0, 90))
    def reads_the_tank(self, tenths: int) -> None:
        self.does({"what": "tank", "bbl": Fraction(tenths, 10), "mark": False})

    @rule(data=st.data(), what=st.sampled_from(["send", "reject", "lay down", "fit"]))
    def does_what_can_be(self, data: Any, what: str) -> None:
        act = data.draw(acts(what))
        sheet = self.sheet()
        possible = [n for n in sheet.stands if allowed(sheet, {**act, "number": n})]
        if possible:
            self.does({**act, "number": data.draw(st.sampled_from(possible))})

    @rule(data=st.data(), what=st.sampled_from(WHATS))
    def does_anything(self, data: Any, what: str) -> None:
        self.does(data.draw(acts(what)))

    @precondition(lambda self: self.standing.count > 8)
    @rule(data=st.data(), what=st.sampled_from(["land", "hang"]))
    def lands_or_hangs(self, data: Any, what: str) -> None:
        self.does(data.draw(acts(what)))

    @precondition(lambda self: self.acts)
    @rule(data=st.data())
    def strikes(self, data: Any) -> None:
        of = data.draw(st.sampled_from(sorted(self.acts)))
        assert self.records(self.entry(Correction, of=of, reason="slip"))
        self.acts[of] = None
        self.corrects.add(self.standing.count)

    @precondition(lambda self: self.acts)
    @rule(data=st.data())
    def changes(self, data: Any) -> None:
        of = data.draw(st.sampled_from(sorted(self.acts)))
        target = self.standing.entries[of - 1]
        what = next(each for each in _MADE_OF if isinstance(target, _MADE_OF[each]))
        act = data.draw(acts(what))
        kind, told = made(act)
        fields = to_fields(self.entry(kind, **told))
        instead = {k: v for k, v in fields.items() if k not in ("kind", "by", "at", "seq")}
        may = allowed(self.sheet(before=of), act)
        taken = self.records(self.entry(Correction, of=of, reason="slip", instead=instead))
        assert taken is may, (of, act)
        if may:
            self.acts[of] = act
            self.corrects.add(self.standing.count)

    @precondition(lambda self: self.corrects)
    @rule(data=st.data(), instead=st.sampled_from([None, {"reason": "other"}]))
    def corrects_a_correction(self, data: Any, instead: dict[str, Any] | None) -> None:
        of = data.draw(st.sampled_from(sorted(self.corrects)))
        assert not self.records(self.entry(Correction, of=of, reason="slip", instead=instead))

    # What must hold

    @invariant()
    def counts_agree(self) -> None:
        sums, sheet = balance(self.job), self.sheet()
        assert sums.agrees
        known = sheet.joints()
        away = sheet.joints("sent away")
        for share, by_hand in (
            (sums.on_location, (known[0] - away[0], known[1] - away[1])),
            (sums.run, sheet.joints("run")),
            (sums.left, sheet.joints("on rack")),
            (sums.rejected, sheet.joints("rejected")),
            (sums.laid_down, sheet.joints("laid down")),
        ):
            assert (share.count, share.length) == by_hand

    @invariant()
    def depths_agree(self) -> None:
        sheet = self.sheet()
        assert [made.number for made in self.job.string] == sheet.string
        if self.job.setup is None:
            return
        up = sheet.landed[0] if sheet.landed else 322
        shoe = sheet.run - up
        assert shoe_depth(self.job) == shoe
        assert to_go(self.job) == 25000 - shoe
        tops = [sum(sheet.length[n] for n in sheet.string[p:]) for p in range(len(sheet.string))]
        assert [reach.bottom for reach in reaches(self.job)] == [top - up for top in tops]
        joints = [n for n in sheet.string if sheet.kind[n] == "joint"]
        assert [m.number for m in self.job.string if m.joint] == joints
        assert [m.joint for m in self.job.string if m.joint] == list(range(1, len(joints) + 1))

    @invariant()
    def volumes_agree(self) -> None:
        if self.job.setup is None:
            return
        sheet = self.sheet()
        assert volumes.filled(self.job) / BARREL == pytest.approx(float(sheet.fluid), abs=1e-9)
        assert volumes.capacity(self.job) / BARREL == pytest.approx(float(sheet.room), abs=1e-9)
        check, by_hand = last_reading(self.job), sheet.expected_in_tank()
        assert (check is None) is (by_hand is None)
        if check is not None and by_hand is not None:
            assert check.expected / BARREL == pytest.approx(float(by_hand), abs=1e-9)
        pieces = sum(sheet.fittings[number] for number in sheet.string)
        assert installed(self.job)["bow"] == pieces
        assert bool(self.job.landing) is bool(sheet.landed)
        assert bool(self.job.hung_off) is sheet.hung
        assert len(self.job.notes) == sheet.notes

    @invariant()
    def what_no_longer_fits_is_named_and_nothing_else(self) -> None:
        named = [each.seq for each in self.job.exceptions if "no longer fits" in each.what]
        assert named == self.sheet().left_out

    @invariant()
    def the_next_is_the_first_of_the_list_on_the_rack(self) -> None:
        sheet, due = self.sheet(), next_item(self.job)
        waits = [n for n in self.job.order if sheet.stands.get(n) == "on rack"]
        assert (due.number if due else "") == next(iter(waits), due.number if due else "")
        if due is not None and not waits:
            assert due.number not in self.job.order

    @invariant()
    def figures_are_whole(self) -> None:
        assert_whole(self.job)

    @invariant()
    def the_book_read_again_gives_the_same_job(self) -> None:
        assert fold(self.standing.entries) == self.job

    @invariant()
    def it_is_as_if_it_had_been_right_from_the_start(self) -> None:
        job, refused = EMPTY, []
        for entry in effective(self.standing.entries):
            if isinstance(entry, Correction):
                continue
            try:
                job = fold_on(job, entry)
            except EntryRefused:
                refused.append(entry.seq)
        same: dict[str, Any] = {"exceptions": (), "corrections": (), "seq": 0, "last": ""}
        assert replace(job, **same) == replace(self.job, **same)
        assert refused == self.sheet().left_out
        asked = [each for each in self.job.exceptions if "no longer fits" not in each.what]
        assert asked == list(job.exceptions)


_MADE_OF: dict[str, type[Entry]] = {
    what: made({"what": what, "bbl": Fraction(1)})[0] for what in (*WHATS, "land", "hang")
}

TestAnySequence = AnySequence.TestCase
TestAnySequence.settings = settings(max_examples=35, stateful_step_count=40, deadline=None)


NONSENSE = st.recursive(
    st.none() | st.booleans() | st.integers(-5, 5) | st.text(max_size=3),
    lambda inner: (
        st.lists(inner, max_size=2)
        | st.dictionaries(st.sampled_from(["what", "number", "well"]), inner, max_size=2)
    ),
    max_leaves=4,
)
FIELDS = ("number", "length", "items", "volume", "fittings", "setup", "kind", "of", "despite")


@given(
    of=st.integers(-1, 12),
    instead=st.dictionaries(st.sampled_from(FIELDS), NONSENSE, min_size=1, max_size=3),
)
def test_a_correction_to_nonsense_is_refused_or_taken_and_a_book_that_holds_it_folds(of, instead):
    told = running("S1", "1", "2")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    standing = begun("nonsense")
    for entry in told.entries:
        _, standing = standing.next(entry)
    entry = told.makes(Correction, of=of, reason="slip", instead=instead)
    with suppress(EntryRefused):
        standing.next(entry)
    job = fold((*standing.entries, entry))
    assert job.seq == entry.seq
    assert_whole(job)


def test_a_correction_is_held_against_the_entries_as_they_stand_and_not_as_they_once_stood():
    """The delivery is corrected twice; the joint run between may be what it says by now."""
    told = Telling()
    standing = begun("twice")

    def says(kind, **fields):
        nonlocal standing
        entry = replace(told.makes(kind, **fields), seq=standing.count + 1)
        _, standing = standing.next(entry)

    def delivered(number):
        items = [{"number": number, "length": 4000, "typed": "40"}]
        says(Correction, of=2, reason="slip", instead={"items": items})

    says(SetUp, setup=PLAN)
    says(Received, items=(Arrival(number="1", length=4000, typed="40"),))
    delivered("2")
    says(ItemRun, number="S1")
    delivered("3")
    with pytest.raises(EntryRefused, match="There is no item 2 in the book"):
        says(Correction, of=4, reason="slip", instead={"number": "2"})
    says(Correction, of=4, reason="slip", instead={"number": "3"})
    assert [one.number for one in standing.job.string] == ["3"]
