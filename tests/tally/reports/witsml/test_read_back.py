"""Totals, depths and what was pumped, read back with lxml, against the book in both unit sets.

Units are turned into SI here by the exact sizes that handbooks give, not by the tables under test.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from lxml import etree

from tally.job.running_records import Moved
from tally.units import read
from tests.tally.reports.witsml.documents import (
    Given,
    but,
    cemented,
    cementing,
    extras,
    found,
    number,
    older_cementing,
    roots,
    run,
)
from tests.tally.reports.witsml.order import faults

# NIST SP 811 (2008): foot and inch; a barrel is 42 gallons of 231 in3; pounds of 0.45359237 kg.
SI = {
    "ft": 0.3048,
    "m": 1.0,
    "in": 0.0254,
    "mm": 0.001,
    "bbl": 42 * 231 * 0.0254**3,
    "m3": 1.0,
    "psi": 0.45359237 * 9.80665 / 0.0254**2,
    "kPa": 1000.0,
    "lbm/gal[US]": 0.45359237 / (231 * 0.0254**3),
    "lbm/galUS": 0.45359237 / (231 * 0.0254**3),
    "kg/m3": 1.0,
    "bbl/min": 42 * 231 * 0.0254**3 / 60,
    "m3/min": 1 / 60,
    "klbf": 453.59237 * 9.80665,
    "kN": 1000.0,
}


def si(element: etree._Element) -> float:
    """Return a figure of a document in SI."""
    value, unit = number(element)
    return value * SI[unit]


def only(root: etree._Element, *names: str) -> etree._Element:
    """Return the one element at the end of a path."""
    (one,) = found(root, *names)
    return one


@pytest.mark.parametrize("unit", ["ft", "m", "mm"])
def test_lengths_add_up_to_the_string_as_printed(unit: str) -> None:
    made = run(unit=unit)
    step = made.tally.setup.step
    books = roots(made)
    for end, component, length in (
        ("tubular", "TubularComponent", "Len"),
        ("tubulars", "tubularComponent", "len"),
        ("downhole-component", "StringEquipment", "Length"),
    ):
        each = [number(one) for one in found(books[end], component, length)]
        assert {name for _, name in each} == {"m" if unit == "mm" else unit}
        steps = [round(value * SI[name] / step.si(1), 6) for value, name in each]
        assert steps == [float(row.length) for row in made.tally.rows]
        assert sum(steps) == made.tally.depths.string
    whole = number(extras(books["tubular"])["length of string"])
    assert whole[0] == pytest.approx(sum(number(one)[0] for one in found(books["tubular"], "Len")))


@pytest.mark.parametrize("units", ["field", "metric"])
def test_the_string_is_that_of_the_book(units: str) -> None:
    made = cemented(units)
    rows, step = made.tally.rows, made.tally.setup.step
    books = roots(made)
    below = found(books["downhole-component"], "StringEquipment", "MdInterval")
    depths = [(float(each[0].text), float(each[1].text), each[2].text) for each in below]
    assert depths == [
        (
            pytest.approx(step.si(row.top) / 0.3048),
            pytest.approx(step.si(row.bottom) / 0.3048),
            "ft",
        )
        for row in rows
    ]
    for end, shoe in (
        ("cement-job", ("MdStringSet", "MeasuredDepth")),
        ("cement-jobs", ("mdStringSet",)),
    ):
        assert si(only(books[end], *shoe)) == pytest.approx(step.si(made.tally.depths.shoe))
    for outside in found(books["tubular"], "TubularComponent", "Od"):
        assert si(outside) == pytest.approx(9.625 * 0.0254)
    order = [int(one.text) for one in found(books["tubular"], "Sequence")]
    assert order == list(range(1, len(rows) + 1))
    first = found(books["tubular"], "TubularComponent", "TypeTubularComponent")[0].text
    assert (rows[0].kind, first) == ("shoe", "float shoe")
    hung = made.tally.job.hung_off
    assert hung is not None
    assert si(extras(books["tubular"])["load hung off"]) == pytest.approx(hung.load.value)


@pytest.mark.parametrize("units", ["field", "metric"])
def test_pieces_are_those_that_were_installed(units: str) -> None:
    made = cemented(units)
    root = roots(made)["downhole-component"]
    counted: dict[str, int] = {}
    for piece in found(root, "Accessory"):
        what = only(piece, "Equipment", "Name").text
        counted[what] = counted.get(what, 0) + int(found(piece, "Count")[0].text)
    assert counted == {one.what: one.installed for one in made.tally.fittings if one.installed}
    marked = len(found(root, "StringEquipment", "IsCentralized"))
    assert marked == sum(
        any("centralizer" in one.what for one in row.fittings) for row in made.tally.rows
    )


def stage(made: Given) -> etree._Element:
    """Return the stage of the report."""
    return only(cementing(made), "CementReportStage")


@pytest.mark.parametrize("units", ["field", "metric"])
def test_what_was_pumped_is_what_was_read(units: str) -> None:
    """The figures are those of demo_db/larkspur/steps.csv and mixing.csv, as typed there."""
    made = cemented(units)
    report, last = stage(made), found(older_cementing(made), "cementStage")[-1]
    for newer, older, worth in (
        ("PresBump", "presBump", 1735 * SI["psi"]),
        ("PresPriorBump", "presPriorBump", 1120 * SI["psi"]),
        ("VolDisplaceFluid", "volDisplaceFluid", 598.2 * SI["bbl"]),
        ("VolCircPrior", "volCircPrior", 912 * SI["bbl"]),
        ("WtMud", "wtMud", 10.2 * SI["lbm/galUS"]),
        ("FlowrateEnd", "flowrateEnd", 2 * SI["bbl/min"]),
    ):
        assert si(only(report, newer)) == pytest.approx(worth)
        assert si(only(last, older)) == pytest.approx(worth)
    for newer, older in (("PlugBumped", "plugBumped"), ("FloatHeld", "floatHeld")):
        assert (only(report, newer).text, only(last, older).text) == ("true", "true")
    pumped = [
        (only(one, "Fluid", "Name").text, si(only(one, "VolPump"))) for one in found(report, "Step")
    ]
    wanted = [("spacer", 50.2), ("lead", 217.0), ("tail", 85.0)]
    assert pumped == [(name, pytest.approx(worth * SI["bbl"])) for name, worth in wanted]
    assert only(report, "DTimPumpStart").text == "2026-03-12T15:07:00-06:00"
    assert only(report, "DTimPumpEnd").text == "2026-03-12T16:01:00-06:00"
    assert only(report, "DTimDisplaceStart").text == "2026-03-12T16:06:00-06:00"


@pytest.mark.parametrize("units", ["field", "metric"])
def test_fluids_end_where_the_programme_has_them(units: str) -> None:
    """Tops of the programme of the demonstration: lead 3,010 ft, tail 6,900 ft, shoe 8,240 ft."""
    root = cementing(cemented(units))
    ends = {
        (only(one, "Fluid", "Name").text, only(one, "LocationType").text): one
        for one in found(root, "EndingFluidLocation")
    }
    for fluid, top, base in (("lead", 3010, 6900), ("tail", 6900, 8240)):
        place = ends[fluid, "annulus"]
        assert si(only(place, "MDFluidTop")) == pytest.approx(top * 0.3048)
        assert si(only(place, "MDFluidBase")) == pytest.approx(base * 0.3048)
    for fluid in ("spacer", "lead", "tail"):
        (planned,) = [
            only(one, "VolPump")
            for one in found(root, "CementDesignStage", "Step")
            if only(one, "Fluid", "Name").text == fluid
        ]
        placed = [si(only(one, "Volume")) for (name, _), one in ends.items() if name == fluid]
        assert sum(placed) == pytest.approx(si(planned))
    top = extras(root)["top of cement, calculated"]
    assert si(top) == pytest.approx(3010 * 0.3048)
    assert "calculated" in top.getnext().text


def test_a_sum_of_several_fluids_is_no_one_fluids_own() -> None:
    made = cemented()
    assert number(extras(stage(made))["slurry pumped, all 2 together"]) == (302.0, "bbl")
    fluids = found(cementing(made), "CementingFluid")
    assert [only(one, "VolPumped").text for one in fluids] == ["50.2", "217", "85"]


def test_a_slurry_is_that_of_its_recipe() -> None:
    """The lead of the demonstration: 8 % bentonite by weight of cement, sacks of 94 lb.

    By hand from its yield: 215.83 bbl x 5.6146 ft3/bbl / 2.0559 ft3/sk = 589.4 sacks; bentonite
    589.4 x 94 x 0.08 = 4,432 lb; water 589.4 x 11.445 gal / 42 = 160.6 bbl.
    """
    root = cementing(cemented())
    lead = found(root, "CementingFluid")[1]
    makes, unit = number(only(lead, "VolYield"))
    assert unit == "ft3/sack[94lbm]"
    assert number(only(lead, "MassSackDryBlend")) == (94.0, "lbm")
    volume, _ = number(only(lead, "VolFluid"))
    sacks = volume * 42 * 231 / 1728 / makes
    assert sacks == pytest.approx(589.4, abs=0.05)
    (additive,) = found(lead, "CementAdditive")
    assert only(additive, "NameAdd").text == "bentonite"
    assert number(only(additive, "Additive")) == (pytest.approx(sacks * 94 * 0.08), "lbm")
    water, unit = number(only(lead, "RatioMixWater"))
    assert unit == "gal[US]/sack[94lbm]"
    assert number(only(lead, "VolWater")) == (pytest.approx(sacks * water / 42), "bbl")
    older = found(older_cementing(cemented()), "cementAdditive")[0]
    assert number(only(older, "wtSack")) == (pytest.approx(94 * 0.08), "lbm")


def test_pipe_movement_and_torque_are_those_that_were_read() -> None:
    made = cemented()
    moved = Moved(
        1, read("20 ft", "length"), "Ivo", "2026-03-12T14:00:00-06:00", "",
        rotation=read("15 rpm", "rotary speed"),
        slack_off=read("205 klbf", "force"), pick_up=read("262 klbf", "force"),
    )  # fmt: skip
    first = made.tally.job.string[0]
    tight = replace(first, torque=read("8500 ft-lbf", "torque"))
    job = replace(made.tally.job, moved=moved, string=(tight, *made.tally.job.string[1:]))
    few = but(replace(made, tally=replace(made.tally, rows=made.tally.rows[:2])), job)
    root, older = cementing(but(made, job)), older_cementing(but(made, job))
    for name, figure in (
        ("OverPull", (262.0, "klbf")),
        ("SlackOff", (205.0, "klbf")),
        ("LenPipeRecipStroke", (20.0, "ft")),
        ("RpmPipe", (15.0, "rpm")),
    ):
        assert number(only(root, "JobReport", name)) == figure
        assert number(only(older, "cementJob", name[0].lower() + name[1:])) == figure
    assert only(root, "JobReport", "Reciprocating").text == "true"
    books = roots(few)
    assert number(only(books["tubular"], "TqMakeup")) == (8500.0, "lbf.ft")
    assert number(only(books["tubulars"], "tqMakeup")) == (8500.0, "ft.lbf")
    assert faults(books["tubular"]) == faults(root) == faults(older) == []
