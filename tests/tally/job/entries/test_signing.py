"""A signature: what it means, whose it is, and that it stands on these entries and no others."""

from dataclasses import replace

import pytest

from tally.errors import BookDamaged, EntryRefused
from tally.job.entries.correction import Correction
from tally.job.entries.people import PinSet
from tally.job.entries.signing import ReportSigned
from tally.job.pins import made
from tests.tally.job.invented import LEAD, MUD, REP, landed, pumping_down, running
from tests.tally.job.signing import Signed


@pytest.fixture
def book():
    return Signed(landed())


def test_it_keeps_who_as_what_when_and_what_was_signed(book):
    before = book.standing
    entry = book.signs("approved", REP, "tally")
    (one,) = book.standing.job.signatures
    assert (one.name, one.role, one.meaning) == (REP, "company representative", "approved")
    assert (one.entries, one.head) == (before.count, before.head)
    assert (one.at, one.pin, one.how) == (entry.at, False, "without a PIN")
    assert entry.said() == f"casing tally: approved by {REP}, company representative"


@pytest.mark.parametrize(
    ("told", "sentence"),
    [
        ({"meaning": "liked"}, "'liked' is no meaning of a signature"),
        ({"reports": ()}, "Say which report is signed, each one once."),
        ({"reports": ("tally", "tally")}, "each one once"),
        ({"reports": ("diary",)}, "'diary' is no report that is signed"),
        ({"name": "A Stranger"}, "not among the people"),
        ({"role": "driller"}, "is on the job as company representative, not as driller"),
        ({"entries": 3}, "was made on 3 entries"),
        ({"head": "0" * 64}, "that end with the hash 000000000000"),
    ],
)
def test_what_cannot_be_signed_so_is_refused(book, told, sentence):
    with pytest.raises(EntryRefused, match=sentence):
        book.signs(**told)
    assert book.standing.job.signatures == ()


def test_an_unfinished_report_is_not_signed():
    with pytest.raises(EntryRefused, match="tally cannot be signed yet: the string is not on dep"):
        Signed(running("S1", "1")).signs()
    book = Signed(pumping_down())
    book.signs("prepared", LEAD, "tally")
    with pytest.raises(EntryRefused, match="report cannot be signed yet: the plug is not entered"):
        book.signs("prepared", LEAD, "report")


def test_a_person_with_a_pin_signs_with_it(book):
    book.says(PinSet, name=REP, pin=made("2468"))
    with pytest.raises(EntryRefused, match=f"{REP} has a PIN and has not signed with it"):
        book.signs()
    book.signs(signed=(REP,))
    assert book.standing.job.signatures[0].pin


def test_whoever_prepared_it_is_not_its_witness_and_may_approve_it(book):
    book.signs("prepared", MUD)
    with pytest.raises(EntryRefused, match="prepared it and cannot be the witness"):
        book.signs("witnessed", MUD)
    book.signs("witnessed", LEAD)
    book.signs("approved", MUD)


def test_a_signature_is_neither_corrected_nor_struck(book):
    entry = book.signs()
    with pytest.raises(EntryRefused, match="a signature stands; what was signed is amended"):
        book.says(Correction, of=entry.seq, reason="slip")


def test_it_cannot_be_moved_to_another_place_or_another_book(book):
    entry = book.signs()
    again = replace(entry, seq=0)
    assert isinstance(again, ReportSigned)
    with pytest.raises(EntryRefused, match="Look at the report again"):
        book.standing.next(again)
    other = Signed(landed(), book="another")
    assert other.standing.count == entry.entries
    with pytest.raises(EntryRefused, match="Look at the report again"):
        other.standing.next(again)


def test_a_book_that_holds_a_moved_one_is_refused_when_it_is_opened(book, monkeypatch):
    """Somebody wrote the chain anew around a signature that was made on other entries."""
    line, _ = Signed(landed()).standing.next(
        replace(landed().makes(ReportSigned, name=REP, role="company representative",
                               meaning="approved", reports=("tally",), entries=1, head="x"),
                entries=book.standing.count, head=book.standing.head)
    )  # fmt: skip
    assert book.standing.carried_on([line]).job.signatures
    with monkeypatch.context() as patch:
        patch.setattr(ReportSigned, "out_of_place", lambda *_: "")
        moved, _ = book.standing.next(
            landed().makes(ReportSigned, name=REP, role="company representative",
                           meaning="approved", reports=("tally",),
                           entries=book.standing.count, head="f" * 64)
        )  # fmt: skip
    with pytest.raises(BookDamaged, match=r"was made on .* that end with the hash ffffffffffff"):
        book.standing.carried_on([moved])
