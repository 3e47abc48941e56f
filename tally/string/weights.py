"""Hanging weight of the string with whatever fluids stand inside and outside."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tally.formula import Term, formula, require_range
from tally.hole.survey import Survey
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    closed_end_displacement,
    open_end_displacement,
)
from tally.pipe.interval import PipeInterval
from tally.pipe.weight import STANDARD_GRAVITY
from tally.string.columns import FluidColumn, vertical

WEIGHT = Term("weight", "weight in air by length, with couplings", "mass per length", "lb/ft")
OUTSIDE_DENSITY = Term("outside", "density of the fluid outside", "density", "lb/gal")
INSIDE_DENSITY = Term("inside", "density of the fluid inside", "density", "lb/gal")
TVD = Term("tvd", "true vertical depth of the shoe", "length", "ft")
LOAD = Term("load", "weight hanging, without blocks and tools", "force difference", "klbf")
WEIGHT_RANGE = "weight 5 to 1,500 kg/m"
FLUID_RANGE = "densities 0 to 3,000 kg/m3"
TVD_RANGE = "true vertical depth 0 to 15,000 m"


@dataclass(frozen=True, slots=True)
class Span:
    """A length of string between two measured depths [m] of one weight in its fluids [N/m]."""

    top: float
    bottom: float
    weight: float


@formula(
    "buoyed-weight",
    "Hanging weight of a closed string with unlike fluids inside and outside, at any fill",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        WEIGHT,
        TVD,
        OUTSIDE_DENSITY,
        INSIDE_DENSITY,
        Term("empty", "true vertical length of empty pipe at the top", "length", "ft", "0 ft"),
    ],
    outputs=[
        LOAD,
        Term("air", "weight in air", "force", "klbf"),
        Term("contents", "weight of the fluid inside", "force", "klbf"),
        Term("pushed-aside", "weight of the fluid pushed aside", "force", "klbf"),
    ],
    source="balance of weights: steel + fluid inside - fluid pushed aside; symbols as listed by "
    "drillingformulas.com (buoyancy factor with two fluid weights)",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside; {WEIGHT_RANGE}; {TVD_RANGE}; "
    f"{FLUID_RANGE}; empty not more than the depth",
)
def buoyed_weight(
    outer_diameter: float,
    inner_diameter: float,
    weight: float,
    true_vertical_depth: float,
    outside_density: float,
    inside_density: float,
    empty: float = 0.0,
) -> tuple[float, float, float, float]:
    """Return the hanging weight of a closed string of one pipe, and its three parts.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]
    weight : float
        Mass by length in air, [kg/m]
    true_vertical_depth : float
        True vertical depth of the shoe, [m]
    outside_density : float
        Density of the fluid outside, from surface down, [kg/m^3]
    inside_density : float
        Density of the fluid inside, from the level down, [kg/m^3]
    empty : float
        True vertical length of empty pipe at the top, [m]

    Returns
    -------
    load : float
        Weight hanging, below zero where the string floats, [N]
    air : float
        Weight in air, [N]
    contents : float
        Weight of the fluid inside, [N]
    pushed_aside : float
        Weight of the fluid that the closed string pushes aside, [N]

    Raises
    ------
    DomainError
        If a number is out of range, the inside is not less than the outside, or more is empty
        than there is.

    Notes
    -----
    In a deviated hole only the vertical way counts for the weight along the hole, so the true
    vertical depth goes in, not the length. No friction and no pressure at the surface.

    Examples
    --------
    >>> values = buoyed_weight(0.2445, 0.2205, 70.0, 2000.0, 1200.0, 1200.0, 300.0)
    >>> [round(value) for value in values]
    [1031825, 1372931, 763938, 1105044]

    References
    ----------
    .. [1] drillingformulas.com/tag/buoyancy-factor/ (symbols read; the balance derived).
    """
    open_end_displacement(outer_diameter, inner_diameter)
    require_range("Weight by length", weight, 5.0, 1500.0, "kg/m")
    require_range("True vertical depth", true_vertical_depth, 0.0, 15_000.0, "m")
    require_range("Density outside", outside_density, 0.0, 3000.0, "kg/m3")
    require_range("Density inside", inside_density, 0.0, 3000.0, "kg/m3")
    require_range("Empty pipe", empty, 0.0, true_vertical_depth, "m")
    closed = closed_end_displacement(outer_diameter)
    bore = closed - open_end_displacement(outer_diameter, inner_diameter)
    air = weight * true_vertical_depth * STANDARD_GRAVITY
    filled = true_vertical_depth - empty
    contents = bore * inside_density * filled * STANDARD_GRAVITY
    pushed_aside = closed * outside_density * true_vertical_depth * STANDARD_GRAVITY
    return air + contents - pushed_aside, air, contents, pushed_aside


def weighed(
    pipe: Iterable[PipeInterval], inside: FluidColumn, outside: FluidColumn
) -> tuple[Span, ...]:
    """Return the weight by length of the string in its fluids, span by span from the top down.

    Steel in air, plus the fluid inside, less the fluid that the closed pipe and its couplings
    push aside. Where pipe or fluid changes a new span begins. The pressure on the shoulders
    of a tapered string is in it: summed over the vertical way it is Archimedes' balance.
    """
    breaks = sorted([*inside.breaks(), *outside.breaks()])
    spans: list[Span] = []
    for each in pipe:
        cuts = [depth for depth in breaks if each.top < depth < each.bottom]
        for upper, lower in zip([each.top, *cuts], [*cuts, each.bottom], strict=True):
            contents = each.bore * inside.density_at(lower)
            load = each.weight + contents - each.closed * outside.density_at(lower)
            spans.append(Span(upper, lower, load * STANDARD_GRAVITY))
    return tuple(spans)


def hanging(spans: Sequence[Span], survey: Survey, below: float = -100.0) -> float:
    """Return the weight hanging below a measured depth, along the hole and without friction, [N].

    It is the pull that stretches and yields the string there together with the pressures
    (effective tension); at the surface it is the hook load without blocks.
    """
    return sum(
        span.weight * (vertical(span.bottom, survey) - vertical(max(span.top, below), survey))
        for span in spans
        if span.bottom > below
    )
