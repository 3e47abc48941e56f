"""Letters: what can be drawn is drawn, what cannot is written as its number, nothing is lost."""

import re
import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.reports.pdf.letters import BOLD, REGULAR, drawable, shortened, width, widths, wrapped
from tally.units.text import unprintable


@pytest.mark.parametrize("text", ["Åse Tønnesen", "Ωμέγα", "Жуков, Щука", "Łódź ğ ő", "9⅝ ± 1 °C"])
def test_latin_greek_and_cyrillic_are_drawn(text: str) -> None:
    assert drawable(text) == unicodedata.normalize("NFC", text)


@pytest.mark.parametrize(
    ("text", "drawn"),
    [
        ("井戸", "\\u4e95\\u6238"),
        ("\x1b[31m", "\\u001b[31m"),
        ("\u202ex", "\\u202ex"),
        ("a\u200bb\u00adc", "a\\u200bb\\u00adc"),
        ("\U0001f600", "\\U0001f600"),
        ("a\nb\tc", "a\\u000ab\\u0009c"),
        ("e\u0301", "é"),
    ],
)
def test_what_cannot_be_drawn_is_written_as_its_number(text: str, drawn: str) -> None:
    assert drawable(text) == drawn


def test_both_fonts_have_the_same_letters() -> None:
    assert set(widths(REGULAR)) == set(widths(BOLD))
    assert set(map(chr, range(0x20, 0x7F))) <= set(widths(REGULAR))
    assert not [char for char in widths(REGULAR) if unprintable(char)]


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=80), st.floats(60, 300), st.sampled_from([REGULAR, BOLD]))
def test_lines_fit_and_lose_no_letter(text: str, room: float, font: str) -> None:
    lines = wrapped(text, room, font)
    assert all(width(line, font, 8.0) <= room + 1e-6 for line in lines)
    assert "".join(lines).replace(" ", "") == drawable(text).replace(" ", "")
    assert width(shortened(text, room, font), font, 8.0) <= room + 1e-6


@pytest.mark.parametrize("room", [40.0, 61.0, 83.0])
def test_the_number_of_a_letter_is_not_parted(room: float) -> None:
    for line in wrapped("井戸" * 12, room):
        assert re.fullmatch(r"(\\u[0-9a-f]{4})+", line)
