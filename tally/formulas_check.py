"""Runs published cases against the formulas: one verdict a case, and a count by kind.

A case is a table in a TOML file: the formula, its inputs and the expected outputs as they are
printed, the kind of evidence, the source. A value agrees within half a unit of its last printed
digit. A wider `within` needs a `why` and is counted apart.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal, get_args

from tally.errors import InputError, JobFileError, ShoedownError
from tally.formula import Formula
from tally.formulas import find
from tally.units import read, shown

if TYPE_CHECKING:
    from pydantic import BaseModel

Kind = Literal["published", "standard", "corrected", "practice", "memory", "derived"]
KINDS: tuple[str, ...] = get_args(Kind)
EVIDENCE = ("published", "standard")

_PRINTED = re.compile(r"(?P<number>-?\d+(?:\.\d+)?)(?P<unit>(?: .*|%)?)", re.ASCII)
_NOISE = 1e-9


@dataclass(frozen=True, slots=True)
class Verdict:
    """What came of one case: `faults` is empty when every expected value agrees."""

    place: str
    kind: str
    formula: str
    values: tuple[str, ...]
    faults: tuple[str, ...]
    source: str
    why: str = ""

    @property
    def agrees(self) -> bool:
        """Whether every expected value agrees."""
        return not self.faults

    @property
    def widened(self) -> bool:
        """Whether the case agrees only within a width that the case itself explains."""
        return bool(self.why)

    def line(self) -> str:
        """Return the verdict on one line; what a file says cannot steer the terminal."""
        word = "agrees" if self.agrees else "DIFFERS"
        told = "; ".join(self.faults or self.values)
        apart = f" (wider: {self.why})" if self.why else ""
        return shown(f"{word:<7}  {self.kind:<9}  {self.place} {self.formula}: {told}{apart}", 600)


@dataclass(frozen=True, slots=True)
class _Printed:
    """A value as printed: its number and unit, the SI value, and one unit in SI."""

    text: str
    number: Decimal
    unit: str
    value: float
    one: float

    @property
    def digits(self) -> int:
        """Decimals printed."""
        return -int(self.number.as_tuple().exponent)

    @property
    def half(self) -> float:
        """Half a unit of the last printed digit, in SI."""
        return self.one * 10.0**-self.digits / 2

    @property
    def size(self) -> float:
        """The value as a difference, in SI."""
        return float(self.number) * self.one

    def misses(self, got: float, margin: float) -> bool:
        """Whether the value got is further away than the margin, float noise forgiven."""
        return abs(got - self.value) > margin * (1 + _NOISE) + abs(self.value) * 1e-13

    def show(self, got: float) -> str:
        """Return the value got in the printed unit, with two digits more."""
        number = float(self.number) + (got - self.value) / self.one
        return f"{number:.{self.digits + 2}f}{self.unit}"


def check_file(path: Path) -> list[Verdict]:
    """Check every case of a file; a malformed case is a verdict that differs.

    Raises
    ------
    JobFileError
        If the file cannot be read, is no TOML, or holds anything but `[[case]]` tables.
    """
    cases = _raw_cases(path)
    return [check_case(f"{path.name}:{count}", raw) for count, raw in enumerate(cases, start=1)]


def check_case(place: str, raw: dict[str, Any]) -> Verdict:
    """Check one case as it stands in the file; `place` says where that is."""
    from pydantic import ValidationError

    try:
        case: Any = _case_model().model_validate(raw)
    except ValidationError as error:
        faults = tuple(_said(fault) for fault in error.errors(include_url=False))
        return Verdict(place, "malformed", str(raw.get("formula", "?")), (), faults, "")
    try:
        values, faults = _compared(case, find(case.formula))
    except ShoedownError as error:
        values, faults = (), (str(error),)
    return Verdict(place, case.kind, case.formula, values, faults, case.source, case.why)


def closing_count(verdicts: Sequence[Verdict]) -> list[str]:
    """Return the count by kind, the widened cases apart, and the cases that differ.

    >>> closing_count([Verdict("x.toml:1", "published", "annulus", ("fits",), (), "a book")])
    ['published  1 agree', 'evidence of agreement: 1 case; 0 differ']
    """
    lines = [_count(kind, [v for v in verdicts if v.kind == kind]) for kind in KINDS]
    lines.append(_count("malformed", [v for v in verdicts if v.kind not in KINDS]))
    proof = sum(v.agrees and not v.widened and v.kind in EVIDENCE for v in verdicts)
    differ = sum(not v.agrees for v in verdicts)
    noun = "case" if proof == 1 else "cases"
    return [*filter(None, lines), f"evidence of agreement: {proof} {noun}; {differ} differ"]


def _count(kind: str, verdicts: Sequence[Verdict]) -> str:
    if not verdicts:
        return ""
    plain = sum(v.agrees and not v.widened for v in verdicts)
    wide = sum(v.agrees and v.widened for v in verdicts)
    differ = sum(not v.agrees for v in verdicts)
    parts = [f"{plain} agree"] if plain or not (wide or differ) else []
    parts += [f"{wide} agree within a wider margin"] if wide else []
    parts += [f"{differ} differ"] if differ else []
    return f"{kind:<9}  {', '.join(parts)}"


def _raw_cases(path: Path) -> list[dict[str, Any]]:
    import tomllib

    try:
        told = tomllib.loads(path.read_text("utf-8"))
    except OSError as error:
        raise JobFileError(f"{path} cannot be read: {error.strerror}.") from None
    except (ValueError, RecursionError) as error:  # wrong encoding, syntax, depth or number
        raise JobFileError(f"{path} is no TOML: {shown(str(error), 200)}.") from None
    strays = sorted(set(told) - {"case"})
    cases = told.get("case")
    if strays or not isinstance(cases, list) or not all(isinstance(c, dict) for c in cases):
        found = f"; found {', '.join(strays)}" if strays else ""
        raise JobFileError(f"{path} must hold [[case]] tables and nothing else{found}.")
    return cases


def _said(fault: Any) -> str:
    where = ".".join(str(part) for part in fault["loc"])
    told = str(fault["msg"]).removeprefix("Value error, ")
    return f"{where}: {told}" if where else told


def _compared(case: Any, formula: Formula) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return what agreed and what did not, each in a few words."""
    got = formula.evaluate_text(case.inputs)
    unknown = [name for name in case.expect if name not in got]
    if unknown:
        return (), (f"no output {', '.join(unknown)}; there are {', '.join(got)}",)
    values: list[str] = []
    faults: list[str] = []
    for name, text in case.expect.items():
        quantity = formula.output_term(name).quantity
        printed = _printed(text, quantity)
        fault = _fault(case, name, printed, quantity, got[name])
        told = f"{name} got {printed.show(got[name])}, expected {text}"
        values.append(told)
        faults += [f"{told}{fault}"] if fault is not None else []
    return tuple(values), tuple(faults)


