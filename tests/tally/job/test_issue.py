"""Issues of a report, by a book made by hand: what is signed is fixed, amendments show both values.

The shoe is entry 3 of the invented book and number 1 is entry 4; each was run as listed, and in its
list number 1 has 40.07 ft and number 2 has 40.14 ft (40 ft and 7/100 ft for each number).
"""

import pytest

from tally.job.entries.correction import Correction
from tally.job.entries.people import Note, PinSet, SetUp
from tally.job.pins import made
from tests.tally.job.invented import CEMENTER, LEAD, REP, landed, pumping, setup
from tests.tally.job.signing import Signed


@pytest.fixture
def book():
    return Signed(landed())


def test_before_anybody_signs_it_is_the_first_issue_and_not_final(book):
    one = book.issue()
    assert (one.number, one.name, one.not_final) == (1, "issue 1", "nobody has signed it")
    assert (one.signatures, one.earlier, one.amendments) == ((), (), ())


def test_prepared_and_witnessed_it_is_not_final_and_approved_it_is(book):
    book.signs("prepared", LEAD)
    assert book.issue().not_final == f"prepared by {LEAD}; nobody has approved it"
    book.signs("approved", REP)
    one = book.issue()
    assert one.not_final == ""
    assert [(each.name, each.meaning) for each in one.signatures] == [
        (LEAD, "prepared"),
        (REP, "approved"),
    ]
    assert one.name == "issue 1"


def test_a_pin_and_the_signature_of_another_report_change_nothing_that_was_signed(book):
    book.signs()
    book.says(PinSet, name=LEAD, pin=made("2468"))
    assert book.issue().name == "issue 1"
    assert book.issue("report").not_final == "nobody has signed it"


def test_a_correction_after_signing_is_shown_with_both_values_in_issue_2(book):
    book.corrects("1", "41.10")  # before anybody signs: a correction, no amendment
    book.signs()
    changed = book.corrects("1", "40.10", "tape misread")
    one = book.issue()
    assert one.name == "issue 2, amended after signing"
    assert one.not_final == "nobody has signed it again"
    (amended,) = one.amendments
    assert (amended.issue, amended.seq, amended.of) == (2, changed.seq, 4)
    assert (amended.by, amended.at, amended.reason) == (LEAD, changed.at, "tape misread")
    assert [str(each) for each in amended.values] == ["length: was 41.10 ft, now 40.10 ft"]
    assert [each.name for each in one.earlier] == [REP]
    assert one.signatures == ()


def test_signed_again_it_is_final_and_still_says_that_it_was_amended(book):
    book.signs()
    book.corrects("1", "40.10")
    book.signs()
    one = book.issue()
    assert (one.name, one.not_final) == ("issue 2, amended after signing", "")
    assert len(one.signatures) == len(one.earlier) == 1
    book.corrects("1", "40.20")
    book.corrects("2", "40.30")
    third = book.issue()
    assert third.number == 3
    assert [(each.issue, str(each.values[0])) for each in third.amendments] == [
        (2, "length: was 40.07 ft, as listed, now 40.10 ft"),
        (3, "length: was 40.10 ft, now 40.20 ft"),
        (3, "length: was 40.14 ft, as listed, now 40.30 ft"),
    ]


def test_what_is_only_added_begins_an_issue_that_amends_nothing(book):
    book.signs()
    book.says(Note, text="tongs rigged down")
    book.says(Note, text="slips set")
    one = book.issue()
    assert (one.name, one.added, one.amendments) == ("issue 2, added to after signing", 2, ())


def test_a_correction_of_what_came_after_the_signature_amends_nothing_signed(book):
    book.signs()
    late = book.says(Note, text="wind")
    book.says(Correction, of=late.seq, reason="slip", instead={"text": "rain"})
    assert book.issue().amendments == ()
    assert book.issue().added == 2


def test_a_struck_entry_says_so(book):
    told = landed()
    told.says(Note, text="joint 9 marked")
    book = Signed(told)
    book.signs()
    book.says(Correction, of=book.standing.count - 1, reason="another well")
    (one,) = book.issue().amendments
    assert (one.was, one.now) == ("note: joint 9 marked", "struck: it did not happen")


def test_a_set_up_changed_after_signing_is_an_amendment_too(book):
    book.signs()
    from tally.units import read

    heavier = setup(pumping=pumping(mud_weight=read("10.4 lb/gal", "density")))
    book.says(SetUp, setup=heavier, despite="weighed again")
    (one,) = book.issue().amendments
    assert (one.of, one.reason) == (1, "weighed again")
    assert [str(each) for each in one.values] == [
        "pumping mud weight: was 10.2 lb/gal, now 10.4 lb/gal"
    ]


def test_of_a_list_only_the_joint_that_changed_is_told(book):
    from tally.job.stored import to_fields

    book.signs()
    items = [to_fields(each) for each in book.standing.entries[1].items]
    items[6] |= {"length": 4111, "typed": "41.11"}
    book.says(Correction, of=2, reason="slip", instead={"items": items, "source": "pipe list"})
    (one,) = book.issue().amendments
    before = book.standing.entries[1].items[6].typed
    assert [str(each) for each in one.values] == [f"joint 7 length: was {before} ft, now 41.11 ft"]


def test_steps_are_named_in_the_words_of_their_list(book):
    book.signs("prepared", CEMENTER)
    seq = next(e.seq for e in book.standing.entries if getattr(e, "step_id", "") == "relief-set")
    entry = book.standing.entries[seq - 1]
    instead = {"list_id": "rig-up", "step_id": "relief-set", "value": "3100 psi", "witness": REP}
    book.says(Correction, of=entry.seq, reason="read wrongly", instead=instead)
    (one,) = book.issue().amendments
    assert one.was == f"Set the pump relief; give its pressure: 3000 psi, seen by {REP}"
    assert [str(each) for each in one.values] == ["value: was 3000 psi, now 3100 psi"]
