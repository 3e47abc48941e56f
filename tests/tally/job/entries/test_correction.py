"""Corrections: put in place, refused, or named where they or what follows do not fit."""

from dataclasses import replace

import pytest

from tally.errors import EntryRefused
from tally.job.counts import balance
from tally.job.entries.closing import ExceptionClosed
from tally.job.entries.correction import Correction
from tally.job.entries.landing import HungOffAt, OnDepth
from tally.job.entries.people import Note
from tally.job.entries.running import Fitted, ItemRun, LaidDown
from tally.job.entries.watching import Filled, TankRead
from tally.job.fold import checked_correction, effective, fold
from tally.job.job import Fitting
from tally.job.stored import to_fields as plain
from tally.units import read
from tests.tally.job.entries.correcting import changed, corrected, named
from tests.tally.job.invented import (
    assert_plain,
    landed,
    length_of,
    running,
)

# Put in place


def test_a_length_put_right_moves_everything_above_it():
    told = running("S1", "1", "2", "C1")
    job = corrected(told, 4, changed(told, 4, length=4107, typed="41.07"))
    assert [made.top for made in job.string] == [195, 4302, 8316, 8468]
    assert balance(job).agrees
    assert job.items["1"].typed == "41.07"
    assert job.corrections == (7,)
    assert job.exceptions == ()


def test_the_entry_keeps_its_number_time_and_author():
    told = running("S1", "1")
    corrected(told, 4, changed(told, 4, number="2"))
    stands = effective(told.entries)[3]
    was = told.entries[3]
    assert (stands.seq, stands.at, stands.by) == (was.seq, was.at, was.by)
    assert stands.number == "2"
    assert stands.despite == "written down wrongly"
    assert was.number == "1"


def test_a_struck_entry_did_not_happen_and_striking_it_can_be_taken_back():
    told = running("S1", "1", "2")
    assert [made.number for made in corrected(told, 5).string] == ["S1", "1"]
    again = corrected(told, 5, changed(told, 5))
    assert [made.number for made in again.string] == ["S1", "1", "2"]
    assert again.corrections == (6, 7)


def test_striking_the_last_entry_leaves_no_exception():
    told = running("S1", "1")
    job = corrected(told, 4)
    assert job.exceptions == ()
    assert job.seq == 5


def test_the_last_correction_counts():
    told = running("S1", "1")
    corrected(told, 4, changed(told, 4, length=4100))
    job = corrected(told, 4, changed(told, 4, length=4150))
    assert job.string[-1].length == 4150


# Refused


@pytest.mark.parametrize(
    ("of", "reason", "said"),
    [
        (9, "slip", "There is no entry 9 to correct; the last one is 4."),
        (0, "slip", "There is no entry 0 to correct; the last one is 4."),
        (-1, "slip", "There is no entry -1 to correct; the last one is 4."),
        (3, "", "Say why entry 3 is corrected."),
        (3, "  ", "Say why entry 3 is corrected."),
    ],
)
def test_what_is_not_there_or_without_a_reason(of, reason, said):
    assert running("S1", "1").refuses(Correction, of=of, reason=reason) == said


def test_a_correction_is_not_corrected():
    told = running("S1", "1")
    corrected(told, 4)
    assert told.refuses(Correction, of=5, reason="slip") == (
        "Entry 5 is itself a correction; correct the entry that it names."
    )


