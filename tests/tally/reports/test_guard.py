"""Typed text becomes neither a formula nor a terminal escape, and can be had back."""

import csv
import io
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.reports.guard import Number, guarded, plain, record, unguarded, visible
from tests.tally.reports.jobs import HOSTILE

FORMULA_SIGNS = "=+-@\t\r\n\uff1d\uff0b\uff0d\uff20"


def begins_a_formula(cell: str) -> bool:
    """Tell whether a spreadsheet could take the cell for a formula."""
    return bool(cell) and (cell[0] in FORMULA_SIGNS or cell.lstrip().startswith(tuple("=+-@")))


@pytest.mark.parametrize(
    ("typed", "goes_out"),
    [
        ("=1+2", "'=1+2"),
        ("+1", "'+1"),
        ("-1+1", "'-1+1"),
        ("@x", "'@x"),
        ("\tx", "'<U+0009>x"),
        ("\rx", "'<U+000D>x"),
        ("\nx", "'<U+000A>x"),
        ("  =1", "'  =1"),
        ("\uff1d1", "'\uff1d1"),
        ("'=1", "''=1"),
        ("x;=1+2", "x;'=1+2"),
        ("thread, 3 turns", "thread, 3 turns"),
        ("9-5/8", "9-5/8"),
        ("'quoted'", "'quoted'"),
        ("\x1b[31m", "<U+001B>[31m"),
        ("\u202ex", "<U+202E>x"),
        ("[red]", "[red]"),
        ("", ""),
    ],
)
def test_text_is_guarded(typed: str, goes_out: str) -> None:
    assert guarded(typed) == goes_out


def test_the_examples_of_the_published_page() -> None:
    """OWASP, "CSV Injection": the two rows of its table (the mark behind ; is our own)."""
    assert record(['=1+2";=1+2']) == '"\'=1+2"";\'=1+2"\r\n'
    assert record(["=1+2'\" ;,=1+2"]) == '"\'=1+2\'"" ;,=1+2"\r\n'


@given(st.text(max_size=30))
def test_no_text_begins_a_formula(text: str) -> None:
    line = record([text, "next"])
    for mark in ",;":
        cells = next(csv.reader(io.StringIO(line, newline=""), delimiter=mark))
        assert not [cell for cell in cells if begins_a_formula(cell)], (text, mark)


@given(st.text(max_size=30))
def test_what_can_be_shown_comes_back(text: str) -> None:
    if visible(text) == text:
        assert unguarded(guarded(text)) == text


@given(st.text(st.sampled_from("';= -+@a"), max_size=12))
def test_quotes_and_signs_come_back(text: str) -> None:
    assert unguarded(guarded(text)) == text


@given(st.text(max_size=60))
def test_nothing_reaches_a_terminal_but_text(text: str) -> None:
    assert all(" " <= char <= "~" for char in plain(text))
    bad = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
    assert not [char for char in visible(text) if unicodedata.category(char) in bad]


def test_names_stay_legible() -> None:
    assert plain("Bj\u00f8rn \u00c5s\u00e9n, \u0141ukasz, 9\u20135/8\u2033") == (
        'Bjorn Asen, Lukasz, 9-5/8"'
    )
    assert plain("e\u0301") == "e"


@pytest.mark.parametrize("text", HOSTILE)
def test_one_record_is_one_line(text: str) -> None:
    line = record([text, 7, text])
    assert line.endswith("\r\n")
    assert not {char for char in line[:-2] if char < " " or char == "\x7f"}
    assert len(next(csv.reader([line]))) == 3


def test_a_number_goes_out_as_a_number() -> None:
    assert record([Number("-1,234.50"), -3]) == '"-1234.50","-3"\r\n'


@pytest.mark.parametrize("shown", ["=1", "1e3", "", "--", "1.", "-", "1;2"])
def test_what_is_no_number_is_no_number(shown: str) -> None:
    with pytest.raises(ValueError, match="is no number"):
        Number(shown)
