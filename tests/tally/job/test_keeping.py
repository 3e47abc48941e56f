"""Hostile text in every field of every entry: refused in a sentence, and nothing breaks."""

from dataclasses import replace

import pytest

from tally.errors import EntryRefused
from tally.job.entries.correction import Correction
from tally.job.entries.people import Note
from tally.job.entries.pipe import Received, SentAway
from tally.job.entries.running import ItemRun, LaidDown, PulledOut, Rejected
from tally.job.figures import all_figures
from tally.job.fold import carry_on, fold, fold_on
from tally.job.keeping import LONGEST_TEXT, unfit
from tally.units import Measure
from tests.tally.job.invented import assert_plain, landed, running
from tests.tally.job.kinds import EVERY, WHO, text_fields, with_text

UNPRINTABLE = (
    "41\x1b[31m",
    "\x1b]0;title\x07",
    "\x9b31m",
    "a\x00b",
    "a\nb",
    "a\rb",
    "a\tb",
    "a\u2028b",
    "\u202e41",
    "\u200b",
    "a\x7f",
    "x" * 10_000,
    "\ud800",
)
PRINTABLE = (
    "9 5/8 in",
    "12-1/4",
    "41,35 ft",
    "41' 4\"",
    "9**9**9",
    "4127",
    "",
    " ",
    "[/]",
    "[red]x[/red]",
    "=1+2",
    "{0}%s%n",
    "\u00c5se \u4e95\u6238",
    "w" * 200,
)
PLACES = [(entry, name) for entry in EVERY for name in text_fields(entry)]


each_place = pytest.mark.parametrize(
    ("entry", "name"), PLACES, ids=[f"{entry.KIND}, {name}" for entry, name in PLACES]
)


@pytest.fixture(scope="module")
def jobs():
    """Return jobs at several points."""
    return [running().job, running("S1", "1").job, landed().job]


@each_place
def test_what_cannot_be_shown_is_refused(jobs, entry, name):
    for text in UNPRINTABLE:
        with pytest.raises(EntryRefused) as refused:
            fold_on(jobs[1], with_text(entry, name, text))
        assert_plain(str(refused.value))
        assert len(str(refused.value)) < 200
        assert not refused.value.question


@each_place
def test_what_can_be_shown_is_read_rightly_or_refused_in_a_sentence(jobs, entry, name):
    for text in PRINTABLE:
        for job in jobs:
            try:
                after = fold_on(job, with_text(entry, name, text))
            except EntryRefused as refused:
                said = str(refused)
                assert said.isprintable()
                assert said[-1] in ".?"
            else:
                all_figures(after)


@each_place
def test_a_book_that_holds_such_text_still_folds(jobs, entry, name):
    """Its time aside: a line without one cannot be read at all."""
    for text in () if name == "at" else (*UNPRINTABLE, *PRINTABLE):
        held = replace(with_text(entry, name, text), seq=jobs[2].seq + 1)
        assert carry_on(jobs[2], [held]).seq == held.seq


@pytest.mark.parametrize("text", UNPRINTABLE)
def test_text_is_looked_through_however_deep_it_lies(text):
    job = running("S1").job
    deep = {"number": "1", "fittings": [{"what": "bow", "position": [{"x": text}]}]}
    named = {text: "1"}
    for instead in (deep, named):
        entry = Correction(of=3, reason="slip", instead=instead, **{**WHO, "seq": 4})
        with pytest.raises(EntryRefused) as refused:
            fold_on(job, entry)
        assert str(refused.value).startswith("Instead: ")
    received = EVERY[4]
    items = (replace(received.items[0], description=text),)
    with pytest.raises(EntryRefused) as refused:
        fold_on(job, replace(received, items=items))
    assert str(refused.value).startswith("Items: ")


def nested(depth):
    """Return lists inside lists."""
    made = "x"
    for _ in range(depth):
        made = [made]
    return made


@pytest.mark.parametrize(
    ("instead", "said"),
    [
        ({"number": 41.35}, "Instead: '41.35' is neither text nor a whole number; it is not kept."),
        ({"number": {1, 2}}, "Instead: '{1, 2}' is neither text nor a whole number;"),
        ({"length": 10**400}, "Instead: a number above 1,000,000,000,000 is not kept;"),
        ({"length": -(10**13)}, "Instead: a number above 1,000,000,000,000 is not kept;"),
        ({"number": nested(20)}, "Instead: lists lie too deep inside one another;"),
        ({"number": nested(900)}, "Instead: lists lie too deep inside one another;"),
        ({5: "1"}, "cannot be corrected so"),
    ],
)
def test_what_a_line_cannot_hold_is_refused(instead, said):
    told = running("S1")
    entry = told.makes(Correction, of=3, reason="slip", instead=instead)
    if said.startswith("Instead"):
        with pytest.raises(EntryRefused) as refused:
            fold_on(told.job, entry)
        assert str(refused.value).startswith(said)
    fold([*told.entries, entry])


@pytest.mark.parametrize("by", ["", "  "])
def test_somebody_makes_every_entry(by):
    assert running().refuses(Note, by=by, text="tight") == "Say who makes the entry."


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ("", "'' is no time of an entry."),
        ("noon", "'noon' is no time of an entry."),
        ("2026-05-02T06:00:00", "The time '2026-05-02T06:00:00' does not say its offset from UTC."),
    ],
)
def test_every_entry_has_a_time_with_its_offset(at, said):
    assert running().refuses(Note, text="tight", at=at) == said


def test_text_in_a_measure_made_by_code_is_looked_through_too():
    tank = EVERY[11]
    bad = replace(tank, volume=Measure(1.0, "volume", "1\x1b bbl"))
    assert unfit(bad).startswith("Volume: ")
    assert unfit(tank) == ""


def test_a_long_list_is_quickly_looked_through():
    items = EVERY[4].items * 5_000
    assert unfit(replace(EVERY[4], items=items)) == ""
    assert isinstance(EVERY[4], Received)


def test_the_longest_text_is_kept_and_no_longer_one():
    note = Note(text="x" * LONGEST_TEXT, **WHO)
    assert unfit(note) == ""
    assert unfit(replace(note, text="x" * (LONGEST_TEXT + 1))) == (
        "Text: The text has 2,001 characters, more than the 2,000 that are kept: shorten it."
    )


@pytest.mark.parametrize("number", ["9 5/8 in", "41,35 ft", "9**9**9", "[/]", "01"])
@pytest.mark.parametrize("kind", [ItemRun, Rejected, LaidDown, PulledOut, SentAway])
def test_a_number_typed_as_words_is_no_item(kind, number):
    reason = {} if kind is ItemRun else {"reason": "slip"}
    said = running("S1").refuses(kind, number=number, **reason)
    assert said.startswith(f"There is no item {number} in the book; ")


@pytest.mark.parametrize("number", ["", " "])
@pytest.mark.parametrize("kind", [ItemRun, Rejected, LaidDown, PulledOut, SentAway])
def test_a_number_is_wanted(kind, number):
    reason = {} if kind is ItemRun else {"reason": "slip"}
    said = running("S1").refuses(kind, number=number, **reason)
    assert said == "Type the number of the item."
