"""Plugs on their way down, and what the floats let back when the pressure is bled off."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    open_end_displacement,
)
from tally.pipe.interval import PipeInterval
from tally.string.stretch import MODULUS, MODULUS_RANGE, YOUNG

COMPRESSION = "compression only"
HOLDING = "floats hold"
U_TUBE = "u-tube"
UNSETTLED = "not settled"
POISSON = 0.3
"""Of steel."""


def plug_depth(pipe: Iterable[PipeInterval], head: float, behind: float) -> float | None:
    """Return the measured depth of a plug with a volume pumped behind it, [m].

    Parameters
    ----------
    pipe : iterable of PipeInterval
        From the top down to where the plug lands
    head : float
        Volume from the plug's place to the top of the pipe, [m^3]
    behind : float
        Volume pumped since it was released, [m^3]

    Returns
    -------
    depth : float or None
        None while it is in the head; where it lands once the volume is more than there is room for

    Notes
    -----
    It goes with the fluid: while heavy fluids fall free it is deeper than this.

    Examples
    --------
    >>> pipe = [
    ...     PipeInterval(0.0, 500.0, 0.25, 0.22, 90.0), PipeInterval(500.0, 900.0, 0.25, 0.2, 90.0)
    ... ]
    >>> [plug_depth(pipe, 0.1, volume) for volume in (0.05, 0.1, 99.0)]
    [None, 0.0, 900.0]
    >>> round(plug_depth(pipe, 0.1, 22.0), 1)
    592.1
    """
    left, depth = behind - head, None
    if left < 0:
        return None
    for each in pipe:
        if left < each.bore * each.length:
            return each.top + left / each.bore
        left, depth = left - each.bore * each.length, each.bottom
    return depth


@formula(
    "bore-swelling",
    "Share by which the bore of a pipe grows with pressure inside",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        Term("pressure", "pressure inside over that outside", "pressure", "psi"),
        MODULUS,
    ],
    outputs=[Term("share", "share of its volume", "ratio", "%")],
    source="Lame, thick cylinder without axial load: 2 p/E x ((OD2 + ID2)/(OD2 - ID2) + 0.3)",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; pressure 0 to 200 MPa; {MODULUS_RANGE}",
)
def bore_swelling(
    outer_diameter: float, inner_diameter: float, pressure: float, modulus: float = YOUNG
) -> float:
    """Return the share of its volume by which the bore of a pipe grows with pressure inside.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the body, [m]
    inner_diameter : float
        Inside diameter of the body, [m]
    pressure : float
        Pressure inside over that outside, [Pa]
    modulus : float
        Young's modulus of the steel, [Pa]

    Returns
    -------
    share : float
        Growth of the cross-section as a share of it, [-]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The wall of a thick cylinder moves out by p r/E ((R2 + r2)/(R2 - r2) + nu) where its ends carry
    no load [1]_; twice that by r is the growth of its cross-section. Stretch of the string by the
    pressure is not in it: pipe that stands in cement does not lengthen.

    Examples
    --------
    >>> round(bore_swelling(0.2445, 0.2205, 10e6) * 100, 4)
    0.0968

    References
    ----------
    .. [1] Lame's solution, as in any book on the strength of materials (from memory).
    """
    open_end_displacement(outer_diameter, inner_diameter)
    require_range("Pressure", pressure, 0.0, 200e6, "Pa")
    require_range("Young's modulus", modulus, 10e9, 300e9, "Pa")
    out, inside = outer_diameter**2, inner_diameter**2
    return 2 * pressure / modulus * ((out + inside) / (out - inside) + POISSON)


def swelling(pipe: Iterable[PipeInterval], pressure: float, depth: float) -> float:
    """Return the volume that the pipe down to a depth gains by a pressure inside, [m^3]."""
    return sum(
        each.bore
        * max(0.0, min(each.bottom, depth) - each.top)
        * bore_swelling(each.outer_diameter, each.inner_diameter, pressure)
        for each in pipe
    )


@dataclass(frozen=True, slots=True)
class BackFlow:
    """What a flow back at the float check means, in a word and in a sentence."""

    verdict: str
    means: str
    beyond: float
    """Volume back beyond that of compression, [m^3]; below zero if less."""


def back_flow(back: float, expected: float, band: float, *, flows_on: bool | None) -> BackFlow:
    """Return what came back at the float check means.

    Parameters
    ----------
    back : float
        Volume that came back, [m^3]
    expected : float
        Volume that fluid and pipe give when the pressure is bled off, [m^3]
    band : float
        How far from it still counts as the same, [m^3]
    flows_on : bool or None
        Whether it still flows; None where nobody has said so yet

    Returns
    -------
    meaning : BackFlow
        `verdict` is one of COMPRESSION, HOLDING, U_TUBE and UNSETTLED

    Examples
    --------
    >>> back_flow(0.4, 0.38, 0.1, flows_on=False).verdict
    'compression only'
    >>> back_flow(0.9, 0.38, 0.1, flows_on=False).verdict
    'floats hold'
    >>> back_flow(0.4, 0.38, 0.1, flows_on=True).verdict
    'compression only'
    >>> back_flow(0.9, 0.38, 0.1, flows_on=True).verdict
    'u-tube'
    """
    beyond = back - expected
    if beyond <= band:
        return BackFlow(COMPRESSION, _by_compression(beyond, band, flows_on is not False), beyond)
    if flows_on is None:
        return BackFlow(
            UNSETTLED,
            "More has come back than compression gives; see whether it stops and stays stopped.",
            beyond,
        )
    if flows_on:
        return BackFlow(
            U_TUBE,
            "More has come back than compression gives, and it flows on: the heavier column "
            "outside comes back in, the floats do not hold. Shut in and hold the differential.",
            beyond,
        )
    return BackFlow(
        HOLDING,
        "More has come back than compression gives, and it has stopped: the floats hold now, but "
        "something came in before they closed, or there was air in the line.",
        beyond,
    )


def _by_compression(beyond: float, band: float, flows_on: bool) -> str:
    if flows_on:
        return "So far it is what compression gives; go on measuring until it stops."
    if beyond < -band:
        return (
            "It has stopped below what compression gives: look for pressure that is still kept on."
        )
    return "What came back is what fluid and pipe give, and it has stopped: the floats hold."


@dataclass(frozen=True, slots=True)
class Weakest:
    """The least of several ratings, [Pa]: what it is of, and what of the rest is not known."""

    name: str
    pressure: float
    unrated: tuple[str, ...]


def weakest(ratings: Sequence[tuple[str, float | None]]) -> Weakest | None:
    """Return the rating that governs and the names without one; nothing where none is rated.

    >>> weakest([("head", 34e6), ("plugs", 20e6), ("tested line", None)])
    Weakest(name='plugs', pressure=20000000.0, unrated=('tested line',))
    """
    rated = [(pressure, name) for name, pressure in ratings if pressure is not None]
    if not rated:
        return None
    pressure, name = min(rated)
    return Weakest(name, pressure, tuple(name for name, value in ratings if value is None))
