"""How figures are shown."""

from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.units import FIELD, METRIC, QUANTITIES, UnitSet, read, unit_set

FOOT = 0.3048


@pytest.mark.parametrize(
    ("typed", "quantity", "field", "metric"),
    [
        ("8240 ft", "length", "8,240.00 ft", "2,511.55 m"),
        ("9-5/8 in", "diameter", "9.625 in", "244.48 mm"),
        ("84.2 bbl", "volume", "84.2 bbl", "13.39 m3"),
        ("0.0732 bbl/ft", "volume per length", "0.07320 bbl/ft", "38.18 l/m"),
        ("0.1005 bbl/stroke", "volume per stroke", "0.1005 bbl/stroke", "15.98 l/stroke"),
        ("10.2 lb/gal", "density", "10.2 lb/gal", "1,222 kg/m3"),
        ("47 lb/ft", "mass per length", "47.00 lb/ft", "69.94 kg/m"),
        ("245 klb", "force", "245 klbf", "1,090 kN"),
        ("1240 psi", "pressure", "1,240 psi", "8,549 kPa"),
        ("0.53 psi/ft", "pressure gradient", "0.530 psi/ft", "11.99 kPa/m"),
        ("6.5 bbl/min", "flow rate", "6.5 bbl/min", "1.03 m3/min"),
        ("154 min", "time", "154 min", "154 min"),
        ("30.25 deg", "angle", "30.25 deg", "30.25 deg"),
        ("1.5 deg/100ft", "angle per length", "1.50 deg/100ft", "1.48 deg/30m"),
        ("120 degF", "temperature", "120 degF", "48.9 degC"),
        ("8500 ft-lbf", "torque", "8,500 ft-lbf", "11,524 N m"),
        ("384", "strokes", "384 strokes", "384 strokes"),
        ("0.96", "ratio", "96.0 %", "96.0 %"),
        ("203", "count", "203", "203"),
        ("1.18 ft3/sk", "slurry yield", "1.18 ft3/sk", "0.784 m3/t"),
        ("5.2 gal/sk", "mix water", "5.20 gal/sk", "0.462 m3/t"),
        ("3.7 bbl", "volume difference", "+3.7 bbl", "+0.59 m3"),
        ("-0.2 bbl", "volume difference", "-0.2 bbl", "-0.03 m3"),
        ("18 degF", "temperature difference", "+18 degF", "+10.0 degC"),
    ],
)
def test_shows(typed: str, quantity: str, field: str, metric: str) -> None:
    value = read(typed, quantity).value
    assert (FIELD.show(value, quantity), METRIC.show(value, quantity)) == (field, metric)


def test_the_number_alone_has_no_unit() -> None:
    assert FIELD.number(8240 * FOOT, "length") == "8,240.00"
    assert FIELD.unit("length") == "ft"
    assert FIELD.unit("length difference") == "ft"


@pytest.mark.parametrize("value", [0.0, -0.0, 1e-9, -1e-9])
def test_nothing_is_shown_without_a_sign(value: float) -> None:
    assert FIELD.show(value, "volume") == "0.0 bbl"
    assert FIELD.show(value, "volume difference") == "0.0 bbl"
    assert FIELD.show(value, "count") == "0"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_no_number_is_shown_as_no_figure(value: float) -> None:
    assert FIELD.show(value, "volume") == "-- bbl"


def test_one_quantity_is_switched_on_its_own() -> None:
    mixed = FIELD.with_units({"pressure": "BAR", "density": "sg"})
    value = read("100 bar", "pressure").value
    assert mixed.show(value, "pressure") == "100.0 bar"
    assert mixed.show(-value, "pressure difference") == "-100.0 bar"
    assert mixed.unit("density") == "sg"
    assert mixed.unit("length") == FIELD.unit("length")
    assert FIELD.show(value, "pressure") == "1,450 psi"


def test_sets_are_found_by_name() -> None:
    assert unit_set("field") is FIELD
    assert unit_set("metric") is METRIC
    assert hash(FIELD.with_units({})) == hash(FIELD)
    assert FIELD.with_units({}) == FIELD != FIELD.with_units({"pressure": "bar"})


@pytest.mark.parametrize(
    ("act", "said"),
    [
        (lambda: unit_set("x\x1b"), '"x<U+001B>" is no unit set: use field or metric.'),
        (lambda: FIELD.with_units({"pressure": "bbl"}), '"bbl" is no unit of pressure: use psi, '),
        (lambda: FIELD.with_units({"colour": "red"}), 'There is no quantity named "colour".'),
        (lambda: FIELD.show(1, "colour"), 'There is no quantity named "colour".'),
    ],
)  # fmt: skip
def test_refuses_what_it_does_not_know(act: Callable[[], object], said: str) -> None:
    with pytest.raises(InputError) as refused:
        act()
    assert str(refused.value).startswith(said)


@pytest.mark.parametrize("units", [FIELD, METRIC], ids=lambda units: units.name)
def test_every_quantity_has_a_unit_of_its_own_in_every_set(units: UnitSet) -> None:
    for kind in QUANTITIES.values():
        if kind.units:
            assert units.unit(kind.name) in kind.units


@given(st.integers(-(10**9), 10**9))
def test_shown_decimals_are_those_of_the_number(hundredths: int) -> None:
    shown = FIELD.number(hundredths / 100 * FOOT, "length")
    assert Decimal(shown.replace(",", "")) == Decimal(hundredths) / 100
