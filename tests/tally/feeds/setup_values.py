"""Texts and measures drawn by lot, such as a person may type in a set-up."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from tally.units import clean, read

LETTERS = "abXY 019\u00c5\u00f8\u4e95[](){}=#'\"\\,;:-+*/|<>%&$~"
HOSTILE = (
    "=1+1",
    "[/]",
    "[hole]",
    "\\u202e",
    'a "b" \\ c',
    "# no",
    "'''",
    "\u00c5se",
    "a, b",
    "4127",
)


def texts(least: int = 1) -> st.SearchStrategy[str]:
    """Text that a person may type, nasty but printable."""
    drawn = st.text(LETTERS, max_size=12).map(lambda text: clean(f"x{text}"))
    some = st.one_of(st.sampled_from(HOSTILE), drawn)
    return some if least else st.one_of(st.just(""), some)


def measures(quantity: str, least: int, most: int, unit: str) -> st.SearchStrategy[Any]:
    """A measure of so many hundredths of a unit."""
    return st.integers(least * 100, most * 100).map(
        lambda hundredths: read(f"{hundredths / 100:.2f} {unit}", quantity)
    )


def feet(least: int, most: int) -> st.SearchStrategy[Any]:
    """A depth."""
    return measures("length", least, most, "ft")


def optional(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Something or nothing."""
    return st.none() | strategy
