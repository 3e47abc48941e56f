"""A small good job file and pipe list, and ways to write them out with something changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.errors import JobFileError
from tally.feeds.job_file import JobFile, read_job_file

JOB = """\
pipe_list = "pipe.csv"
running_order = "shoe 1 collar 2-4"

[well]
name = "Hollin 2"
string = "7 in production"

[hole]
diameter = "8-1/2 in"
depth = "250 ft"
casing_point = "240 ft"

[previous_casing]
name = "9-5/8 in"
shoe = "100 ft"
inner_diameter = "8.681 in"

[tally]
unit = "ft"
stick_up = "3.1"

[[pipe]]
name = "7 26"
outer_diameter = "7 in"
weight = "26 lb/ft"
range = 3

[mud]
weight = "9.8 lb/gal"

[pump]
volume_per_stroke = "0.1 bbl/stroke"
efficiency = "97 %"

[programme]
bottom_plugs = 1

[[item]]
number = "shoe"
kind = "shoe"
length = "2.10"

[[item]]
number = "collar"
kind = "collar"
length = "1' 9 in"

[[centralizer]]
what = "bow centralizer"
joints = "1-3/2"

[[fitting]]
what = "scratcher"
joints = "4"
count = 2

[[people]]
name = "Ama Osei"
role = "casing crew lead"

[[people]]
name = "N. Haddad"
role = "company representative"

[limits]
tank_total = { value = "5 bbl", owner = "N. Haddad", source = "programme" }

[[survey]]
measured_depth = "0 ft"
inclination = "0 deg"
azimuth = "0 deg"

[[survey]]
measured_depth = "250 ft"
inclination = "1.5 deg"
azimuth = "40 deg"
"""
PIPE = "number,length\n1,40.10\n2,41.25\n3,39.96\n4,42\n5,40.55\n"
HOLE = '\ncasing_point = "240 ft"'
SECTIONS = """
casing_point = "240 ft"
[[hole_section]]
top = "90 ft"
bottom = "200 ft"
diameter = "9-7/8 in"
excess = "20 %"
[[hole_section]]
top = "200 ft"
bottom = "250 ft"
diameter = "8-1/2 in"
caliper = "8.7 in"
[[other_casing]]
name = "13-3/8 in surface"
shoe = "60 ft"
inner_diameter = "12.415 in"
top = "0 ft"
[[zone]]
name = "upper sand"
top = "120 ft"
bottom = "140 ft"
weak_at = "12 lb/gal"
"""
FLUIDS = """
casing_point = "240 ft"
[[fluid]]
name = "wash"
kind = "preflush"
contact = "8 min"
rate = "4 bbl/min"
[[fluid]]
name = "lead"
kind = "slurry"
density = "12.5 lb/gal"
length = "60 ft"
cement = "class G"
[[fluid]]
name = "tail"
kind = "slurry"
density = "15.8 lb/gal"
top = "160 ft"
[[fluid]]
name = "water"
kind = "displacement"
volume = "2 bbl"
[[fluid]]
name = "brine"
kind = "displacement"
[[additive]]
fluid = "lead"
material = "bentonite"
share = "4 %"
[[viscometer]]
speed = "600 rpm"
dial = "46"
[[viscometer]]
fluid = "lead"
speed = "300 rpm"
dial = "40"
[[centralizer_kind]]
what = "bow centralizer"
kind = "bow"
outer_diameter = "9.2 in"
[[centralizer_load]]
what = "bow centralizer"
deflection = "0.2 in"
load = "300 lbf"
[[centralizer_load]]
what = "bow centralizer"
deflection = "0.4 in"
load = "700 lbf"
"""
SPACE_OUT = """
casing_point = "240 ft"
[space_out]
pocket = "10 ft"
pocket_band = "2 ft"
hang_off = "5 ft"
[[keep_clear]]
name = "slips"
above = "2 ft"
bottom = "1 ft"
[[keep_clear]]
name = "rams"
top = "24 ft"
bottom = "26.5 ft"
"""
WAITING = """
casing_point = "240 ft"
[waiting]
coldest = "84 degF"
[[strength]]
time = "6 h"
strength = "120 psi"
temperature = "90 degF"
[[strength]]
time = "12 h"
strength = "640 psi"
temperature = "90 degF"
[[waiting_rule]]
name = "county"
place = "the county"
clause = "section 12"
time = "10 h"
strength = "400 psi"
meanwhile = "drilling out"
edition = "text of 2024"
"""

Change = tuple[str, str]


def written(folder: Path, *changes: Change, pipe: str = PIPE) -> Path:
    """Write the files with pieces of the job file changed; return the job file's path."""
    text = JOB
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    (folder / "pipe.csv").write_text(pipe, encoding="utf-8")
    path = folder / "job.toml"
    path.write_text(text, encoding="utf-8")
    return path


def taken(folder: Path, *changes: Change, pipe: str = PIPE) -> JobFile:
    """Return the job as read with those changes."""
    return read_job_file(written(folder, *changes, pipe=pipe))


def faults(folder: Path, *changes: Change, pipe: str = PIPE) -> tuple[str, ...]:
    """Return what is said of the files with those changes."""
    path = written(folder, *changes, pipe=pipe)
    with pytest.raises(JobFileError) as caught:
        read_job_file(path)
    return caught.value.faults
