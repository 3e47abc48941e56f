"""What a registered formula is, and the register itself.

A calculation that a person could want by itself is declared once, beside its function. The
command line, the calculations page, the table in the documents, the published checks and the
origin shown with every live figure all come from that one declaration.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from inspect import signature
from math import isfinite
from typing import TypeVar

from tally.errors import DomainError, InputError
from tally.units import Measure, read
from tally.units.beside import beside_typed

Function = Callable[..., float | tuple[float, ...]]
F = TypeVar("F", bound=Function)


@dataclass(frozen=True, slots=True)
class Term:
    """One input or output: `unit` is shown, and assumed when the typed text names none."""

    name: str
    meaning: str
    quantity: str
    unit: str
    default: str | None = None


@dataclass(frozen=True, slots=True)
class Formula:
    """A function with everything that a person must know to use it."""

    name: str
    purpose: str
    function: Function
    inputs: tuple[Term, ...]
    outputs: tuple[Term, ...]
    source: str
    range: str

    def evaluate(self, given: Mapping[str, float]) -> dict[str, float]:
        """Return the outputs by name for inputs by name, SI in and SI out."""
        self._refuse_wrong_names(given)
        values = [
            given[term.name] if term.name in given else _default(term) for term in self.inputs
        ]
        result = self.function(*values)
        results = result if isinstance(result, tuple) else (result,)
        return {term.name: one for term, one in zip(self.outputs, results, strict=True)}

    def evaluate_text(self, given: Mapping[str, str]) -> dict[str, float]:
        """Return the SI outputs by name for inputs as a person types them."""
        self._refuse_wrong_names(given)
        try:
            return self.evaluate({name: self._read(name, text) for name, text in given.items()})
        except DomainError as error:
            typed = ", ".join(f"{name} = {text}" for name, text in given.items())
            told = beside_typed(str(error), self._measures(given))
            raise DomainError(f"{told} Given: {typed}.") from None

    def input_term(self, name: str) -> Term:
        """Return the input of that name."""
        return _by_name(self.inputs, name)

    def output_term(self, name: str) -> Term:
        """Return the output of that name."""
        return _by_name(self.outputs, name)

    def _measures(self, given: Mapping[str, str]) -> Iterator[Measure]:
        for name, text in given.items():
            term = self.input_term(name)
            yield read(text, term.quantity, term.unit)

    def _read(self, name: str, text: str) -> float:
        term = self.input_term(name)
        try:
            return read(text, term.quantity, term.unit).value
        except InputError as error:
            raise InputError(f"{name}: {error}") from None

    def _refuse_wrong_names(self, given: Mapping[str, object]) -> None:
        names = [term.name for term in self.inputs]
        unknown = [name for name in given if name not in names]
        if unknown:
            raise InputError(
                f"{self.name} has no input {', '.join(unknown)}; its inputs are {', '.join(names)}."
            )
        missing = [t for t in self.inputs if t.name not in given and t.default is None]
        if missing:
            wanted = ", ".join(f"{term.name} ({term.meaning}, {term.unit})" for term in missing)
            raise InputError(f"{self.name} still needs {wanted}.")


REGISTER: dict[str, Formula] = {}


def formula(
    name: str,
    purpose: str,
    *,
    inputs: Sequence[Term],
    outputs: Sequence[Term],
    source: str,
    range: str,  # noqa: A002 - the word that the tables show
) -> Callable[[F], F]:
    """Register the function under `name`; its parameters are the inputs, in the same order."""

    def register(function: F) -> F:
        entry = Formula(name, purpose, function, tuple(inputs), tuple(outputs), source, range)
        _refuse_careless(entry)
        REGISTER[name] = entry
        return function

    return register


def registered(function: Function) -> Formula:
    """Return the formula that the function was registered as."""
    for entry in REGISTER.values():
        if entry.function is function:
            return entry
    raise KeyError(f"{function.__name__} is not in the register of formulas")


def require_range(thing: str, value: float, low: float, high: float, unit: str) -> None:
    """Refuse a number that is no number or lies outside low to high, both ends included."""
    if not (isfinite(value) and low <= value <= high):
        limits = f"{low:,.12g} to {high:,.12g} {unit}".rstrip()
        shown = f"{value:,.6g} {unit}".rstrip()
        raise DomainError(f"{thing} {shown} is outside {limits}; check the number and its unit.")


def _default(term: Term) -> float:
    return read(term.default or "", term.quantity, term.unit).value


def _by_name(terms: tuple[Term, ...], name: str) -> Term:
    return next(term for term in terms if term.name == name)


def _refuse_careless(entry: Formula) -> None:
    """Catch a slip of the programmer at import: a name taken twice, terms that do not fit."""
    taken = REGISTER.get(entry.name)
    if taken is not None and _home(taken.function) != _home(entry.function):
        raise ValueError(f"two formulas are called {entry.name}")
    if len(signature(entry.function).parameters) != len(entry.inputs):
        raise ValueError(f"{entry.name}: the inputs declared are not the function's parameters")
    if not entry.outputs:
        raise ValueError(f"{entry.name}: no output is declared")
    names = [term.name for term in (*entry.inputs, *entry.outputs)]
    if len(set(names)) != len(names):
        raise ValueError(f"{entry.name}: two terms share a name")


def _home(function: Function) -> tuple[str, str]:
    return function.__module__, function.__qualname__
