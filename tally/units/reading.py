"""Reading typed numbers: exact, in SI, with a canonical text that reads the same for ever."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction
from functools import lru_cache

from tally.errors import InputError
from tally.units import grammar
from tally.units.factors import scale_and_zero, to_unit
from tally.units.grammar import Doubt, Part
from tally.units.quantities import DIFFERENCE, Quantity, named
from tally.units.spellings import unit_in
from tally.units.text import shown

_ENOUGH = Context(prec=120)
_PARTS_IN_THE_NEXT = {"in": 12, "h": 24, "min": 60, "s": 60}
_PLAIN_RATIO_LIMIT = 10


@dataclass(frozen=True, slots=True)
class Measure:
    """A number that was typed: SI value, quantity and canonical text ("10.2 lb/gal")."""

    value: float
    quantity: str
    text: str


@dataclass(frozen=True, slots=True)
class _Exact:
    value: Fraction
    text: str


def read(text: str, quantity: str, unit: str | None = None) -> Measure:
    """Return what was typed, in SI.

    Parameters
    ----------
    text : str
        What the person typed: "9 5/8 in", "41' 4\\"", "12,60 m", "2 h 34 min", "96 %"
    quantity : str
        A name from `QUANTITIES`, with " difference" after it if a sign is allowed
    unit : str, optional
        The unit assumed when the text names none; without it a bare number is refused

    Returns
    -------
    measure : Measure
        The SI value, the quantity and the canonical text

    Raises
    ------
    InputError
        If the text cannot be read in one way only.

    Notes
    -----
    A comma is a decimal mark only where it can be nothing else: "41,35" is 41.35, but "4,127"
    may be four thousand and is refused, and so is any mark between thousands. A bare fraction
    ("9-5/8") of a diameter is inches in every unit set. A ratio is stored in percent; a bare
    number up to 10 is a plain ratio, or a percentage where percent is assumed.

    Examples
    --------
    >>> read("9-5/8", "diameter", "in")
    Measure(value=0.244475, quantity='diameter', text='9 5/8 in')
    >>> read("41,35 ft", "length").text
    '41.35 ft'
    """
    exact = _read(text, quantity, unit)
    return Measure(float(exact.value), quantity, exact.text)


def read_exact(text: str, quantity: str, unit: str | None = None) -> Fraction:
    """Return the exact SI value of what was typed (pi, in angles, to 50 decimals).

    >>> read_exact("41' 4\\"", "length")
    Fraction(7874, 625)
    """
    return _read(text, quantity, unit).value


@lru_cache(maxsize=4096)
def _read(text: str, quantity: str, unit: str | None) -> _Exact:
    kind = named(quantity)
    if not kind.units:
        raise InputError(f"A {quantity} is kept as it is typed and has no value in numbers.")
    assumed = _assumed(kind, unit)
    try:
        body = grammar.at_the_door(text)
        return _in_si(kind, body, assumed)
    except Doubt as doubt:
        raise grammar.refusal(text, kind.in_words, doubt, _example(kind, assumed)) from None


def _assumed(kind: Quantity, unit: str | None) -> str | None:
    if unit is None:
        return _bare_unit(kind)
    found = unit_in(kind.name, unit)
    if found is None:
        raise InputError(
            f'"{shown(unit)}" is no unit of {kind.name}: use {kind.units_in_words or "none"}.'
        )
    return found


def _example(kind: Quantity, assumed: str | None) -> str:
    """Return a number as it may be typed, in the unit that the person works in."""
    if not assumed or assumed == next(iter(kind.units)) or "%" in kind.units:
        return kind.example
    number = to_unit(read(kind.example, kind.name).value, assumed)
    text = f"{number:.{kind.units[assumed]}f} {assumed}"
    return text if text.strip("0. ") != assumed else kind.example


def _bare_unit(kind: Quantity) -> str | None:
    return next((unit for unit in ("", "strokes") if unit in kind.units), None)


def _in_si(kind: Quantity, body: str, assumed: str | None) -> _Exact:
    sign, unsigned = grammar.signed(body)
    if sign and not kind.signed:
        raise Doubt("has a sign")
    if not unsigned:
        raise Doubt("has no digits")
    number, unit, text = _number(kind, unsigned, assumed)
    negative = sign == "-" and number != 0
    number = -number if negative else number
    return _Exact(_si(kind, number, unit), ("-" if negative else "") + text)


def _number(kind: Quantity, body: str, assumed: str | None) -> tuple[Fraction, str, str]:
    """Return the number, its unit and its canonical text without the sign."""
    single = grammar.one(body)
    if single is not None:
        unit = _unit_of(kind, single, assumed)
        if unit is not None:
            return _canonical(kind, single, unit)
    chain = grammar.several(body) if kind.parts else ()
    if len(chain) > 1:
        return _added(kind, chain)
    if single is None or grammar.is_power(single.unit):
        raise grammar.unreadable(body)
    raise _no_unit(kind, single.unit)


def _no_unit(kind: Quantity, typed: str) -> Doubt:
    if kind.parts and typed[-1:].isdigit() and unit_in(kind.name, typed.rstrip("0123456789./ -")):
        return Doubt("ends in a number without a unit")
    advice = f"use {kind.units_in_words}" if kind.units_in_words else "type the number alone"
    return Doubt(f'has "{shown(typed)}" for a unit', advice)


def _unit_of(kind: Quantity, part: Part, assumed: str | None) -> str | None:
    """Return the unit of a single number; None when what was typed is no unit."""
    if part.unit:
        return unit_in(kind.name, part.unit)
    if assumed is None:
        raise Doubt("has no unit")
    if part.is_fraction and assumed not in {"in", "ft", "", "strokes"}:
        if kind.name.removesuffix(DIFFERENCE) != "diameter":
            raise Doubt("has a fraction and no unit")
        return "in"
    return assumed


def _canonical(kind: Quantity, part: Part, unit: str) -> tuple[Fraction, str, str]:
    if kind.whole and part.value.denominator != 1:
        raise Doubt("is not a whole number")
    if "%" in kind.units:
        return _ratio(part, unit)
    return part.value, unit, f"{part.number} {unit}".strip(" ")


def _ratio(part: Part, unit: str) -> tuple[Fraction, str, str]:
    """Return a ratio in percent, so that its text reads the same whatever is assumed."""
    if unit == "" and part.value > _PLAIN_RATIO_LIMIT:
        raise Doubt(
            "may be a percentage or a plain ratio",
            f"type {part.number} % or a ratio up to {_PLAIN_RATIO_LIMIT}",
        )
    if unit == "%" and not part.unit and 0 < part.value <= 1:
        percent = _decimal_text(part.value * 100)
        raise Doubt("may be a percentage or a plain ratio", f"type {part.number} % or {percent} %")
    if unit == "%":
        return part.value, "%", f"{part.number} %"
    return part.value * 100, "%", f"{_decimal_text(part.value * 100)} %"


def _decimal_text(value: Fraction) -> str:
    quotient = _ENOUGH.divide(Decimal(value.numerator), Decimal(value.denominator))
    return format(quotient, "f")


def _added(kind: Quantity, chain: tuple[Part, ...]) -> tuple[Fraction, str, str]:
    """Return "41 ft 4 in" as one number of its last unit's SI size."""
    units = [unit_in(kind.name, part.unit) for part in chain]
    places = [kind.parts.index(unit) if unit in kind.parts else -1 for unit in units]
    if -1 in places or places != sorted(set(places)):
        raise Doubt("has parts that do not follow one another")
    for part, unit in zip(chain[1:], units[1:], strict=True):
        _less_than_the_next(part, str(unit))
    for part in chain[:-1]:
        if part.value.denominator != 1:
            raise Doubt("has a part in decimals before the last part")
    names = [str(unit) for unit in units]
    total = sum(
        (part.value * scale_and_zero(unit)[0] for part, unit in zip(chain, names, strict=True)),
        Fraction(0),
    )
    text = " ".join(f"{part.number} {unit}" for part, unit in zip(chain, names, strict=True))
    return total / scale_and_zero(names[-1])[0], names[-1], text


def _less_than_the_next(part: Part, unit: str) -> None:
    most = _PARTS_IN_THE_NEXT[unit]
    if part.value >= most:
        raise Doubt(f"has {part.number} {unit} where less than {most} {unit} can stand")


def _si(kind: Quantity, number: Fraction, unit: str) -> Fraction:
    scale, zero = scale_and_zero(unit)
    if kind.name.endswith(DIFFERENCE):
        return number * scale
    value = number * scale + zero
    if kind.name == "temperature" and value < 0:
        raise Doubt("is colder than anything can be")
    return value
