"""Text typed by a person, at the door."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.units import clean, shown


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("held 10 min", "held 10 min"),
        ("  two  spaces inside  ", "two  spaces inside"),
        ("", ""),
        ("Jose\u0301", "Jos\u00e9"),
        ("[red]=1+2[/]", "[red]=1+2[/]"),
        ("\u5f20\u4e09", "\u5f20\u4e09"),
        ("\u0e19\u0e49\u0e33", "\u0e19\u0e49\u0e33"),
    ],
)
def test_keeps(typed: str, kept: str) -> None:
    assert clean(typed) == kept


@pytest.mark.parametrize(
    ("char", "words"),
    [
        ("\x00", "a control character"),
        ("\x07", "a control character"),
        ("\x1b", "a control character"),
        ("\x7f", "a control character"),
        ("\x9b", "a control character"),
        ("\t", "a tab"),
        ("\n", "a line break"),
        ("\r", "a line break"),
        ("\x85", "a line break"),
        ("\u2028", "a line break"),
        ("\u202a", "a character that turns the writing direction"),
        ("\u202e", "a character that turns the writing direction"),
        ("\u2066", "a character that turns the writing direction"),
        ("\u2069", "a character that turns the writing direction"),
        ("\u200b", "an invisible character"),
        ("\u200d", "an invisible character"),
        ("\u2060", "an invisible character"),
        ("\ufeff", "an invisible character"),
        ("\ufe0f", "an invisible character"),
        ("\U000e0041", "an invisible character"),
        ("\u00a0", "a character that cannot be shown"),
        ("\ue000", "a character that cannot be shown"),
        ("\ud800", "a character that cannot be shown"),
    ],
)
def test_refuses_and_names_the_place(char: str, words: str) -> None:
    with pytest.raises(InputError) as refused:
        clean(f"  ab{char}cd")
    sentence = str(refused.value)
    assert f"its character 5 is {words} (U+{ord(char):04X}): take it out." in sentence
    assert sentence.isascii()
    assert sentence.isprintable()


@pytest.mark.parametrize("typed", ["\u0301abc", "a" + "\u0301\u0302\u0303\u0304"])
def test_refuses_accents_that_climb(typed: str) -> None:
    with pytest.raises(InputError, match="an accent with no letter under it"):
        clean(typed)


def test_refuses_what_is_too_long() -> None:
    assert clean("x" * 200) == "x" * 200
    assert clean(" " * 300 + "x") == "x"
    assert clean("x" * 12, limit=12) == "x" * 12
    with pytest.raises(InputError, match=r"^The text has 201 characters, more than the 200 that"):
        clean("x" * 201)
    with pytest.raises(InputError, match=r"^The text has 10,000 characters"):
        clean("\x1b" * 10_000)


CHARACTERS = st.one_of(st.characters(), st.sampled_from("\x1b\x9b\u202e\u200b\u0301\u0958 a\n"))


@given(st.text(CHARACTERS, max_size=230))
def test_what_passes_is_printable_composed_and_stable(typed: str) -> None:
    refused = ""
    try:
        kept = clean(typed)
    except InputError as error:
        kept, refused = "", str(error)
    assert refused.isascii()
    assert refused.isprintable()
    if refused:
        return
    assert clean(kept) == kept
    assert kept.isprintable()
    assert kept == unicodedata.normalize("NFC", typed).strip(" ")
    assert len(kept) <= 200
    kept.encode("utf-8")


@given(st.text(max_size=60))
def test_what_is_quoted_is_plain_and_short(typed: str) -> None:
    quoted = shown(typed)
    assert quoted.isascii()
    assert quoted.isprintable() or not quoted
    assert len(quoted) <= 27
    assert quoted.endswith("...") or len(quoted) >= len(typed)
