"""Text at the door: nothing unprintable comes in, nothing unprintable is quoted back."""

from __future__ import annotations

import unicodedata

from tally.errors import InputError

_KINDS = (
    ("a line break", {0x0A, 0x0B, 0x0C, 0x0D, 0x85, 0x2028, 0x2029}),
    ("a tab", {0x09}),
    ("a control character", {*range(0x20), *range(0x7F, 0xA0)}),
    (
        "a character that turns the writing direction",
        {0x061C, 0x200E, 0x200F, *range(0x202A, 0x202F), *range(0x2066, 0x206A)},
    ),
    (
        "an invisible character",
        {
            0x00AD, 0x034F, 0x115F, 0x1160, 0x17B4, 0x17B5, 0x180B, 0x180C, 0x180D, 0x180E, 0x180F,
            0x200B, 0x200C, 0x200D, 0x2060, 0x2061, 0x2062, 0x2063, 0x2064, 0x2065,
            *range(0x206A, 0x2070), 0x2800, 0x3164, *range(0xFE00, 0xFE10), 0xFEFF, 0xFFA0,
            *range(0xE0000, 0xE1000),
        },
    ),
)  # fmt: skip
_MARKS_IN_A_ROW = 3


def shown(text: str, limit: int = 24) -> str:
    """Return typed text as it may be quoted in a message: printable ASCII, shortened.

    >>> shown("41" + chr(27) + "[31m")
    '41<U+001B>[31m'
    """
    plain = [char if " " <= char <= "~" else f"<U+{ord(char):04X}>" for char in text[: limit + 1]]
    while len("".join(plain)) > limit:
        plain.pop()
    return "".join(plain) + ("..." if len(plain) < len(text) else "")


def unprintable(char: str) -> str:
    """Return what is wrong with a character, or nothing when it may be shown."""
    for words, codes in _KINDS:
        if ord(char) in codes:
            return words
    return "" if char.isprintable() else "a character that cannot be shown"


def _first_fault(text: str) -> tuple[int, str] | None:
    marks = _MARKS_IN_A_ROW
    for place, char in enumerate(text, start=1):
        if fault := unprintable(char):
            return place, fault
        marks = marks + 1 if unicodedata.category(char) in {"Mn", "Me"} else 0
        if marks > _MARKS_IN_A_ROW:
            return place, "an accent with no letter under it"
    return None


def clean(text: str, limit: int = 200) -> str:
    """Return text typed by a person, ready to be stored: printable, composed, ends stripped.

    Raises
    ------
    InputError
        If a character cannot be shown as it is (its place is named) or the text is too long.

    Examples
    --------
    >>> clean("  held 10 min, no flow back ")
    'held 10 min, no flow back'
    """
    if len(text.strip(" ")) > limit:
        raise InputError(_too_long(len(text.strip(" ")), limit))
    fault = _first_fault(text)
    if fault is not None:
        place, words = fault
        raise InputError(
            f'"{shown(text)}" is not taken because its character {place} is {words} '
            f"(U+{ord(text[place - 1]):04X}): take it out."
        )
    kept = unicodedata.normalize("NFC", text).strip(" ")
    if len(kept) > limit:
        raise InputError(_too_long(len(kept), limit))
    return kept


def _too_long(length: int, limit: int) -> str:
    return f"The text has {length:,} characters, more than the {limit:,} that are kept: shorten it."
