"""The grammar of typed numbers: what can be read in one way only, and a sentence for the rest."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tally.errors import InputError
from tally.units.text import shown, unprintable

LONGEST = 40
_NUMBER = r"\d+/\d+|\d[\d.,]*(?:[ -]\d+/\d+)?|[.,]\d[\d.,]*"
_ONE = re.compile(rf"({_NUMBER}) ?([A-Za-z%#'\"].*|1 ?/.*)?", re.ASCII)
_PART = re.compile(rf" ?({_NUMBER}) ?([A-Za-z]+\.?|['\"])", re.ASCII)
_MIXED = re.compile(r"(?:(\d+)[ -])?(\d+)/(\d+)", re.ASCII)
_DECIMAL = re.compile(r"(\d*)(?:[.,](\d*))?", re.ASCII)
_POWER = re.compile(r"[eE][+-]?\d.*", re.ASCII)
_MARKS = str.maketrans({"\u2032": "'", "\u2019": "'", "\u2033": '"', "\u201d": '"'})
_POWERS = {"\u00b2": "2", "\u00b3": "3"}
_DENOMINATORS = frozenset({2, 4, 8, 16, 32, 64})


@dataclass(frozen=True, slots=True)
class Part:
    """One number with the unit typed after it ("" when none was)."""

    number: str
    value: Fraction
    unit: str

    @property
    def is_fraction(self) -> bool:
        """Whether it was typed with a fraction, "9-5/8"."""
        return "/" in self.number


class Doubt(Exception):
    """Why a text cannot be read ("it ..."), and what to type instead when that is known."""

    def __init__(self, why: str, advice: str = "") -> None:
        super().__init__(why)
        self.why = why
        self.advice = advice


def refusal(text: str, wanted: str, doubt: Doubt, example: str) -> InputError:
    """Return the one sentence: the text, what was expected, why it is refused, what to type."""
    advice = doubt.advice or f"type it like {example}"
    return InputError(f'"{shown(text)}" is not read as {wanted} because it {doubt.why}: {advice}.')


def at_the_door(text: str) -> str:
    """Return the text fit for the grammar, or doubt its length or its characters."""
    if len(text) > LONGEST:
        raise Doubt(f"has {len(text):,} characters, more than the {LONGEST} of a number")
    for place, char in enumerate(text, start=1):
        if fault := unprintable(char):
            raise Doubt(f"has {fault} at place {place}")
    body = re.sub(" +", " ", _plain_marks(text)).strip(" ")
    if not body:
        raise Doubt("has only spaces" if text else "is empty")
    strange = next((char for char in body if not char.isascii()), None)
    if strange is not None:
        raise Doubt(f"has U+{ord(strange):04X}, which is no plain digit, mark or letter")
    return body


def _plain_marks(text: str) -> str:
    """Return the text with primes, degree signs, powers and 41'-4" in plain letters."""
    plain = text.translate(_MARKS).replace("''", '"').replace("'-", "' ")
    plain = re.sub(" ?\u00b0 ?(?=[CcFf]\\b)", " deg", plain).replace("\u00b0", " deg ")
    return re.sub("(?<=[A-Za-z])[\u00b2\u00b3]", lambda power: _POWERS[power[0]], plain)


def signed(body: str) -> tuple[str, str]:
    """Return the sign ("", "+" or "-") and the rest."""
    return (body[0], body[1:].lstrip(" ")) if body[0] in "+-" else ("", body)


def one(body: str) -> Part | None:
    """Return a single number with everything after it as its unit, or None."""
    match = _ONE.fullmatch(body)
    if match is None:
        return None
    number, value = _valued(match[1])
    return Part(number, value, (match[2] or "").strip(" "))


def several(body: str) -> tuple[Part, ...]:
    """Return the parts of "41 ft 4 in", or nothing when the text is not such a chain."""
    found: list[Part] = []
    place = 0
    while match := _PART.match(body, place):
        number, value = _valued(match[1], leading_zero=bool(found))
        found.append(Part(number, value, match[2]))
        place = match.end()
    return tuple(found) if place == len(body) else ()


def unreadable(body: str) -> Doubt:
    """Return the reason why a text has not even the form of a number with a unit."""
    if is_power(body.lstrip("0123456789.,")):
        return Doubt("has a power of ten", "type all its digits")
    if re.match(rf"(?:{_NUMBER}) [\d.,]", body, re.ASCII):
        return Doubt("has two numbers where one is wanted")
    return Doubt("has not the form of a number with a unit")


def is_power(unit: str) -> bool:
    """Whether what stands after the number is the power of ten in "1e3"."""
    return _POWER.fullmatch(unit) is not None


def _valued(token: str, *, leading_zero: bool = False) -> tuple[str, Fraction]:
    """Return the number as stored and its exact value."""
    mixed = _MIXED.fullmatch(token)
    if mixed is not None:
        return _mixed(*mixed.groups())
    if "/" in token:
        raise Doubt("mixes decimals and a fraction", "type one or the other")
    return _decimal(token, leading_zero=leading_zero)


def _mixed(whole: str | None, above: str, below: str) -> tuple[str, Fraction]:
    if int(below) not in _DENOMINATORS:
        raise Doubt("has a fraction that is not in halves, quarters ... 64ths")
    if not 0 < int(above) < int(below):
        raise Doubt("has a fraction that is not between 0 and 1")
    _no_leading_zero(whole or "0")
    text = f"{above}/{below}" if whole is None else f"{whole} {above}/{below}"
    return text, int(whole or 0) + Fraction(int(above), int(below))


def _decimal(token: str, *, leading_zero: bool) -> tuple[str, Fraction]:
    _one_mark(token)
    match = _DECIMAL.fullmatch(token)
    if match is None:
        raise Doubt("has not the form of a number with a unit")
    whole, after = match.groups()
    if after == "":
        raise Doubt("ends in a decimal mark", f"type {whole} or {whole}.0")
    if not leading_zero:
        _no_leading_zero(whole or "0")
    text = (whole or "0") + (f".{after}" if after else "")
    return text, Fraction(text)


def _one_mark(token: str) -> None:
    commas, points = token.count(","), token.count(".")
    if commas and points:
        decimal = max(token.rfind(","), token.rfind("."))
        digits = (
            re.sub("[.,]", "", token[:decimal]) + "." + re.sub("[.,]", "", token[decimal + 1 :])
        )
        raise Doubt("has commas and points", f"type {digits} with no mark between thousands")
    if commas > 1 or points > 1:
        digits = re.sub("[.,]", "", token)
        raise Doubt("has more than one mark", f"type {digits} with no mark between thousands")
    if commas:
        _comma_can_only_be_decimal(*token.split(","))


def _comma_can_only_be_decimal(whole: str, after: str) -> None:
    """Doubt a comma that may stand between thousands ("4,127") or has lost its first digit."""
    if not whole:
        raise Doubt("starts with a comma", f"type 0.{after}")
    if len(after) == 3 and whole.strip("0"):
        raise Doubt(
            "has a comma that may mark thousands or decimals",
            f"type {whole}{after} or {whole}.{after}",
        )


def _no_leading_zero(whole: str) -> None:
    if len(whole) > 1 and whole[0] == "0":
        rest = whole.lstrip("0") or "0"
        raise Doubt("starts with a zero and more digits", f"type {rest} or put the point in")
