"""The canonical text of a line, its hash, and what a line refuses."""

from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.book.journal import canonical, chained, entry_of, genesis, line_of, misfit, parsed
from tally.errors import BookDamaged, BookTooNew, EntryRefused
from tests.tally.book.invented import beginning, note, run

WHOLE = st.integers(-(2**63) + 1, 2**63 - 1)
TEXT = st.text(st.characters(exclude_categories=["Cs"]))
VALUES = st.recursive(
    st.none() | st.booleans() | WHOLE | TEXT,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXT, inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(TEXT, VALUES, max_size=6))
def test_canonical_text_reads_back_and_is_written_the_same_again(fields):
    text = canonical(fields)
    assert parsed(text) == fields
    assert canonical(parsed(text)) == text


@pytest.mark.parametrize(
    "value",
    [1.5, float("nan"), [1, [2.0]], {"a": {"b": 0.1}}, 2**63, b"x", {1: "a"}, {"a"}],
)
def test_a_line_refuses_what_it_cannot_hold(value):
    with pytest.raises(EntryRefused):
        canonical({"kind": "note", "value": value})


def test_half_a_character_is_refused():
    with pytest.raises(EntryRefused, match="half of a character"):
        canonical({"kind": "note", "text": "\ud800"})


@pytest.mark.parametrize(
    "text", ['{"a":1.5}', '{"a":NaN}', '{"a":1,"a":2}', '{"a":1e3}', "[1]", "{", "null"]
)
def test_a_stored_line_is_read_strictly(text):
    with pytest.raises((BookDamaged, ValueError)):
        parsed(text)


def test_kind_comes_first_then_book_number_person_and_time():
    line = line_of(note("wind 30 kn, münster"), "abc", 7, "0")
    assert line.text.startswith(
        '{"kind":"note","book":"abc","seq":7,"by":"Tally Keeper","at":"2026'
    )
    assert "münster" in line.text


def test_hash_is_over_the_hash_before_and_the_text_as_stored():
    line = line_of(note("mud 10.2"), "abc", 1, genesis("abc"))
    by_hand = sha256(genesis("abc").encode() + b"\n" + line.text.encode()).hexdigest()
    assert line.hash == by_hand == chained(line.prev, line.text)
    assert genesis("abc") != genesis("abd")


@pytest.mark.parametrize("entry", [*beginning(), run("1", "centralizer"), note("x")])
def test_an_entry_reads_back_as_it_was_made(entry):
    line = line_of(entry, "abc", 3, "0")
    back = entry_of(line, "abc")
    assert line_of(back, "abc", 3, "0") == line
    assert type(back) is type(entry)
    assert back.seq == 3


def test_a_line_of_another_book_or_place_is_not_read():
    line = line_of(note("x"), "abc", 3, "0")
    with pytest.raises(BookDamaged):
        entry_of(line, "other")


def test_a_kind_of_a_later_release_is_told():
    line = line_of(note("x"), "abc", 1, "0")
    later = type(line)(1, "0", line.hash, line.text.replace('"note"', '"from the future"'))
    with pytest.raises(BookTooNew):
        entry_of(later, "abc")


def test_each_way_of_not_fitting_is_named():
    line = line_of(note("x"), "abc", 2, "before")
    assert misfit(line, 1, "before") == ""
    assert "missing" in misfit(line, 0, "before")
    assert "does not follow" in misfit(line, 1, "another")
    other = type(line)(line.seq, line.prev, line.hash, line.text + " ")
    assert "was changed" in misfit(other, 1, "before")
