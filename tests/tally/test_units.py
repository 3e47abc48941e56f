"""What is read, what is refused, and the sentence said."""

import pytest

from tally.units import read


@pytest.mark.parametrize(
    ("typed", "quantity", "unit", "si", "text"),
    [
        ("9 5/8 in", "diameter", None, 0.244475, "9 5/8 in"),
        ("9-5/8", "diameter", "in", 0.244475, "9 5/8 in"),
        ("41' 4\"", "length", None, 12.5984, "41 ft 4 in"),
        ("41,35 ft", "length", None, 12.60348, "41.35 ft"),
        ("12,60 m", "length", None, 12.6, "12.60 m"),
        ("4127", "length", "ft", 1257.9096, "4127 ft"),
    ],
)
def test_reads(typed: str, quantity: str, unit: str | None, si: float, text: str) -> None:
    measure = read(typed, quantity, unit)
    assert (measure.value, measure.quantity, measure.text) == (si, quantity, text)
