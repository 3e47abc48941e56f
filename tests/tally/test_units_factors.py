"""The factors against published figures, against pint's own definitions, and by definition."""

import subprocess
import sys
from decimal import Decimal
from fractions import Fraction
from math import isclose, pi
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.units import QUANTITIES, factor, from_unit, known_units, read_exact, to_unit
from tally.units.factors import _expression, _registry

SP811 = (
    "NIST SP 811 (2008), Appendix B.8, read as restated in the SysML v2 USCustomaryUnits library"
)
ENERGISTICS = "Energistics unit of measure dictionary 1.0, exact factors"
BY_DEFINITION = "international yard and pound agreement, 1959; US gallon 231 in3; SI prefixes"
PRINTED = [
    ("ft", "0.3048", SP811),
    ("in", "0.0254", SP811),
    ("bbl", "0.1589873", SP811),
    ("gal", "0.003785412", SP811),
    ("lb/gal", "119.8264", "NIST SP 811, Appendix B.8, figure quoted in two public unit tables"),
    ("lb/ft3", "16.01846", "NIST SP 811, Appendix B.8, figure quoted in two public unit tables"),
    ("psi", "6894.757", "SPE metric conversion factors, as printed at the foot of SPE papers"),
    ("lb", "0.4535924", "SPE metric conversion factors, as printed at the foot of SPE papers"),
]
EXACT = [
    ("ft", Fraction("0.3048"), ENERGISTICS),
    ("in", Fraction("0.0254"), ENERGISTICS),
    ("bbl", Fraction("0.158987294928"), ENERGISTICS),
    ("gal", Fraction("0.003785411784"), ENERGISTICS),
    ("ft3", Fraction("0.028316846592"), ENERGISTICS),
    ("bbl/min", Fraction("0.158987294928") / 60, ENERGISTICS),
    ("psi", Fraction("4.4482216152605") / Fraction("0.00064516"), ENERGISTICS),
    ("lbf/100ft2", Fraction("4.4482216152605") / Fraction("9.290304"), ENERGISTICS),
    ("lb/gal", Fraction("0.45359237") / Fraction("0.003785411784"), ENERGISTICS),
    ("sk", Fraction("42.63768278"), ENERGISTICS),
    ("lbf", Fraction("4.4482216152605"), ENERGISTICS),
    ("ft-lbf", Fraction("1.3558179483314004"), ENERGISTICS),
    ("lb/ft", Fraction("0.45359237") / Fraction("0.3048"), ENERGISTICS),
    ("lb", Fraction("0.45359237"), BY_DEFINITION),
    ("gal", 231 * Fraction("0.0254") ** 3, BY_DEFINITION),
    ("bbl", 42 * 231 * Fraction("0.0254") ** 3, BY_DEFINITION),
    ("bbl/100ft", factor("bbl/ft") / 100, BY_DEFINITION),
    ("ft/bbl", 1 / factor("bbl/ft"), BY_DEFINITION),
    ("sg", Fraction(1000), BY_DEFINITION),
    ("tf", Fraction("9806.65"), BY_DEFINITION),
    ("%", Fraction(1, 100), BY_DEFINITION),
    ("", Fraction(1), BY_DEFINITION),
]
PINT_NAMES = {
    "bbl": "oil_bbl", "gal": "US_liquid_gallon", "l": "liter", "lb": "pound", "klb": "kilopound",
    "t": "tonne", "sk": "(94*pound)", "lbf": "force_pound", "klbf": "(1000*force_pound)",
    "kgf": "force_kilogram", "tf": "(1000*force_kilogram)", "in": "inch", "ft": "foot",
    "psi": "psi", "ksi": "ksi", "bar": "bar", "cP": "centipoise", "h": "hour", "d": "day",
    "min": "minute", "s": "second", "deg": "degree", "rad": "radian", "g": "gram", "m": "meter",
    "N": "newton", "kN": "kilonewton", "daN": "decanewton", "Pa": "pascal", "kPa": "kilopascal",
    "MPa": "megapascal", "GPa": "gigapascal", "kg": "kilogram", "cm": "centimeter",
    "mm": "millimeter", "sg": "(gram/centimeter**3)", "K": "kelvin",
}  # fmt: skip
POWERS = ("m", "ft", "in", "cm", "mm")
ALL_UNITS = sorted({unit for kind in QUANTITIES.values() for unit in kind.units})


@pytest.mark.parametrize(("unit", "printed", "source"), PRINTED)
def test_agrees_with_the_printed_figure(unit: str, printed: str, source: str) -> None:
    half_a_unit = Fraction(5, 10 ** (1 - int(Decimal(printed).as_tuple().exponent)))
    assert abs(factor(unit) - Fraction(printed)) <= half_a_unit, source


@pytest.mark.parametrize(("unit", "exact", "source"), EXACT)
def test_is_exactly_the_defined_factor(unit: str, exact: Fraction, source: str) -> None:
    assert factor(unit) == exact, source


