"""The gathered register: every formula is complete, findable and can be set out."""

from inspect import getdoc

import pytest

from tally.errors import DomainError, InputError
from tally.formulas import all_formulas, find, table
from tally.units import FIELD, known_units, read

ALL = list(all_formulas().values())


@pytest.mark.parametrize("entry", ALL, ids=lambda entry: entry.name)
def test_every_formula_is_complete(entry):
    for term in (*entry.inputs, *entry.outputs):
        assert term.unit in known_units(term.quantity), term
        assert term.meaning, term
        assert FIELD.unit(term.quantity) in known_units(term.quantity)
        if term.default is not None:
            read(term.default, term.quantity)
    assert entry.purpose, entry.name
    assert entry.source, entry.name
    assert entry.range, entry.name
    for heading in ("Parameters", "Returns", "Raises", "Examples"):
        assert heading in (getdoc(entry.function) or ""), f"{entry.name} lacks {heading}"


@pytest.mark.parametrize("entry", ALL, ids=lambda entry: entry.name)
@pytest.mark.parametrize("wild", [float("nan"), float("inf"), -1e9, 1e9])
def test_no_formula_answers_a_wild_number(entry, wild):
    for spoilt in entry.inputs:
        given = {term.name: wild if term is spoilt else _likely(term) for term in entry.inputs}
        with pytest.raises(DomainError):
            entry.evaluate(given)


def _likely(term):
    inner = {"id": 0.2, "rod": 0.05, "wall": 0.01, "weight": 60.0, "hole": 0.4, "cylinders": 3.0}
    by_quantity = {
        "diameter": 0.25, "length": 100.0, "volume": 1.0, "density": 1200.0, "ratio": 0.9,
        "volume per length": 0.04, "volume per stroke": 0.016, "flow rate": 0.01,
        "stroke rate": 1.0, "count": 3.0,
    }  # fmt: skip
    if term.name == "steel":
        return 7850.0
    return inner.get(term.name, by_quantity.get(term.quantity, 1.0))


@pytest.mark.parametrize(
    "typed", ["annulus-volume", "Annulus Volume", "annulus_volume", " ANNULUS  volume"]
)
def test_find_forgives_capitals_and_spaces(typed):
    assert find(typed).name == "annulus-volume"


def test_find_names_what_is_near():
    with pytest.raises(InputError, match=r'no formula "anulus"; near it: annulus'):
        find("anulus")
    with pytest.raises(InputError, match=r"near it: .*buoyancy-factor"):
        find("buoyancy")


def test_find_quotes_nothing_that_steers_the_terminal():
    with pytest.raises(InputError) as caught:
        find("an\x1b[31mnulus" + "x" * 10_000)
    assert "\x1b" not in str(caught.value)
    assert len(str(caught.value)) < 300


def test_a_table_has_every_part_and_every_term():
    entry = find("buoyancy-factor-two-fluids")
    lines = table(entry)
    assert [line.part for line in lines] == [
        "name", "purpose", *["input"] * 5, "output", "source", "range",
    ]  # fmt: skip
    assert ("input", "od", "outside diameter of the pipe body", "in") in lines
    assert ("input", "steel", "density of the steel (65.5 lb/gal unless given)", "lb/gal") in lines
    assert lines[0].name == entry.name
    assert lines[1].meaning == entry.purpose
    assert lines[-2].meaning == entry.source
    assert lines[-1].meaning == entry.range
