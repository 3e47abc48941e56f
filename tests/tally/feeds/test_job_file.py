"""A good job file gives the set-up that its words say, and the entries that begin a book."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import pytest

from tally.errors import InputError
from tally.feeds.job_file import job_entries
from tally.job.entries.people import ListTaken, SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.fold import fold
from tally.job.setup import (
    Equipment,
    Filling,
    Hole,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    RackRules,
    Rule,
    Setup,
    Station,
    Well,
    Zone,
)
from tally.steps.reading import SHIPPED, shipped
from tally.units import read
from tests.tally.feeds.job_files import HOLE, SECTIONS, taken, written

BY, AT = "Ama Osei", "2026-03-11T20:40:00-06:00"
SETUP = Setup(
    well=Well(name="Hollin 2", string="7 in production"),
    hole=Hole(
        diameter=read("8 1/2 in", "diameter"),
        depth=read("250 ft", "length"),
        casing_point=read("240 ft", "length"),
    ),
    previous=PreviousCasing(
        name="9-5/8 in",
        shoe=read("100 ft", "length"),
        inner_diameter=read("8.681 in", "diameter"),
    ),
    survey=(
        Station(
            measured_depth=read("0 ft", "length"),
            inclination=read("0 deg", "angle"),
            azimuth=read("0 deg", "angle"),
        ),
        Station(
            measured_depth=read("250 ft", "length"),
            inclination=read("1.5 deg", "angle"),
            azimuth=read("40 deg", "angle"),
        ),
    ),
    lengths=Lengths(unit="ft", stick_up=310, stick_up_typed="3.1"),
    pipes=(
        Pipe(
            name="7 26",
            outer_diameter=read("7 in", "diameter"),
            inner_diameter=read("6.276 in", "diameter"),
            weight=read("26 lb/ft", "mass per length"),
            shortest=read("34 ft", "length"),
            longest=read("48 ft", "length"),
        ),
    ),
    pumping=Pumping(
        mud_weight=read("9.8 lb/gal", "density"),
        volume_per_stroke=read("0.1 bbl/stroke", "volume per stroke"),
        efficiency=read("97 %", "ratio"),
        bottom_plugs=1,
    ),
    items=(
        Planned(number="shoe", kind="shoe", length=210, typed="2.10"),
        Planned(number="collar", kind="collar", length=175, typed="1' 9 in"),
    ),
    order=("shoe", "1", "collar", "2", "3", "4"),
    programme=(
        Rule(what="bow centralizer", joints=(1, 3)),
        Rule(what="scratcher", joints=(4,), count=2),
    ),
    people=(
        Person(name="Ama Osei", role="casing crew lead"),
        Person(name="N. Haddad", role="company representative"),
    ),
    limits={"tank_total": Limit(text="5 bbl", owner="N. Haddad", source="programme")},
)


def test_a_good_file_gives_the_setup_that_it_says(tmp_path: Path) -> None:
    job = taken(tmp_path)
    assert job.setup == SETUP
    assert job.pipe_list == "pipe.csv"
    assert [(one.number, one.length, one.typed) for one in job.arrivals] == [
        ("1", 4010, "40.10"),
        ("2", 4125, "41.25"),
        ("3", 3996, "39.96"),
        ("4", 4200, "42"),
        ("5", 4055, "40.55"),
    ]


def test_everything_that_may_be_left_out_can_be_said(tmp_path: Path) -> None:
    job = taken(
        tmp_path,
        ('string = "7 in production"\n', 'string = "7 in"\n' + WELL),
        ('weight = "26 lb/ft"\nrange = 3\n', PIPE_IN_FULL),
        ('efficiency = "97 %"\n', 'efficiency = "97"\n' + HEAD),
        ("bottom_plugs = 1\n", PROGRAMME),
        ('kind = "collar"\n', 'kind = "collar"\npipe = "7 26"\ndescription = "with a flap"\n'),
        ('joints = "4"\n', 'joints = "4"\nposition = "over the coupling"\n'),
    )
    setup = job.setup
    assert setup.well == Well(
        name="Hollin 2",
        string="7 in",
        rig="Rig 7",
        operator="somebody",
        location="north pad",
        datum="kelly bushing",
        datum_elevation=read("31 m", "length"),
    )
    assert setup.pipes[0].inner_diameter == read("6.3 in", "diameter")
    assert (setup.pipes[0].grade, setup.pipes[0].connection) == ("L-80", "buttress")
    assert setup.pipes[0].shortest == read("30 ft", "length")
    assert setup.pumping == Pumping(
        mud_weight=read("9.8 lb/gal", "density"),
        volume_per_stroke=read("0.1 bbl/stroke", "volume per stroke"),
        efficiency=read("97 %", "ratio"),
        rate=read("5 bbl/min", "flow rate"),
        head_volume=read("0.4 bbl", "volume"),
        slurry_volume=read("30 bbl", "volume"),
        spacer_volume=read("10 bbl", "volume"),
        final_pressure=read("600 psi", "pressure"),
        bottom_plugs=2,
    )
    assert setup.filling == Filling(closed_end=False, source="trip tank")
    assert (setup.units, setup.shown_in) == ("metric", {"flow rate": "l/min", "pressure": "psi"})
    assert setup.shown.unit("flow rate") == "l/min"
    assert setup.items[1] == Planned(
        number="collar",
        kind="collar",
        length=175,
        typed="1' 9 in",
        pipe="7 26",
        description="with a flap",
    )
    assert setup.programme[1].position == "over the coupling"


def test_sections_casings_and_zones_are_kept(tmp_path: Path) -> None:
    setup = taken(tmp_path, (HOLE, SECTIONS)).setup
    assert [(each.top.text, each.diameter.text) for each in setup.sections] == [
        ("90 ft", "9 7/8 in"),
        ("200 ft", "8 1/2 in"),
    ]
    assert setup.sections[0].excess == read("20 %", "ratio")
    assert setup.sections[1].caliper == read("8.7 in", "diameter")
    assert setup.other_casings[0].top == read("0 ft", "length")
    assert setup.zones == (
        Zone(
            name="upper sand",
            top=read("120 ft", "length"),
            bottom=read("140 ft", "length"),
            weak_at=read("12 lb/gal", "density"),
        ),
    )


def test_a_programme_by_depth_and_zone_the_equipment_and_the_rack_are_kept(tmp_path: Path) -> None:
    more = """[rack]