WRONG = [
    (4, {}, "The field 'number' is missing."),
    (4, {"number": 1}, "The field 'number' holds no text."),
    (4, {"number": None}, "The field 'number' holds no text."),
    (4, {"number": "1", "length": "41.00"}, "The field 'length' holds no whole number."),
    (4, {"number": "1", "length": True}, "The field 'length' holds no whole number."),
    (4, {"number": "1", "length": 41.0}, "The field 'length' holds no whole number."),
    (4, {"number": ["1"]}, "The field 'number' holds no text."),
    (4, {"number": "1", "fittings": "bow"}, "The field 'fittings' holds no list."),
    (4, {"number": "1", "fittings": ["bow"]}, "The field 'fittings' holds no named values."),
    (4, {"number": "1", "fittings": [[[]]]}, "The field 'fittings' holds no named values."),
    (4, {"number": "1", "fittings": [{"what": 5}]}, "The field 'what' holds no text."),
    (4, {"number": "1", "fittings": [{}]}, "The field 'what' is missing."),
    (4, {"number": "1", "despite": 5}, "The field 'despite' holds no text."),
    (4, {"number": "1", "colour": "red"}, "has no field 'colour' to change."),
    (4, {"kind": "note", "text": "not run"}, "has no field 'kind' to change."),
    (4, {"number": "1", "by": "nobody"}, "has no field 'by' to change."),
    (4, {"number": "1", "at": "never"}, "has no field 'at' to change."),
    (4, {"number": "1", "seq": 2}, "has no field 'seq' to change."),
    (2, {"items": "none"}, "The field 'items' holds no list."),
    (2, {"items": [{"number": "1", "length": 1}]}, "The field 'typed' is missing."),
    (5, {"volume": 5}, "The field 'volume' holds no volume as text."),
    (5, {"volume": ["5 bbl"]}, "The field 'volume' holds no volume as text."),
    (5, {"volume": "5"}, '"5"'),
    (5, {"volume": "9**9**9"}, '"9**9**9"'),
    (5, {"volume": "5 bbl", "mark": 1}, "The field 'mark' holds no true or false."),
    (1, {"setup": {}}, "The field 'well' is missing."),
    (1, {"setup": "none"}, "The field 'setup' holds no named values."),
]


@pytest.mark.parametrize(("of", "instead", "said"), WRONG)
def test_what_cannot_be_read_is_refused_and_never_breaks_a_book_that_holds_it(of, instead, said):
    told = running("S1", "1")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    entry = told.makes(Correction, of=of, reason="slip", instead=instead)
    with pytest.raises(EntryRefused) as refused:
        checked_correction(tuple(told.entries), entry)
    assert said in str(refused.value)
    assert_plain(str(refused.value))
    held = fold([*told.entries, entry])
    assert replace(held, seq=5, exceptions=(), last=told.job.last) == told.job
    assert named(held) == [6]
    assert said in held.exceptions[0].what
    assert fold([*told.entries, entry, entry]).seq == 6


def test_a_correction_of_a_correction_or_of_what_follows_is_named_where_a_book_holds_it():
    told = running("S1", "1", "2")
    corrected(told, 5)
    more = [
        told.makes(Correction, of=6, reason="slip"),
        replace(told.makes(Correction, of=9, reason="slip"), seq=8),
        replace(told.makes(Note, text="later"), seq=9),
    ]
    job = fold([*told.entries, *more])
    assert job.notes == ((9, "later"),), "what came after the correction is not struck by it"
    assert [made.number for made in job.string] == ["S1", "1"], "the first correction stands"
    assert [each.what for each in job.exceptions] == [
        "Entry 7 (entry 6 struck: slip) no longer fits: entry 6 is itself a correction.",
        "Entry 8 (entry 9 struck: slip) no longer fits: there is no entry 9 before it.",
    ]
    assert job.corrections == (6,)


def test_a_correction_that_cannot_be_read_leaves_the_one_before_it_standing():
    told = running("S1", "1")
    corrected(told, 4, changed(told, 4, length=4100))
    bad = told.makes(Correction, of=4, reason="slip", instead={"number": 7})
    assert fold([*told.entries, bad]).string[-1].length == 4100


def test_an_exception_of_a_correction_is_closed_like_any_other():
    told = running("S1", "1")
    told.entries.append(told.makes(Correction, of=4, reason="slip", instead={"number": 7}))
    told.job = fold(told.entries)
    told.says(ExceptionClosed, of=5, reason="typed by an older program")
    assert fold(told.entries).open_exceptions() == ()


# What a correction makes impossible


def test_a_delivery_struck_names_every_joint_that_was_run():
    told = running("S1", "1", "2")
    job = corrected(told, 2)
    assert [made.number for made in job.string] == ["S1"]
    assert [each.what for each in job.exceptions] == [
        "Entry 4 (1 run) no longer fits: There is no item 1 in the book; "
        "receive it first or check the number.",
        "Entry 5 (2 run) no longer fits: There is no item 2 in the book; "
        "receive it first or check the number.",
    ]


