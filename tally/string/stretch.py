"""How much longer the string gets: under a pull, and under its own weight in its fluids."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from tally.formula import Term, formula, require_range
from tally.hole.survey import Survey
from tally.pipe.capacity import LENGTH, LENGTH_RANGE
from tally.pipe.interval import PipeInterval
from tally.pipe.ratings import PSI
from tally.pipe.weight import STANDARD_GRAVITY, STEEL, STEEL_DENSITY, STEEL_RANGE
from tally.string.columns import FluidColumn
from tally.string.weights import hanging, weighed

YOUNG = 30e6 * PSI
"""[Pa], 30,000,000 psi, the value of the tables of stretch."""

POISSON = 0.28
"""[-], the value contained in the printed formula of stretch under own weight."""

MODULUS = Term("modulus", "Young's modulus of the steel", "pressure", "psi", "30000000 psi")
STRETCH = Term("stretch", "how much longer the pipe gets", "length difference", "ft")
MODULUS_RANGE = "modulus 10 to 300 GPa"
_STEP = 30.0


@formula(
    "stretch-by-pull",
    "How much longer free pipe gets under a pull",
    inputs=[
        LENGTH,
        Term("pull", "pull beyond the weight that hangs already", "force", "klbf"),
        Term("area", "cross-section of the steel", "area", "in2"),
        MODULUS,
    ],
    outputs=[STRETCH],
    source="length x pull / (modulus x area); IODP Proceedings 336, Table T5; API RP 7G, 16th "
    "ed., 1998 (as L x T / (735,000 x W))",
    range=f"{LENGTH_RANGE}; pull 0 to 50 MN; area 0.0003 to 0.5 m2; {MODULUS_RANGE}",
)
def stretch_by_pull(length: float, pull: float, area: float, modulus: float = YOUNG) -> float:
    """Return how much longer free pipe gets under a pull.

    Parameters
    ----------
    length : float
        Length of free pipe, [m]
    pull : float
        Pull beyond the weight that hangs already, blocks not counted, [N]
    area : float
        Cross-section of the steel, [m^2]
    modulus : float
        Young's modulus of the steel, [Pa]

    Returns
    -------
    stretch : float
        How much longer the pipe gets, [m]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    L * F / (E * A). The form with 735,000 lb/ft holds 30,000,000 psi and steel of 3.4 lb/ft for
    each square inch. Take the weight of the blocks off the indicator first; friction makes the
    real stretch less.

    Examples
    --------
    >>> round(stretch_by_pull(3000.0, 500e3, 0.0088), 3)
    0.824
    """
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_range("Pull", pull, 0.0, 50e6, "N")
    require_range("Area", area, 0.000_3, 0.5, "m2")
    _require_modulus(modulus)
    return length * pull / (modulus * area)


@formula(
    "stretch-own-weight",
    "How much longer vertical pipe gets under its own weight, full of the mud it hangs in",
    inputs=[
        LENGTH,
        Term("fluid", "density of the fluid, inside and outside", "density", "lb/gal"),
        STEEL,
        MODULUS,
        Term("poisson", "Poisson's ratio of the steel", "number", "", "0.28"),
    ],
    outputs=[STRETCH],
    source="strain integrated over the length, pressure on all faces counted; as Lapeyrouse's "
    "L squared / 96,250,000 x (65.44 - 1.44 x mud) (from memory)",
    range=f"{LENGTH_RANGE}; density 0 to 3,000 kg/m3; {STEEL_RANGE}; {MODULUS_RANGE}; Poisson's "
    "ratio 0 to 0.5",
)
def stretch_own_weight(
    length: float,
    fluid_density: float,
    steel_density: float = STEEL_DENSITY,
    modulus: float = YOUNG,
    poisson: float = POISSON,
) -> float:
    """Return how much longer vertical pipe gets under its own weight in mud.

    Parameters
    ----------
    length : float
        Length of the pipe, vertical, [m]
    fluid_density : float
        Density of the fluid inside and outside, [kg/m^3]
    steel_density : float
        Density of the steel, [kg/m^3]
    modulus : float
        Young's modulus, [Pa]
    poisson : float
        Poisson's ratio, [-]

    Returns
    -------
    stretch : float
        How much longer the pipe gets, [m]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    g * L**2 / (2*E) * (steel - fluid * (2 - 2*nu)): weight stretches, the mud's pressure on the
    end shortens and its squeeze from the sides lengthens again. The size of the pipe does not
    matter.

    Examples
    --------
    >>> round(stretch_own_weight(3000.0, 1200.0), 3)
    1.306
    """
    require_range("Length", length, 0.0, 20_000.0, "m")
    require_range("Fluid density", fluid_density, 0.0, 3000.0, "kg/m3")
    require_range("Steel density", steel_density, 7000.0, 9000.0, "kg/m3")
    _require_modulus(modulus)
    require_range("Poisson's ratio", poisson, 0.0, 0.5, "")
    apparent = steel_density - fluid_density * (2 - 2 * poisson)
    return STANDARD_GRAVITY * length * length / (2 * modulus) * apparent


def string_stretch(
    pipe: Sequence[PipeInterval],
    inside: FluidColumn,
    outside: FluidColumn,
    survey: Survey,
    pull: float = 0.0,
    modulus: float = YOUNG,
    poisson: float = POISSON,
) -> float:
    """Return how much longer the string is than on the rack, without friction, [m].

    At each depth the strain is (T + (1 - 2*nu) * (pi*Ai - po*Ao)) / (E*A), with T the weight
    hanging below (the fluids' pressure taken off) and any pull beyond it. Friction is left out,
    so in deviated hole it is the stretch of a string that was worked free.
    """
    spans = weighed(pipe, inside, outside)
    total = 0.0
    for each in pipe:
        depths = _steps(each.top, each.bottom)
        strained = [
            pull
            + hanging(spans, survey, depth)
            + (1 - 2 * poisson) * _pressed(each, depth, inside, outside, survey)
            for depth in depths
        ]
        area = each.body * modulus
        pieces = zip(strained, strained[1:], depths, depths[1:], strict=False)
        total += sum((a + b) / 2 * (lower - upper) for a, b, upper, lower in pieces) / area
    return total


def _pressed(
    pipe: PipeInterval, depth: float, inside: FluidColumn, outside: FluidColumn, survey: Survey
) -> float:
    """Return pressure inside on the bore less pressure outside on the whole body, [N]."""
    body = pipe.closed - pipe.coupling_area
    return inside.pressure(depth, survey) * pipe.bore - outside.pressure(depth, survey) * body


def _steps(top: float, bottom: float) -> list[float]:
    pieces = max(1, ceil((bottom - top) / _STEP))
    return [top + (bottom - top) * step / pieces for step in range(pieces + 1)]


def _require_modulus(modulus: float) -> None:
    require_range("Modulus", modulus, 10e9, 300e9, "Pa")
