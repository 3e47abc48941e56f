"""One calculation: a form for its inputs, and its answer with the working."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import floor, log10

from textual.content import Content
from textual.widgets import Input

from screens.dialogs.form import Field, Form
from screens.dialogs.panel import Panel
from screens.ink import BOLD, INK, QUIET, Line, line, wrap
from screens.pages.page import Page
from tally.errors import DomainError
from tally.formula import Formula, Term
from tally.units import FIELD, METRIC, Measure, read, to_unit

WIDTH = 70
LABEL = 9


@dataclass(frozen=True, slots=True)
class Answer:
    """What was read, and what came of it, both by name; the results in SI."""

    read: dict[str, Measure]
    results: dict[str, float]


class CalculationForm(Form):
    """The inputs of a formula; dismissed with its answer under "answer"."""

    KEPT = False

    ENTERS = "calculate"

    def __init__(self, formula: Formula, typed: dict[str, str]) -> None:
        super().__init__(f"{formula.name}: {formula.purpose}", _fields(formula, typed))
        self.formula = formula
        self.typed = typed

    def _enter(self) -> None:
        """Work the formula; what it refuses stays beside the input that it speaks of."""
        values, faults = self.read_all()
        if not faults:
            try:
                results = self.formula.evaluate({name: m.value for name, m in values.items()})
            except DomainError as fault:
                faults[spoken_of(self.formula, str(fault))] = str(fault)
        self._show(faults)
        if not faults:
            for term in self.formula.inputs:
                self.typed[term.name] = self.query_one(f"#field-{term.name}", Input).value
            self.dismiss({"answer": Answer(values, results)})


def _fields(formula: Formula, typed: dict[str, str]) -> list[Field]:
    return [
        Field(
            term.name,
            f"{term.name}: {term.meaning}",
            _reader(term),
            value=typed.get(term.name, term.default or ""),
            hint=term.unit or "a plain number",
        )
        for term in formula.inputs
    ]


def _reader(term: Term) -> Callable[[str], Measure]:
    return lambda text: read(text, term.quantity, term.unit)


def spoken_of(formula: Formula, refusal: str) -> str:
    """Return the input that a refusal speaks of: the one that shares most words with its start."""
    head = refusal.partition(" is ")[0].casefold().replace(",", " ").split()
    words = {word for word in head if word.isalpha()}
    return max(formula.inputs, key=lambda term: len(words & _words_of(term))).name


def _words_of(term: Term) -> set[str]:
    said = term.meaning.partition(",")[0].casefold().split()
    return {term.name.casefold(), *said}


async def calculate(page: Page, formula: Formula, typed: dict[str, str]) -> None:
    """Ask for the inputs and show the answer; nothing is entered in the book."""
    answered = await page.app.push_screen_wait(CalculationForm(formula, typed))
    if answered:
        lines = answer_lines(formula, answered["answer"])
        panel = Panel(formula.name, lines, "nothing is entered in the book")
        await page.app.push_screen_wait(panel)


def answer_lines(formula: Formula, answer: Answer) -> list[Content]:
    """Return the answer in field and metric units, and the working that it came from."""
    lines = [line(formula.purpose, QUIET), line("")]
    for term in formula.outputs:
        lines += _result(term, answer.results[term.name])
    lines += [line(""), line("from", QUIET)]
    for term in formula.inputs:
        lines += _input(term, answer.read[term.name])
    lines.append(line(""))
    return [*lines, *_told("how", formula.source), *_told("range", formula.range)]


def _result(term: Term, value: float) -> list[Content]:
    drawn = Line(WIDTH).put(2, term.name, BOLD).put(18, " = ".join(in_both(term, value)), BOLD)
    return [drawn.content(), *_meaning(term)]


def _meaning(term: Term) -> list[Content]:
    return [line(f"  {term.meaning}", QUIET)] if term.meaning != term.name else []


def _input(term: Term, measure: Measure) -> list[Content]:
    other = [text for text in in_both(term, measure.value) if text != measure.text]
    also = f"= {' = '.join(other)}" if other else ""
    drawn = Line(WIDTH).put(2, term.name, INK).put(18, measure.text, INK).put(36, also, QUIET)
    return [drawn.content(), *_meaning(term)]


def in_both(term: Term, value: float) -> tuple[str, ...]:
    """Return a value in the unit of its term, in the field unit and in the metric one, each once.

    >>> in_both(Term("volume", "volume", "volume", "bbl"), 1.0)
    ('6.28981 bbl', '1 m3')
    """
    if term.quantity in ("count", "text"):
        return (f"{value:,.6g}",)
    units = (term.unit, FIELD.unit(term.quantity), METRIC.unit(term.quantity))
    return tuple(f"{_number(value, unit)} {unit}".rstrip() for unit in dict.fromkeys(units))


def _number(value: float, unit: str) -> str:
    """Return a value in a unit to six figures, never as a power of ten."""
    number = to_unit(value, unit) if unit else value
    if not number:
        return "0"
    decimals = max(0, 5 - floor(log10(abs(number))))
    text = f"{number:,.{min(decimals, 15)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def formula_lines(formula: Formula, width: int) -> list[Content]:
    """Return what a formula wants and gives, where it comes from and how far it holds."""
    lines = wrap(formula.purpose, width)
    for label, terms in (("inputs", formula.inputs), ("gives", formula.outputs)):
        told = "; ".join(f"{term.name}, {term.unit or 'a number'}" for term in terms)
        lines += _told(label, told, width)
    return [*lines, *_told("how", formula.source, width), *_told("range", formula.range, width)]


def _told(label: str, text: str, width: int = WIDTH) -> list[Content]:
    broken = [each.plain for each in wrap(text, width - LABEL)]
    return [
        Line(width).put(0, "" if place else label, QUIET).put(LABEL, each, INK).content()
        for place, each in enumerate(broken)
    ]
