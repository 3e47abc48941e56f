"""A list written in any of the forms is read back exactly; what is exported comes in the same."""

from __future__ import annotations

import csv
import io
from fractions import Fraction

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tally.errors import JobFileError
from tally.feeds.rig_list import Answers, preview_of, received, rules_of
from tally.feeds.rig_list.doubts import COUNT, TOTAL
from tally.feeds.rig_list.marks import decimal_mark, plain_number
from tally.feeds.rig_list.opening import opened
from tally.feeds.rig_list.telling import told
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.fold import fold
from tally.job.job import Job
from tally.job.setup import Hole, Lengths, Pumping, Setup, Well
from tally.reports.pipe_list_csv import pipe_list_csv
from tally.units import read
from tests.tally.feeds.lists.against import HEAVY, JOBS, LIGHT
from tests.tally.feeds.lists.forms import WIDE, Form, _kept, forms
from tests.tally.feeds.lists.make import LISTS

TALLIES = {"ft": "feet", "m": "metres", "mm": "millimetres"}


@settings(max_examples=150, deadline=None)
@given(form=forms(), tally=st.sampled_from(sorted(TALLIES)))
def test_a_list_in_any_form_is_read_back_exactly(form: Form, tally: str) -> None:
    answers = Answers(
        lengths="running", unit="" if form.by_cell or form.unit == "ft in" else form.unit
    )
    found = preview_of(opened(form.content(), "list"), JOBS[TALLIES[tally]], answers)
    got = [
        (each.number, each.length, each.heat, each.serial, each.description) for each in found.items
    ]
    assert got == [
        (each.number, each.steps(form.unit, tally), each.heat, each.serial, each.description)
        for each in form.joints
    ]
    assert not found.left_out
    assert not [each for each in found.doubts if each.what in (TOTAL, COUNT)]


@settings(max_examples=200, deadline=None)
@given(content=st.binary(max_size=400))
@example(content=b"PK\x03\x04")
@example(content=b"\xff\xfe1")
@example(content=b"Joint,Length\n1,\x00")
def test_no_bytes_do_more_than_refuse(content: bytes) -> None:
    _read_or_refuse(content)


@settings(max_examples=200, deadline=None)
@given(
    name=st.sampled_from(sorted(LISTS)),
    places=st.lists(st.tuples(st.integers(0, 100_000), st.binary(max_size=3)), max_size=4),
)
def test_no_damage_does_more_than_refuse(name: str, places: list[tuple[int, bytes]]) -> None:
    content = bytearray(LISTS[name]())
    for place, damage in places:
        at = place % max(1, len(content))
        content[at : at + len(damage)] = damage
    _read_or_refuse(bytes(content))


def _read_or_refuse(content: bytes) -> None:
    refusal = ""
    try:
        found = preview_of(opened(content, "list"), JOBS["overall"])
    except JobFileError as refused:
        refusal = str(refused)
    if refusal:
        assert refusal.endswith(".")
        assert refusal.isprintable()
        return
    assert all(each.text.isprintable() for each in told(found))
    assert all(each.length > 0 for each in found.taken)


# The rules of decimal marks, against numbers whose mark is known


@given(
    numbers=st.lists(st.integers(0, 10**9), min_size=1, max_size=8),
    decimals=st.sampled_from((1, 2, 4)),
    comma=st.booleans(),
    grouped=st.booleans(),
)
def test_the_mark_of_a_column_is_the_one_that_was_written(
    numbers: list[int], decimals: int, comma: bool, grouped: bool
) -> None:
    typed = [f"{number / 10**decimals:{',' if grouped else ''}.{decimals}f}" for number in numbers]
    if comma:
        typed = [text.translate(str.maketrans(",.", ".,")) for text in typed]
    mark = decimal_mark(typed)
    assert mark == ("," if comma else ".")
    exact = [Fraction(number, 10**decimals) for number in numbers]
    assert [Fraction(plain_number(text, mark)) for text in typed] == exact


# Out and in again


WHO = {"by": "Ama Osei", "at": "2026-03-14T03:12:00+01:00"}
TEXT = WIDE.filter(_kept)
ARRIVALS = st.lists(
    st.builds(
        Arrival,
        number=st.from_regex(r"[A-Za-z0-9][A-Za-z0-9-]{0,5}", fullmatch=True).filter(
            lambda number: not number.replace("-", "").isdigit() or "-" not in number
        ),
        length=st.integers(900, 1_500_000),
        typed=st.just("as it was"),
        kind=st.sampled_from(("joint", "pup", "crossover", "marker", "landing joint", "hanger")),
        pipe=st.sampled_from((LIGHT.name, HEAVY.name)),
        description=TEXT,
        serial=TEXT,
        heat=TEXT,
    ),
    min_size=1,
    max_size=10,
    unique_by=lambda one: one.number.casefold().lstrip("0"),
)


def _job(unit: str, measured_as: str, items: tuple[Arrival, ...] = ()) -> Job:
    loss = "3.875 in" if measured_as == "overall" else ""
    setup = Setup(
        well=Well(name="Larkspur 14", string="9-5/8 in intermediate"),
        hole=Hole(
            diameter=read("12-1/4 in", "diameter"),
            depth=read("8260 ft", "length"),
            casing_point=read("8240 ft", "length"),
        ),
        lengths=Lengths(unit=unit, measured_as=measured_as, make_up_loss=loss),
        pipes=(LIGHT, HEAVY),
        pumping=Pumping(mud_weight=read("10.2 lb/gal", "density")),
    )
    entries = [SetUp(seq=1, setup=setup, **WHO)]
    return fold([*entries, *([Received(seq=2, items=items, **WHO)] if items else [])])


@settings(max_examples=100, deadline=None)
@given(
    arrivals=ARRIVALS,
    unit=st.sampled_from(("ft", "m", "mm")),
    measured_as=st.sampled_from(("running", "overall")),
)
def test_export_then_import_is_the_identity(
    arrivals: list[Arrival], unit: str, measured_as: str
) -> None:
    before = _job(unit, measured_as, tuple(arrivals))
    content = pipe_list_csv(before).encode("utf-8")
    found = preview_of(opened(content, "list.csv"), rules_of(_job(unit, measured_as)))
    assert [question.key for question in found.questions] in ([], ["unit"])
    answered = preview_of(found.file, found.rules, Answers(unit=unit))
    entry = received(answered, WHO["by"], WHO["at"], read=None)
    after = _job(unit, measured_as, entry.items)
    assert [_kept_of(after, number) for number in after.items] == [
        _kept_of(before, number) for number in before.items
    ]
    again = pipe_list_csv(after)
    assert again == content.decode("utf-8")
    assert len(list(csv.reader(io.StringIO(again, newline="")))) == len(arrivals) + 1


def _kept_of(job: Job, number: str) -> tuple[object, ...]:
    item = job.items[number]
    pipe = job.known.pipe(item.pipe).name
    return item.number, item.length, item.kind, pipe, item.serial, item.heat, item.description
