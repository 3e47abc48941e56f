"""What every entry has, and its way into a journal line and back."""

import json
import subprocess
import sys
from dataclasses import FrozenInstanceError, fields, replace
from pkgutil import iter_modules

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import BookTooNew, InputError
from tally.job import entries
from tally.job.entries.people import Note
from tally.job.entries.running import ItemRun
from tally.job.entry import (
    Entry,
    catalogue,
    clock,
    from_fields,
    moment,
    seconds_between,
    to_fields,
)
from tally.job.job import Fitting, Job
from tests.tally.job.kinds import EVERY, WHO, missing_kinds

KNOWN_SINCE_THE_FIRST_RELEASE = {
    "set up", "checklist taken", "person added", "note", "received", "sent away", "item run",
    "rejected", "laid down", "pulled out", "fitted", "trip tank read", "filled", "on depth",
    "hung off", "pumped", "step done", "step witnessed", "step passed over", "exception closed",
    "correction",
}  # fmt: skip


def there_and_back(entry: Entry) -> Entry:
    """Return an entry that went through the text of a line."""
    return from_fields(json.loads(json.dumps(to_fields(entry))))


def test_the_kinds_of_the_first_release_are_known_for_ever():
    assert set(catalogue()) >= KNOWN_SINCE_THE_FIRST_RELEASE
    assert missing_kinds() & KNOWN_SINCE_THE_FIRST_RELEASE == set()


@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_every_kind_comes_back_as_it_was(entry):
    assert there_and_back(entry) == entry
    assert type(there_and_back(entry)) is type(entry)


@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_a_line_holds_no_float(entry):
    def refuse(text):
        raise AssertionError(f"the float {text}")

    json.loads(json.dumps(to_fields(entry)), parse_float=refuse)
    assert next(iter(to_fields(entry))) == "kind"


@pytest.mark.parametrize("entry", EVERY, ids=lambda entry: entry.KIND)
def test_every_field_of_every_kind_comes_back(entry):
    fillings = {"str": "of it", "tuple[str, ...]": ("of", "it"), "bool": True, "int": 3}
    for one in fields(entry):
        if getattr(entry, one.name) == one.default and str(one.type) in fillings:
            entry = replace(entry, **{one.name: fillings[str(one.type)]})
    assert there_and_back(entry) == entry


def test_what_is_at_its_default_is_left_out_and_read_as_such():
    bare = ItemRun(by="a", at=WHO["at"], number="1")
    assert to_fields(bare) == {"kind": "item run", "by": "a", "at": WHO["at"], "number": "1"}
    assert there_and_back(bare) == bare


def test_every_kind_says_one_line_of_words():
    for entry in EVERY:
        said = entry.said()
        assert said.isprintable(), said
        assert said, entry.KIND
        assert "None" not in said, said


@given(
    number=st.text(max_size=12),
    length=st.none() | st.integers(-(10**9), 10**9),
    fittings=st.lists(
        st.builds(Fitting, st.text(max_size=9), st.text(max_size=9), st.integers(-3, 9)), max_size=3
    ),
    despite=st.text(max_size=20),
)
def test_any_text_comes_back_as_it_was(number, length, fittings, despite):
    entry = ItemRun(
        by="a",
        at=WHO["at"],
        number=number,
        length=length,
        fittings=tuple(fittings),
        despite=despite,
    )
    try:
        despite.encode()
    except UnicodeEncodeError:
        return
    assert there_and_back(entry) == entry


@pytest.mark.parametrize(
    ("plain", "fault", "said"),
    [
        ({"kind": "telepathy"}, BookTooNew, "of the kind 'telepathy' that this release does not"),
        ({"kind": ["note"]}, BookTooNew, "does not know"),
        ({}, BookTooNew, "of the kind '' that"),
        ({"kind": "note", "by": "a", "at": WHO["at"]}, InputError, "'text' is missing"),
        (
            {"kind": "note", "by": "a", "at": WHO["at"], "text": "t", "mood": "x"},
            BookTooNew,
            "a field 'mood' that this release does not know",
        ),
        ({"kind": "note", "by": "a", "at": "noon", "text": "t"}, InputError, "no time"),
        (
            {"kind": "note", "by": "a", "at": "2026-05-02T06:00:00", "text": "t"},
            InputError,
            "offset",
        ),
        ({"kind": "note", "by": 5, "at": WHO["at"], "text": "t"}, InputError, "holds no text"),
        (
            {"kind": "note", "by": "a", "at": WHO["at"], "text": "t", "seq": "1"},
            InputError,
            "holds no whole number",
        ),
    ],
)
def test_what_is_no_entry_is_said_in_a_sentence(plain, fault, said):
    with pytest.raises(fault, match=said):
        from_fields(plain)


def test_times_are_compared_across_offsets():
    assert seconds_between("2026-05-02T06:00:00+02:00", "2026-05-02T04:00:30+00:00") == 30
    assert seconds_between("2026-05-02T06:00:30+02:00", "2026-05-02T06:00:00+02:00") == -30
    assert clock("2026-05-02T06:00:30+02:00") == "06:00"
    assert moment(WHO["at"]).utcoffset().total_seconds() == 7200


def test_a_kind_without_words_of_its_own_cannot_be_used():
    bare = Entry(by="a", at=WHO["at"])
    assert bare.check(None) == bare.ask(None) == ""
    with pytest.raises(NotImplementedError):
        bare.said()
    with pytest.raises(NotImplementedError):
        bare.apply(None)
    assert Note(by="a", at=WHO["at"], text="t").KIND in catalogue()


def test_a_job_with_some_fields_changed_equals_the_one_that_the_library_makes():
    job = Job(seq=3, order=("1", "2"))
    changed = job.but(seq=4, last="2026-03-12T03:12:00-06:00")
    assert changed == replace(job, seq=4, last="2026-03-12T03:12:00-06:00")
    assert job == Job(seq=3, order=("1", "2"))
    with pytest.raises(FrozenInstanceError):
        changed.seq = 5
    with pytest.raises(TypeError, match="A job has no shoe"):
        job.but(shoe=1)


def test_every_room_of_entries_is_listed_once():
    rooms = sorted(one.name for one in iter_modules(entries.__path__))
    assert sorted(entries.ROOMS) == rooms


def test_a_room_is_read_in_when_one_of_its_kinds_comes():
    """In a program of its own: here every room has been read in already."""
    asked = (
        "import sys; from tally.job.entry import kind_of; room = 'tally.job.entries.waiting'\n"
        "kind_of('item run'); early = room in sys.modules\n"
        "print(early, kind_of('waiting rules').__module__ == room, kind_of('no such'))"
    )
    got = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert got.stdout.split() == ["False", "True", "None"]