def _fault(case: Any, name: str, printed: _Printed, quantity: str, got: float) -> str | None:
    """Return what to add to "got, expected" when the value does not stand, or None."""
    width = case.within.get(name)
    margin = printed.half if width is None else _size(width, quantity)
    if width is not None and margin <= printed.half:
        return f"; within {width} is no wider than half the last digit, so leave it out"
    if printed.misses(got, margin):
        return "" if width is None else f", within {width}"
    if name in case.printed:
        slip = _printed(case.printed[name], quantity)
        if not slip.misses(got, slip.half):
            return f"; the printed {slip.text} agrees, so nothing was corrected"
    return None


def _size(text: str, quantity: str) -> float:
    """Return the SI size of a difference such as "3 psi"."""
    return _printed(text, quantity).size


def _printed(text: str, quantity: str) -> _Printed:
    """Take a printed value apart; the same number plus one gives the size of its unit."""
    match = _PRINTED.fullmatch(text)
    if match is None:
        raise InputError(f'"{shown(text)}" is no plain decimal number with its unit.')
    number, unit = Decimal(match["number"]), match["unit"]
    value = read(text, quantity).value
    one = read(f"{number + 1:f}{unit}", quantity).value - value
    return _Printed(text, number, unit, value, one)


@lru_cache(maxsize=1)
def _case_model() -> type[BaseModel]:
    """Return the shape of a case; built here because pydantic is slow to import."""
    from pydantic import BaseModel, ConfigDict, Field, model_validator

    class Case(BaseModel):
        model_config = ConfigDict(extra="forbid", strict=True, frozen=True)

        formula: str = Field(min_length=1)
        inputs: dict[str, str] = Field(min_length=1)
        expect: dict[str, str] = Field(min_length=1)
        kind: Kind
        source: str = Field(min_length=10)
        printed: dict[str, str] = {}
        within: dict[str, str] = {}
        why: str = ""
        note: str = ""

        @model_validator(mode="after")
        def _hold_together(self) -> Case:
            _refuse_loose_ends(self)
            return self

    return Case


def _refuse_loose_ends(case: Any) -> None:
    """Refuse fields that say nothing without one another."""
    if (case.kind == "corrected") != bool(case.printed):
        raise ValueError("a corrected case, and no other, says what was printed")
    if bool(case.within) != bool(case.why.strip()):
        raise ValueError("a wider within needs a why, and a why needs a within")
    _refuse_strangers("printed", case.printed, case.expect)
    _refuse_strangers("within", case.within, case.expect)


def _refuse_strangers(field: str, names: Iterable[str], expect: Iterable[str]) -> None:
    strangers = sorted(set(names) - set(expect))
    if strangers:
        raise ValueError(f"{field} names {', '.join(strangers)}, which is not expected")
