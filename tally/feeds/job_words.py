"""What is wrong with a table of a job file, in sentences that name table, key, value and want."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING, Any

from tally.feeds.job_faults import Fault, Spot
from tally.units import shown

if TYPE_CHECKING:
    from pydantic_core import ErrorDetails

TOP = {
    "pipe_list": '"pipe_list.csv"',
    "running_order": '"shoe 1 2 collar 3-205"',
    "checklists": '["mud_conditioning.toml"]',
}
"""The keys above the first table, each with an example."""

LIKE = TOP | {
    "name": '"Larkspur 14"',
    "string": '"9-5/8 in intermediate"',
    "rig": '"Rig 7"',
    "operator": '"the operator"',
    "location": '"north pad"',
    "datum": '"rotary table"',
    "datum_elevation": '"312.4 ft"',
    "diameter": '"12-1/4 in"',
    "depth": '"8260 ft"',
    "casing_point": '"8240 ft"',
    "shoe": '"3010 ft"',
    "inner_diameter": '"8.681 in"',
    "outer_diameter": '"9-5/8 in"',
    "top": '"3010 ft"',
    "bottom": '"8260 ft"',
    "excess": '"20 %"',
    "caliper": '"12.6 in"',
    "weak_at": '"14.6 lb/gal"',
    "measured_depth": '"3300 ft"',
    "inclination": '"2.5 deg"',
    "azimuth": '"118 deg"',
    "unit": '"ft"',
    "lengths": '"running"',
    "make_up_loss": '"3.875 in"',
    "stick_up": '"3.22 ft"',
    "weight": '"47 lb/ft"',
    "grade": '"L-80"',
    "connection": '"buttress"',
    "range": "3",
    "shortest": '"34 ft"',
    "longest": '"48 ft"',
    "collapse_rating": '"5300 psi"',
    "connection_strength": '"1122 klbf"',
    "torque_minimum": '"6690 ft-lbf"',
    "torque_optimum": '"8920 ft-lbf"',
    "torque_maximum": '"11150 ft-lbf"',
    "plastic_viscosity": '"18 cP"',
    "yield_point": '"12 lbf/100ft2"',
    "conditioning_rate": '"8 bbl/min"',
    "gel_strength": '"8 lbf/100ft2"',
    "volume_per_stroke": '"0.1044 bbl/stroke"',
    "efficiency": '"96 %"',
    "rate": '"5.8 bbl/min"',
    "volume": '"0.4 bbl"',
    "bottom_plugs": "1",
    "spacer_volume": '"50 bbl"',
    "slurry_volume": '"300 bbl"',
    "final_pressure": '"1060 psi"',
    "relief": '"3000 psi"',
    "rating": '"5000 psi"',
    "plug_rating": '"3000 psi"',
    "collar_rating": '"5000 psi"',
    "excess_applies_to": '"annulus"',
    "pocket_filled": "true",
    "line_volume": '"1.2 bbl"',
    "line_full_at_zero": "true",
    "wash_up_volume": '"10 bbl"',
    "dead_volume": '"8 bbl"',
    "reserve": '"5 %"',
    "batch_mixed": "true",
    "mixing_rate": '"5 bbl/min"',
    "plug_time": '"10 min"',
    "compressibility": '"0.3 %/1000psi"',
    "closed_end": "true",
    "source": '"active pit"',
    "interval": "10",
    "design_factor": '"1.125"',
    "float_rating": '"3000 psi"',
    "auto_fill": '"80 %"',
    "also": '"beads; spheres"',
    "specific_gravity": '"0.7"',
    "absolute_volume": '"0.0382 gal/lb"',
    "water": '"0.65 gal/sk"',
    "water_per": '"percent"',
    "origin": '"data sheet"',
    "note": '"light, for the lead"',
    "converts_at_rate": '"6 bbl/min"',
    "converts_at_pressure": '"400 psi"',
    "fluid": '"spacer"',
    "pore": '"9.2 lb/gal"',
    "restoring_force": '"1800 lbf"',
    "starting_force": '"1200 lbf"',
    "deflection": '"0.5 in"',
    "load": '"900 lbf"',
    "speed": '"600 rpm"',
    "dial": '"46"',
    "density": '"15.8 lb/gal"',
    "contact": '"10 min"',
    "cement": '"class G"',
    "sack": '"94 lb"',
    "slurry_yield": '"1.15 ft3/sk"',
    "mix_water": '"5.0 gal/sk"',
    "thickening_time": '"5 h"',
    "material": '"bentonite"',
    "share": '"2 %"',
    "of": '"cement"',
    "per_sack": '"0.1 gal/sk"',
    "block_weight": '"45 klbf"',
    "friction_cased": '"0.20"',
    "friction_open": '"0.30"',
    "elevator_rating": '"700 klbf"',
    "hoisting_rating": '"650 klbf"',
    "tension_share": '"80 %"',
    "number": '"collar"',
    "kind": '"collar"',
    "length": '"1.52 ft"',
    "pipe": '"9-5/8 47"',
    "description": '"float collar"',
    "what": '"bow centralizer"',
    "joints": '"1-10, 14, 18-60/4"',
    "zone": '"upper sand"',
    "every": "2",
    "supplier": '"casing crew"',
    "drift_records": "true",
    "pocket": '"20 ft"',
    "pocket_band": '"5 ft"',
    "stick_up_band": '"1 ft"',
    "hang_off": '"32 ft"',
    "marker": '"6100 ft"',
    "marker_band": '"20 ft"',
    "coupling": '"10.6 in"',
    "above": '"2 ft"',
    "time": '"8 h"',
    "strength": '"500 psi"',
    "temperature": '"110 degF"',
    "coldest": '"95 degF"',
    "place": '"the county"',
    "clause": '"section 12"',
    "strings": '"surface casing"',
    "where": '"at the shoe"',
    "need": '"all"',
    "says": '"Under pressure."',
    "meanwhile": '"drilling out"',
    "edition": '"text of 2024"',
    "position": '"mid-joint"',
    "count": "1",
    "role": '"cementer"',
    "value": '"5 bbl"',
    "owner": '"N. Haddad"',
}
"""Every key with an example of what may stand behind it."""

LIKE_IN = {
    "[mud] weight": '"10.2 lb/gal"',
    "[previous_casing] name": '"13-3/8 in surface"',
    "[previous_casing] inner_diameter": '"12.415 in"',
    "[previous_casing] top": '"2400 ft"',
    "[[other_casing]] name": '"20 in conductor"',
    "[[other_casing]] shoe": '"310 ft"',
    "[[other_casing]] inner_diameter": '"19.124 in"',
    "[[other_casing]] top": '"0 ft"',
    "[[zone]] name": '"upper sand"',
    "[[zone]] top": '"6120 ft"',
    "[[zone]] bottom": '"6180 ft"',
    "[[zone]] fluid": '"oil"',
    "[[viscometer]] fluid": '"mud"',
    "[[fluid]] name": '"tail slurry"',
    "[[fluid]] kind": '"slurry"',
    "[[fluid]] volume": '"80 bbl"',
    "[[fluid]] length": '"500 ft"',
    "[[fluid]] top": '"7200 ft"',
    "[[additive]] fluid": '"tail slurry"',
    "[[material]] name": '"light beads"',
    "[[material]] kind": '"solid"',
    "[[material]] sack": '"50 lb"',
    "[[material]] source": '"maker, sheet of 2025"',
    "[[centralizer_kind]] kind": '"bow"',
    "[[centralizer_kind]] outer_diameter": '"13.25 in"',
    "[[keep_clear]] name": '"rams"',
    "[[keep_clear]] top": '"24 ft"',
    "[[keep_clear]] bottom": '"26.5 ft"',
    "[[equipment]] name": '"crossover to drill pipe"',
    "[[strength]] fluid": '"tail slurry"',
    "[[waiting_rule]] name": '"county-surface"',
    "[[pipe]] name": '"9-5/8 47"',
    "[[people]] name": '"Ama Osei"',
    "[limits] source": '"programme"',
    "[[fitting]] what": '"scratcher"',
}
"""The examples of keys that mean something else in one table."""


def like(table: str, key: str) -> str:
    """Return a line of a table as it may be written: 'depth = "8260 ft"'."""
    return f"{key} = {_example(table, key)}"


def typed_like(table: str, key: str) -> str:
    """Return what may be typed into a field of a form, as an example.

    >>> typed_like("[hole]", "depth"), typed_like("[filling]", "closed_end")
    ('8260 ft', 'yes')
    """
    example = _example(table, key).strip('[]"')
    return {"true": "yes"}.get(example, example)


def _example(table: str, key: str) -> str:
    return LIKE_IN.get(f"{table.partition(' ')[0]} {key}", LIKE[key])


def near(word: str, known: Iterable[str], otherwise: str) -> str:
    """Return a question with the nearest known word, or what to say where none is near."""
    found = get_close_matches(word, list(known), 1)
    return f"did you mean {found[0]}?" if found else otherwise


def unknown_key(spot: Spot, known: Sequence[str]) -> Fault:
    """Return the fault of a key that a table does not have."""
    if spot.key in TOP:
        return Fault(spot, "belongs at the top of the file, above the first table.")
    keys = f"its keys are {', '.join(known)}."
    return Fault(spot, f"is not known; {near(spot.key, known, keys)}")


def missing_key(spot: Spot) -> Fault:
    """Return the fault of a key that a table must have."""
    return Fault(
        spot,
        f"is missing; write it like {like(spot.title, spot.key)}.",
        f"is missing; type it like {typed_like(spot.title, spot.key)}.",
    )


def shape_faults(spot: Spot, errors: Sequence[ErrorDetails], known: Sequence[str]) -> list[Fault]:
    """Return the faults that pydantic found; a misspelt key is not told as missing too."""
    typed = [str(each["loc"][0]) for each in errors if each["type"] == "extra_forbidden"]
    meant = {found for key in typed for found in get_close_matches(key, known, 1)}
    return [
        shape_fault(spot, each, known)
        for each in errors
        if not (each["type"] == "missing" and each["loc"][0] in meant)
    ]


def shape_fault(table: Spot, error: ErrorDetails, known: Sequence[str]) -> Fault:
    """Return the fault for one thing that pydantic found in a table."""
    spot = table.at(str(error["loc"][0]))
    if error["type"] == "missing":
        return missing_key(spot)
    if error["type"] == "extra_forbidden":
        return unknown_key(spot, known)
    if error["type"] == "told":
        return Fault(spot, error["msg"])
    return not_like(spot, error["input"])


def not_like(spot: Spot, given: Any) -> Fault:
    """Return the fault of a value of the wrong kind, with one beside it that is right."""
    key = spot.key
    wants = "true or false" if LIKE[key] == "true" else "a whole number"
    kind = "a text in quotes" if LIKE[key].startswith('"') else wants
    kind = "a list" if LIKE[key].startswith("[") else kind
    typed = "yes or no" if LIKE[key] == "true" else kind
    return Fault(
        spot,
        f"{_plainly(given)} is not {kind}; write it like {like(spot.title, key)}.",
        f"{_plainly(given)} is not {typed}; type it like {typed_like(spot.title, key)}.",
    )


def _plainly(given: Any) -> str:
    if isinstance(given, bool):
        return str(given).lower()
    if isinstance(given, dict):
        return "a table"
    return "a list" if isinstance(given, list) else shown(str(given))