drift_records = true

[[equipment]]
name = "crossover to drill pipe"
supplier = "rig"

[[fitting]]
what = "scratcher"
zone = "upper sand"
every = 2

"""
    by_depth = 'joints = "1-3/2"\ntop = "200 ft"\n'
    setup = taken(
        tmp_path, (HOLE, SECTIONS), ("[mud]\n", more + "[mud]\n"), ('joints = "1-3/2"\n', by_depth)
    ).setup
    assert setup.programme[0].joints == (1, 3)
    assert setup.programme[0].top == read("200 ft", "length")
    assert (setup.programme[1].zone, setup.programme[1].every) == ("upper sand", 2)
    assert setup.rack == RackRules(drift_records=True)
    assert setup.equipment == (Equipment(name="crossover to drill pipe", supplier="rig"),)


def test_without_a_pipe_list_nothing_is_received(tmp_path: Path) -> None:
    entries = job_entries(written(tmp_path, ('pipe_list = "pipe.csv"\n', "")), BY, AT)
    assert not [each for each in entries if isinstance(each, Received)]
    assert fold(entries).received == 0


WELL = """\
rig = "Rig 7"
operator = "somebody"
location = "north pad"
datum = "kelly bushing"
datum_elevation = "31 m"
"""
PIPE_IN_FULL = """\
inner_diameter = "6.3 in"
weight = "26 lb/ft"
grade = "L-80"
connection = "buttress"
shortest = "30 ft"
longest = "46 ft"
"""
HEAD = """\
rate = "5 bbl/min"

[head]
volume = "0.4 bbl"

[units]
set = "metric"
flow_rate = "l/min"
pressure = "psi"

[filling]
closed_end = false
source = "trip tank"
"""
PROGRAMME = """\
bottom_plugs = 2
spacer_volume = "10 bbl"
slurry_volume = "30 bbl"
final_pressure = "600 psi"
"""


def test_overall_lengths_lose_the_make_up_loss_before_they_are_rounded_once(tmp_path: Path) -> None:
    overall = ('unit = "ft"\n', 'unit = "ft"\nlengths = "overall"\nmake_up_loss = "3.875 in"\n')
    job = taken(tmp_path, overall)
    inches = Fraction("40.10") * 12 - Fraction("3.875")
    assert job.arrivals[0].length == round(inches / 12 * 100) == 3978
    assert job.arrivals[0].typed == "40.10"
    assert job.setup.make_up_loss == Fraction("3.875") * Fraction("0.0254")
    assert job.setup.items[0].length == 210  # measured as assembled: nothing comes off


@pytest.mark.parametrize(("unit", "typed", "steps"), [("m", "12,22", 1222), ("mm", "12220", 12220)])
def test_a_tally_in_metres_or_millimetres(
    tmp_path: Path, unit: str, typed: str, steps: int
) -> None:
    change = ('unit = "ft"\nstick_up = "3.1"', f'unit = "{unit}"\nstick_up = "3.1 ft"')
    pipe = "Number;Length\n" + "".join(f"{number};{typed}\n" for number in range(1, 5))
    job = taken(tmp_path, change, ('length = "2.10"', 'length = "2.10 ft"'), pipe=pipe)
    assert [one.length for one in job.arrivals] == [steps] * 4
    assert job.setup.step.unit == unit


def test_the_entries_begin_a_job(tmp_path: Path) -> None:
    entries = job_entries(written(tmp_path), f" {BY} ", AT)
    kinds = [type(each) for each in entries]
    assert kinds == [SetUp, *[ListTaken] * len(SHIPPED), Received]
    assert {(each.by, each.at) for each in entries} == {(BY, AT)}
    job = fold(entries)
    assert (job.received, job.setup) == (5, SETUP)
    assert tuple(job.lists.values()) == shipped()
    assert job.order[0] == "shoe"
    received = entries[-1]
    assert isinstance(received, Received)
    assert received.items[0] == Arrival(number="1", length=4010, typed="40.10")
    assert received.source == "pipe.csv"


def test_a_name_that_cannot_be_shown_begins_no_job(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="its character 4 is"):
        job_entries(written(tmp_path), "Ama\u202e Osei", AT)


def test_own_checklists_take_the_place_of_the_shipped_ones(tmp_path: Path) -> None:
    own = (files("tally.steps") / "plug_loading.toml").read_text("utf-8")
    (tmp_path / "own.toml").write_text(own.replace("Plug loading", "Our plug loading"), "utf-8")
    job = taken(tmp_path, ('pipe_list = "', 'checklists = ["own.toml"]\npipe_list = "'))
    titles = {each.id: each.title for each in shipped()} | {"plug-loading": "Our plug loading"}
    assert [each.title for each in job.checklists] == list(titles.values())


def test_a_mark_at_the_start_of_the_file_is_left_off(tmp_path: Path) -> None:
    path = written(tmp_path)
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert len(job_entries(path, BY, AT)) == 2 + len(shipped())


def test_pydantic_is_imported_only_when_a_file_is_read() -> None:
    ask = "import sys, tally.feeds.job_file; print('pydantic' in sys.modules)"
    said = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "False"
