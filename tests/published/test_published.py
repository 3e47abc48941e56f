"""Every published case is a test; altering its last digit must be seen."""

import tomllib
from decimal import Decimal
from pathlib import Path

import pytest

from tally.formulas import all_formulas
from tally.formulas_check import EVIDENCE, check_case, check_file

FILES = sorted(Path(__file__).parent.glob("*.toml"))
CASES = [
    pytest.param(f"{path.name}:{count}", raw, id=f"{path.stem}-{count}-{raw.get('formula')}")
    for path in FILES
    for count, raw in enumerate(tomllib.loads(path.read_text("utf-8"))["case"], start=1)
]
RAW = [case.values[1] for case in CASES]


@pytest.mark.parametrize(("place", "raw"), CASES)
def test_case_agrees(place, raw):
    verdict = check_case(place, raw)
    assert verdict.agrees, verdict.line()


@pytest.mark.parametrize("up", [1, -1])
@pytest.mark.parametrize(("place", "raw"), CASES)
def test_one_unit_in_the_last_digit_is_seen(place, raw, up):
    for name, text in raw["expect"].items():
        altered = _shifted(text, raw.get("within", {}).get(name), up)
        verdict = check_case(place, raw | {"expect": raw["expect"] | {name: altered}})
        assert not verdict.agrees, verdict.line()
        assert f"expected {altered}" in verdict.line()


def _shifted(text, within, up):
    """Return the printed value moved one unit of its last digit, or right across its width."""
    number, _, unit = text.partition(" ")
    value = Decimal(number)
    digit = Decimal(1).scaleb(value.as_tuple().exponent)
    width = Decimal(within.partition(" ")[0]) * 2 if within else 0
    return f"{value + up * (digit + width)} {unit}".strip()


@pytest.mark.parametrize(("place", "raw"), [case for case in CASES if "within" in case.values[1]])
def test_a_widened_case_needs_its_width(place, raw):
    narrow = {key: value for key, value in raw.items() if key not in ("within", "why")}
    assert not check_case(place, narrow).agrees


def test_the_checker_reads_the_files_as_they_stand():
    verdicts = [verdict for path in FILES for verdict in check_file(path)]
    assert len(verdicts) == len(CASES)
    assert all(verdict.agrees for verdict in verdicts)
    proof = [v for v in verdicts if v.kind in EVIDENCE and not v.widened]
    assert len(proof) >= 80


def test_every_formula_has_a_case():
    assert sorted(set(all_formulas()) - {raw["formula"] for raw in RAW}) == []


def test_no_case_is_there_twice():
    seen = [(raw["formula"], str(raw["inputs"]), str(raw["expect"]), raw["source"]) for raw in RAW]
    assert len(seen) == len(set(seen))
