"""The command that works out a formula of the register, or checks published cases against it."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from screens.commands.refusing import FAULTS
from screens.commands.telling import say, say_json
from tally.errors import InputError

if TYPE_CHECKING:
    from tally.formula import Formula, Term
    from tally.units import UnitSet


@click.command()
@click.argument("words", metavar="[NAME] [INPUT=VALUE | FILE]...", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="Print JSON for another program.")
@click.option(
    "--units",
    type=click.Choice(["field", "metric"]),
    default="field",
    help="Units of the results, and of inputs that name none.",
)
@click.option("--check", is_flag=True, help="Check the published cases in each FILE.")
def calc(words: tuple[str, ...], as_json: bool, units: str, check: bool) -> None:
    """List the formulas; show the one called NAME; work it out from INPUT=VALUE.

    An input without a unit is read in the unit that the formula shows. Quote values with
    spaces: shoedown calc annulus "hole=12-1/4 in" od=5
    """
    if check:
        _check(words)
    elif not words:
        _list()
    elif len(words) == 1:
        _set_out(words[0], as_json=as_json)
    else:
        _work_out(words[0], words[1:], units, as_json=as_json)


def _list() -> None:
    from tally.formulas import all_formulas

    wide = max(len(name) for name in all_formulas())
    for name, one in all_formulas().items():
        say(f"{name:<{wide}}  {one.purpose}")


def _set_out(name: str, *, as_json: bool) -> None:
    """Tell what a formula is: its inputs with their units, its source, its range."""
    from tally.formulas import find, table

    lines = table(find(name))
    if as_json:
        say_json({"formula": lines[0].name, "lines": [line._asdict() for line in lines]})
        return
    for line in lines:
        unit = f" [{line.unit}]" if line.unit else ""
        say(f"{line.part:<8} {' '.join(part for part in (line.name, line.meaning) if part)}{unit}")


def _work_out(name: str, words: tuple[str, ...], units: str, *, as_json: bool) -> None:
    from tally.formulas import find
    from tally.units import unit_set

    formula, shown = find(name), unit_set(units)
    given = {key: _with_unit(formula, key, text, shown) for key, text in _split(words).items()}
    results = formula.evaluate_text(given)
    outputs = {term.name: _result(term, results[term.name], shown) for term in formula.outputs}
    if as_json:
        say_json(_as_fields(formula, given, outputs))
        return
    for key, text in given.items():
        say(f"{key} = {text}")
    for key, told in outputs.items():
        say(f"{formula.name}: {key} = {told['text']}")


def _as_fields(
    formula: Formula, given: dict[str, str], outputs: dict[str, dict[str, Any]]
) -> dict[str, Any]:
    return {
        "formula": formula.name,
        "inputs": given,
        "outputs": outputs,
        "source": formula.source,
        "range": formula.range,
    }


def _split(words: tuple[str, ...]) -> dict[str, str]:
    given: dict[str, str] = {}
    for word in words:
        name, equals, text = word.partition("=")
        name = name.strip()
        if not equals or not name:
            from tally.units import shown

            raise InputError(f'"{shown(word)}" is no input: type name=value, as in od=5.')
        if name in given:
            from tally.units import shown

            raise InputError(f"{shown(name)} is given twice; give it once.")
        given[name] = text
    return given


def _with_unit(formula: Formula, name: str, text: str, shown: UnitSet) -> str:
    """Return an input as it was understood, its unit with it; a strange name is left as it is."""
    from tally.units import read

    term = next((one for one in formula.inputs if one.name == name), None)
    if term is None:
        return text
    try:
        return read(text, term.quantity, _unit(term, shown) or None).text
    except InputError as refusal:
        raise InputError(f"{name}: {refusal}") from None


def _unit(term: Term, shown: UnitSet) -> str:
    """Return the unit of a term: the formula's own in field units, else that of the set."""
    return term.unit if shown.name == "field" else shown.unit(term.quantity)


def _result(term: Term, value: float, shown: UnitSet) -> dict[str, Any]:
    from tally.units import to_unit

    unit = _unit(term, shown)
    text = (
        shown.with_units({term.quantity: unit}).show(value, term.quantity) if unit else f"{value:g}"
    )
    return {"value": to_unit(value, unit), "unit": unit, "text": text}


def _check(words: tuple[str, ...]) -> None:
    from tally.formulas_check import check_file, closing_count

    if not words:
        raise InputError("Name the files to check, as in `shoedown calc --check cases.toml`.")
    verdicts = [verdict for word in words for verdict in check_file(Path(word))]
    for line in (*(verdict.line() for verdict in verdicts), *closing_count(verdicts)):
        say(line)
    if not all(verdict.agrees for verdict in verdicts):
        sys.exit(FAULTS)
