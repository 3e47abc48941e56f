"""The command line that reckons: figures of a job, calculations, published cases."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tally.job.figures import catalogue
from tests.drive.terminal import Terminal
from tests.screens.by_command import ROOT, program, run

# Figures


def test_figures_as_json_have_unit_inputs_and_origin(third: Path) -> None:
    done = run("figures", third, "--json")
    assert done.exit_code == 0
    told = json.loads(done.stdout)
    figures = {one["key"]: one for one in told["figures"]}
    assert set(figures) == set(catalogue())
    shoe = figures["shoe_depth"]
    assert (shoe["value"], shoe["unit"], shoe["text"]) == (3533.45, "ft", "3,533.45 ft")
    inputs = {one["name"]: one for one in shoe["inputs"]}
    assert inputs["String length"]["value"] - inputs["stick-up"]["value"] == pytest.approx(3533.45)
    assert inputs["stick-up"]["origin"] == "typed"
    for one in figures.values():
        assert one["missing"] or (one["value"] is not None and one["inputs"]), one["key"]
        assert {part["origin"] for part in one["inputs"]} <= {"typed", "read", "calculated"}
    assert (told["on_depth"], told["well"]) == (False, "Larkspur 14")


def test_figures_as_text_are_plain_lines(third: Path) -> None:
    done = run("figures", third)
    assert done.exit_code == 0
    assert re.search(
        r"^Shoe depth +3,533\.45 ft +string length - stick-up +\[shoe_depth\]$",
        done.stdout,
        re.MULTILINE,
    )
    assert re.search(r"^    stick-up +3\.22 ft +typed, job set-up", done.stdout, re.MULTILINE)
    assert {line for line in done.stdout if line < " "} == {"\n"}
    assert done.stdout.isascii()


def test_figures_on_a_terminal_are_a_table(third: Path, start: Callable[..., Terminal]) -> None:
    command = [sys.executable, "-m", "screens.cli", "figures", third]
    terminal = start(*command, size=(120, 2000), cwd=ROOT)
    terminal.wait_for("slurry_volume")
    assert re.search(r"Shoe depth +\| +3,533\.45 ft \| string length - stick-up", terminal.text())


# Calculations


def test_calc_lists_every_formula() -> None:
    from tally.formulas import all_formulas

    names = [line.split()[0] for line in run("calc").stdout.splitlines()]
    assert names == list(all_formulas())


def test_calc_sets_a_formula_out() -> None:
    text = run("calc", "annulus").stdout
    for part in ("purpose", "input    hole", "input    od", "output   capacity", "source", "range"):
        assert part in text


def test_calc_works_a_formula_out_and_says_what_it_read() -> None:
    done = run("calc", "annulus", "hole=12-1/4 in", "od=5")
    assert done.stdout.splitlines() == [
        "hole = 12 1/4 in",
        "od = 5 in",
        "annulus: capacity = 0.12149 bbl/ft",
    ]


def test_calc_in_metric_units_reads_bare_numbers_so() -> None:
    done = run("calc", "annulus", "hole=311.15", "od=5 in", "--units", "metric")
    assert done.stdout.splitlines() == [
        "hole = 311.15 mm",
        "od = 5 in",
        "annulus: capacity = 63.37 l/m",
    ]


def test_calc_as_json() -> None:
    told = json.loads(run("calc", "annulus", "hole=12-1/4", "od=5", "--json").stdout)
    assert told["inputs"] == {"hole": "12 1/4 in", "od": "5 in"}
    assert told["outputs"]["capacity"]["unit"] == "bbl/ft"
    assert told["outputs"]["capacity"]["value"] == pytest.approx(0.12149, abs=5e-6)
    assert {"source", "range"} <= set(told)
    assert json.loads(run("calc", "annulus", "--json").stdout)["formula"] == "annulus"


CASE = """
[[case]]
formula = "annulus"
inputs = { hole = "12-1/4 in", od = "5 in" }
expect = { capacity = "%s bbl/ft" }
kind = "published"
source = "a table somebody can open, page 3"
"""


def test_check_counts_by_kind_and_leaves_with_1_if_any_differs(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text(CASE % "0.12149")
    bad.write_text(CASE % "0.12150")
    done = program("calc", "--check", good)
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1] == "evidence of agreement: 1 case; 0 differ"
    done = program("calc", "--check", good, bad)
    assert done.returncode == 1
    assert [line.split()[0] for line in done.stdout.splitlines()[:2]] == ["agrees", "DIFFERS"]
    assert "1 differ" in done.stdout.splitlines()[-1]
