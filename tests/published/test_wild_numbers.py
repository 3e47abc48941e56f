"""A wild number in any input of a published case is refused, whatever the others are."""

import tomllib
from pathlib import Path

import pytest

from tally.errors import DomainError
from tally.formulas import find
from tally.units import read

FIRST = {
    raw["formula"]: raw["inputs"]
    for path in sorted(Path(__file__).parent.glob("*.toml"))
    for raw in reversed(tomllib.loads(path.read_text("utf-8"))["case"])
}


@pytest.mark.parametrize("wild", [float("nan"), float("inf"), -1e12, 1e14])
@pytest.mark.parametrize("name", sorted(FIRST))
def test_no_formula_answers_a_wild_number(name, wild):
    entry = find(name)
    good = {key: _read(entry, key, text) for key, text in FIRST[name].items()}
    entry.evaluate(good)
    for term in entry.inputs:
        with pytest.raises(DomainError):
            entry.evaluate(good | {term.name: wild})


def _read(entry, key, text):
    term = entry.input_term(key)
    return read(text, term.quantity, term.unit).value
