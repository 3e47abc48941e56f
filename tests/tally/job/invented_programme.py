"""The invented job with the fluids of a whole programme, and all that its figures want."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tally.job.setup import (
    Additive,
    Fluid,
    Pumping,
    Setup,
)
from tally.units import read
from tests.tally.job.invented import limits, pipe, pumping, setup

LEAD_SLURRY = Fluid(
    name="lead",
    kind="slurry",
    density=read("13.5 lb/gal", "density"),
    length=read("100 ft", "length"),
    cement="class G",
    thickening_time=read("200 min", "time"),
)

TAIL_SLURRY = Fluid(
    name="tail",
    kind="slurry",
    density=read("15.8 lb/gal", "density"),
    top=read("350 ft", "length"),
    slurry_yield=read("1.15 ft3/sk", "slurry yield"),
    mix_water=read("4.97 gal/sk", "mix water"),
    rate=read("4 bbl/min", "flow rate"),
    thickening_time=read("180 min", "time"),
)

WASH = Fluid(
    name="wash",
    kind="preflush",
    density=read("8.4 lb/gal", "density"),
    contact=read("5 min", "time"),
    rate=read("1 bbl/min", "flow rate"),
)

WATER = Fluid(
    name="water",
    kind="displacement",
    density=read("8.33 lb/gal", "density"),
    volume=read("5 bbl", "volume"),
)

BENTONITE = Additive(fluid="lead", material="bentonite", share=read("4 %", "ratio"))

TOLERANCES = {
    "efficiency_tolerance": "1 %",
    "bore_tolerance": "0.5 %",
    "thickening_margin": "60 min",
    "burst_share": "80 %",
    "heat_pressure": "1000 psi",
    "back_flow_band": "0.1 bbl",
}


def cementing(**changed: Any) -> Pumping:
    """Return a pump and a programme with everything that its figures want."""
    told = {
        "reserve": read("10 %", "ratio"),
        "dead_volume": read("2 bbl", "volume"),
        "wash_up_volume": read("5 bbl", "volume"),
        "plug_time": read("10 min", "time"),
        "compressibility": read("0.3 %/1000psi", "compressibility"),
        "head_rating": read("5000 psi", "pressure"),
        "plug_rating": read("3000 psi", "pressure"),
        "collar_rating": read("5000 psi", "pressure"),
        "relief": read("4000 psi", "pressure"),
        "bottom_plugs": 2,
    }
    return pumping(**(told | changed))


def cemented(**changed: Any) -> Setup:
    """Return the set-up with the fluids of a whole programme."""
    told = {
        "fluids": (WASH, LEAD_SLURRY, TAIL_SLURRY, WATER),
        "additives": (BENTONITE,),
        "pumping": cementing(),
        "limits": limits(**TOLERANCES),
        "pipes": (replace(pipe(), grade="L-80"),),
    }
    return setup(**(told | changed))