@pytest.fixture(scope="module")
def second_opinion() -> Any:
    """Pint with its own definitions in place of ours."""
    from pint import UnitRegistry

    return UnitRegistry()


def _in_pint(unit: str) -> str:
    """Return one of our plain units or a quotient of two in pint's own names."""
    parts = []
    for part in unit.split("/"):
        size = part[: len(part) - len(part.lstrip("0123456789"))]
        name, power = part[len(size) :], ""
        if name[-1] in "23" and name[:-1] in POWERS:
            name, power = name[:-1], "**" + name[-1]
        parts.append(f"({size or 1} * {PINT_NAMES[name]}{power})")
    return " / ".join(parts)


@pytest.mark.parametrize(
    "unit",
    [
        unit
        for unit in ALL_UNITS
        if unit and not set(" %-") & set(unit) and not {"stroke", "rpm"} & {unit}
        and "stroke" not in unit and "deg" not in unit and "rev" not in unit and unit != "1/s"
    ],
)  # fmt: skip
def test_agrees_with_the_definitions_that_pint_brings(unit: str, second_opinion: Any) -> None:
    theirs = second_opinion.parse_expression(_in_pint(unit)).to_base_units().magnitude
    grams = second_opinion.parse_expression(_in_pint(unit)).to_base_units()
    assert "gram" not in str(grams.units).replace("kilogram", "")
    assert isclose(float(factor(unit)), theirs, rel_tol=1e-12)


@pytest.mark.parametrize("kind", [k for k in QUANTITIES.values() if k.units], ids=lambda k: k.name)
def test_all_units_of_a_quantity_measure_the_same_thing(kind: Any) -> None:
    registry = _registry()
    dimensions = {
        tuple(sorted(registry.parse_expression(_expression(unit)).dimensionality.items()))
        for unit in kind.units
        if unit not in {"degF", "degC"}
    }
    assert len(dimensions) == 1


@pytest.mark.parametrize(
    ("fahrenheit", "celsius", "kelvin"),
    [("32", "0", "273.15"), ("212", "100", "373.15"), ("-40", "-40", "233.15")],
)
def test_temperatures_are_exact(fahrenheit: str, celsius: str, kelvin: str) -> None:
    assert read_exact(fahrenheit, "temperature", "degF") == Fraction(kelvin)
    assert read_exact(celsius, "temperature", "degC") == Fraction(kelvin)
    assert from_unit(float(fahrenheit), "degF") == from_unit(float(celsius), "degC")
    assert to_unit(float(kelvin), "degC") == pytest.approx(float(celsius), abs=1e-12)
    assert to_unit(float(kelvin), "degF") == pytest.approx(float(fahrenheit), abs=1e-12)


def test_a_fahrenheit_reading_follows_the_published_ratio() -> None:
    """K = (2298.35 + 5 F) / 9 in the Energistics dictionary."""
    assert (
        read_exact("120.5", "temperature", "degF") == (Fraction("2298.35") + Fraction("602.5")) / 9
    )


def test_angles_are_right_to_the_last_bit() -> None:
    assert from_unit(180, "deg") == pi
    assert to_unit(pi / 2, "deg") == 90
    assert float(factor("deg/100ft")) == pytest.approx(pi / 180 / 30.48, rel=1e-15)


@given(st.floats(-1e9, 1e9), st.sampled_from(ALL_UNITS))
def test_there_and_back(number: float, unit: str) -> None:
    assert to_unit(from_unit(number, unit), unit) == pytest.approx(number, rel=1e-12, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "unit"), [("lb", "lb"), ("ppg", "lb/gal"), ("gpm", "gal/min"), ("bbls", "bbl")]
)
def test_a_unit_may_be_named_by_a_usual_spelling(name: str, unit: str) -> None:
    assert factor(name) == factor(unit)


@pytest.mark.parametrize("name", ["furlong", "9**9**9", "__import__('os')", "ft/0", "x" * 1000])
def test_no_typed_name_reaches_pint(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tally.units.factors._registry", lambda: pytest.fail("reached pint"))
    with pytest.raises(InputError, match="is no unit known here"):
        factor(name)


def test_pint_is_imported_only_when_a_rare_factor_is_wanted() -> None:
    script = (
        "import sys, tally.units as u;"
        "assert 'pint' not in sys.modules, 'on import';"
        "u.known_units('length'); u.FIELD.unit('volume'); u.clean('x');"
        "u.factor('bbl'); assert 'pint' not in sys.modules, 'without a rare factor';"
        "u.factor('kft-lbf');"
        "assert 'pint' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", script], check=True)


def test_known_units_come_with_the_usual_one_first() -> None:
    assert known_units("flow rate")[0] == "bbl/min"
    assert known_units("volume difference") == known_units("volume")
