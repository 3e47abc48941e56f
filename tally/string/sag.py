"""How far pipe bends between two centralizers: a built-in beam under load and tension."""

from __future__ import annotations

from math import inf, pi, sqrt, tan, tanh

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    open_end_displacement,
)
from tally.string.stretch import YOUNG

SPACING = Term("spacing", "length between two centralizers", "length", "ft")
SIDE = Term("side", "load across the pipe by length", "force per length", "lbf/ft")
TENSION = Term(
    "tension", "tension with the pressure of the fluids taken off, below zero for compression",
    "force difference", "klbf", "0 klbf",
)  # fmt: skip
SPACING_RANGE = "spacing 0 to 300 m"
SIDE_RANGE = "load across the pipe 0 to 50 kN/m"
TENSION_RANGE = "tension -20 to 20 MN"
BEAM_MODEL = (
    "by the recommended-practice beam model, from memory; agrees with finite differences; the "
    "form without tension in Devereux, Practical Well Planning and Drilling Manual, p. 92"
)

_NEAR_NOTHING = 1e-3
"""Below it the series loses less than the closed form, in u squared."""


def bending_stiffness(outer_diameter: float, inner_diameter: float) -> float:
    """Return Young's modulus times the second moment of area of a pipe body, [N m^2].

    >>> round(bending_stiffness(0.2445, 0.2205))
    12283033
    """
    return YOUNG * pi / 64 * (outer_diameter**4 - inner_diameter**4)


def sag(side: float, spacing: float, tension: float, stiffness: float) -> float:
    """Return how far a span bends in its middle, [m]; without end where it buckles.

    Load across by length [N/m], spacing [m], tension [N], stiffness [N m^2].
    """
    plain = side * spacing**4 / (384 * stiffness)
    square = abs(tension) * spacing**2 / (4 * stiffness)
    if square < _NEAR_NOTHING:
        return plain * (1 - square / 10 if tension > 0 else 1 + square / 10)
    u = sqrt(square)
    if tension > 0:
        return plain * 24 / square**2 * (square / 2 - u * tanh(u / 2))
    return inf if u >= pi else plain * 24 / square**2 * (u * tan(u / 2) - square / 2)


@formula(
    "span-sag",
    "How far pipe bends between two centralizers, under its weight and a tension",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER, SPACING, SIDE, TENSION],
    outputs=[Term("sag", "bend in the middle of the span", "diameter", "in")],
    source=BEAM_MODEL,
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside; {SPACING_RANGE}; {SIDE_RANGE}; "
    f"{TENSION_RANGE}, compression less than buckles the span",
)
def span_sag(
    outer_diameter: float, inner_diameter: float, spacing: float, side: float, tension: float = 0.0
) -> float:
    """Return how far pipe bends between two centralizers.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe, [m]
    inner_diameter : float
        Inside diameter of the pipe, [m]
    spacing : float
        Length between the two centralizers, [m]
    side : float
        Load across the pipe by length: weight in the fluids times the sine of the inclination in
        straight hole, [N/m]
    tension : float
        Effective tension, the pressure of the fluids taken off; compression below zero, [N]

    Returns
    -------
    sag : float
        Bend in the middle of the span, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the compression buckles the span.

    Notes
    -----
    A beam built in at both ends, as the recommended-practice model has it:
    side * L**4 / (384 * E * J) * k with u = sqrt(abs(T) * L**2 / (4 * E * J)) and
    k = 24/u**4 * (u**2/2 - u*tanh(u/2)) in tension, 24/u**4 * (u*tan(u/2) - u**2/2) in
    compression, which buckles the span at u = pi. E is 30,000,000 psi. That the pipe has no
    slope at each centralizer is the model's, not the hole's.

    Examples
    --------
    >>> round(span_sag(0.2445, 0.2205, 12.0, 400.0), 5)
    0.00176
    >>> round(span_sag(0.2445, 0.2205, 12.0, 400.0, 500e3), 5)
    0.00153

    References
    ----------
    .. [1] S. Devereux, Practical Well Planning and Drilling Manual, p. 92 (without tension).
    """
    open_end_displacement(outer_diameter, inner_diameter)
    require_spacing(spacing)
    require_side(side)
    require_tension(tension)
    bent = sag(side, spacing, tension, bending_stiffness(outer_diameter, inner_diameter))
    if bent == inf:
        raise DomainError(
            f"A compression of {-tension:,.6g} N buckles a span of {spacing:.6g} m; set the "
            "centralizers closer or check the tension."
        )
    return bent


def require_spacing(spacing: float) -> None:
    """Refuse what is no spacing of centralizers, [m]."""
    require_range("Spacing of centralizers", spacing, 0.0, 300.0, "m")


def require_side(side: float) -> None:
    """Refuse what is no load across pipe by length, [N/m]."""
    require_range("Load across the pipe by length", side, 0.0, 50e3, "N/m")


def require_tension(tension: float) -> None:
    """Refuse what is no tension of a string, [N]."""
    require_range("Tension", tension, -20e6, 20e6, "N")
