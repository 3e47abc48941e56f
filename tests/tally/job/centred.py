"""A deviated job with centralizers on every joint, for the tests of standoff."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tally.job.entries.running import ItemRun
from tally.job.job import Fitting
from tally.job.setup import CentralizerKind, Fluid, Limit, Rule, Setup, Station
from tally.units import read
from tests.tally.job.invented import ORDER, REP, Telling, limits, weighed

BOW_NAME = "bow centralizer"
BOW = CentralizerKind(
    what=BOW_NAME,
    kind="bow",
    outer_diameter=read("13.25 in", "diameter"),
    restoring_force=read("1600 lbf", "force"),
)
RIGID = CentralizerKind(
    what="rigid centralizer", kind="rigid", outer_diameter=read("12 in", "diameter")
)
SLURRY = Fluid(name="tail slurry", kind="slurry", density=read("15.8 lb/gal", "density"))
ON_IT = (Fitting(BOW_NAME, "mid-joint"),)


def slant(degrees: float, azimuth: float = 0.0) -> tuple[Station, ...]:
    """Return a hole that is straight and leans from the datum on."""
    return tuple(
        Station(
            measured_depth=read(depth, "length"),
            inclination=read(f"{degrees} deg", "angle"),
            azimuth=read(f"{azimuth} deg", "angle"),
        )
        for depth in ("0 ft", "1000 ft")
    )


def centred(**changed: Any) -> Setup:
    """Return a set-up at 60 degrees, a bow on each of the twelve joints, 67 % wanted."""
    told: dict[str, Any] = {
        "survey": slant(60),
        "centralizers": (BOW, RIGID),
        "fluids": (SLURRY,),
        "programme": (Rule(what=BOW_NAME, joints=tuple(range(1, 13))),),
        "limits": limits() | {"least_standoff": Limit(text="67 %", owner=REP)},
    }
    return weighed(**(told | changed))


def runs_with(
    fittings: Mapping[str, tuple[Fitting, ...]] | None = None,
    plan: Setup | None = None,
    numbers: tuple[str, ...] = ORDER,
) -> Telling:
    """Return a job with items run, bows in the middle of each joint unless said otherwise."""
    told = Telling().starts(plan or centred())
    for number in numbers:
        usual = ON_IT if number.isdigit() else ()
        on_it = usual if fittings is None else fittings.get(number, usual)
        told.says(ItemRun, number=number, fittings=on_it, despite="as told")
    return told