def test_a_joint_taken_out_of_a_delivery_leaves_the_string():
    told = running("S1", "1", "2", "C1")
    told.says(LaidDown, number="C1", reason="thread")
    told.says(LaidDown, number="2", reason="thread")
    items = [plain(one) for one in told.entries[1].items if one.number != "2"]
    job = corrected(told, 2, {"items": items})
    assert [made.number for made in job.string] == ["S1", "1"]
    assert named(job) == [5, 8]
    assert balance(job).agrees
    assert balance(job).on_location.count == 11


def test_a_number_that_was_used_later_is_named_at_its_later_use():
    told = running("S1", "1", "2", "C1")
    job = corrected(told, 4, changed(told, 4, number="2"))
    assert [made.number for made in job.string] == ["S1", "2", "C1"]
    assert [each.what for each in job.exceptions] == [
        "Entry 5 (2 run) no longer fits: Item 2 is in the string already; check the number."
    ]
    assert job.items["1"].state == "on rack"
    assert balance(job).agrees


def test_a_joint_that_was_never_run_is_not_laid_down_either():
    told = running("S1", "1")
    told.says(Fitted, number="1", fittings=(Fitting("bow"),))
    told.says(LaidDown, number="1", reason="thread")
    job = corrected(told, 4)
    assert named(job) == [5]
    assert job.items["1"].state == "laid down", "off the floor, before it was made up"
    assert balance(job).agrees


def test_on_depth_struck_while_the_string_hangs():
    told = landed()
    told.says(HungOffAt, load=read("170 klbf", "force"))
    job = corrected(told, 17)
    assert job.landing is None
    assert job.hung_off is None
    assert [each.what for each in job.exceptions] == [
        "Entry 26 (hung off with 170 klbf) no longer fits: "
        "The string is not on depth yet; enter that first."
    ]


def test_a_count_that_no_longer_agrees_is_named_and_nobody_has_accepted_it():
    told = running(*[str(n) for n in ("S1", 1, 2, "C1", *range(3, 13))])
    told.says(OnDepth, stick_up=322, counted=0)
    items = [plain(one) for one in told.entries[1].items]
    extra = {"number": "13", "length": 4100, "typed": "41.00"}
    job = corrected(told, 2, {"items": [*items, extra]})
    assert job.landing.counted == 0
    assert [each.what for each in job.open_exceptions()] == [
        "On depth: 0 joints counted on the rack, 1 by the book: -1. Nobody has accepted this."
    ]


def test_a_fill_of_a_string_that_was_never_run():
    told = running("S1")
    told.says(Filled, source="active pit")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    job = corrected(told, 3)
    assert named(job) == [4]
    assert job.fills == ()
    assert len(job.tank) == 1


def test_the_second_tank_reading_becomes_the_mark_when_the_first_is_struck():
    told = running("S1")
    told.says(TankRead, volume=read("5 bbl", "volume"))
    told.says(TankRead, volume=read("6 bbl", "volume"))
    assert [level.mark for level in corrected(told, 4).tank] == [True]


def test_it_says_what_happened():
    told = running()
    assert told.makes(Correction, of=4, reason="slip").said() == "entry 4 struck: slip"
    changed_to = told.makes(Correction, of=4, reason="slip", instead={"number": "2"})
    assert changed_to.said() == "entry 4 corrected: slip"


def test_the_lengths_of_a_delivery_put_right():
    told = running("S1", "1")
    items = [plain(one) for one in told.entries[1].items]
    items[0] |= {"length": 4111, "typed": "41.11"}
    job = corrected(told, 2, {"items": items})
    assert job.string[-1].length == 4111
    assert balance(job).on_location.length == sum(map(length_of, range(1, 13))) + 104
    assert balance(job).agrees


def test_a_length_taped_when_run_is_kept_when_the_listing_is_put_right():
    told = running("S1")
    told.says(ItemRun, number="1", length=4200, typed="42.00", despite="taped")
    items = [plain(one) for one in told.entries[1].items]
    items[0] |= {"length": 4111, "typed": "41.11"}
    job = corrected(told, 2, {"items": items})
    assert job.string[-1].length == job.items["1"].length == 4200
    assert balance(job).agrees
