"""How far apart centralizers may stand for a standoff that is wanted."""

from __future__ import annotations

from tally.errors import DomainError
from tally.fluids.flow import HOLE
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    OUTER_DIAMETER,
    open_end_displacement,
    require_gap,
)
from tally.string.centralizer import (
    BOW,
    FORCE_RANGE,
    RESTORING,
    RIGID,
    SIZES_RANGE,
    STRAIGHT_LINE,
    TEST_HOLE,
    Centralizer,
    Rigid,
    require_fit,
    straight_bow,
)
from tally.string.sag import (
    BEAM_MODEL,
    SIDE,
    SIDE_RANGE,
    SPACING,
    TENSION,
    TENSION_RANGE,
    bending_stiffness,
    require_side,
    require_tension,
    sag,
)

LEAST, MOST = 0.3, 150.0
"""[m]; between these the spacing is searched."""

_FINENESS = 1e-4

TARGET = Term("target", "standoff wanted in the middle of the span", "ratio", "%", "67 %")
TARGET_RANGE = "standoff wanted 1 to 99 %; spacing 0.3 m to 150 m, where the search ends"


def standoff_at(
    centralizer: Centralizer,
    spacing: float,
    side: float,
    tension: float,
    clearance: float,
    outer_diameter: float,
    stiffness: float,
) -> float:
    """Return the standoff in the middle between two like centralizers, [-]; below 0 on the wall.

    Spacing [m], load across by length [N/m], tension [N], clearance and outside diameter [m],
    bending stiffness [N m^2].
    """
    gap = centralizer.gap(side * spacing, clearance, outer_diameter)
    return (gap - sag(side, spacing, tension, stiffness)) / clearance


def longest_spacing(
    centralizer: Centralizer,
    target: float,
    side: float,
    tension: float,
    clearance: float,
    outer_diameter: float,
    stiffness: float,
) -> float:
    """Return the longest spacing that keeps a standoff between two like centralizers, [m].

    It ends at 150 m. Arguments as those of `standoff_at`. Raises DomainError where not even
    centralizers 0.3 m apart keep it.
    """

    def kept(spacing: float) -> bool:
        return target <= standoff_at(
            centralizer, spacing, side, tension, clearance, outer_diameter, stiffness
        )

    if not kept(LEAST):
        raise DomainError(
            f"A standoff of {target:.0%} is not kept by these centralizers at any spacing from "
            f"{LEAST:g} m; take larger or stiffer ones, or a lower standoff."
        )
    if kept(MOST):
        return MOST
    short, far = LEAST, MOST
    while far - short > _FINENESS:
        middle = (short + far) / 2
        short, far = (middle, far) if kept(middle) else (short, middle)
    return short


@formula(
    "bow-spacing",
    "Longest spacing of bow centralizers for a standoff, by their restoring force",
    inputs=[SIDE, HOLE, OUTER_DIAMETER, INNER_DIAMETER, BOW, RESTORING, TEST_HOLE, TENSION, TARGET],
    outputs=[SPACING],
    source=f"{BEAM_MODEL}; {STRAIGHT_LINE}",
    range=f"{SIDE_RANGE}; {SIZES_RANGE}; {INNER_RANGE}; inside less than outside; {FORCE_RANGE}; "
    f"{TENSION_RANGE}; {TARGET_RANGE}",
)
def bow_spacing(
    side: float,
    hole_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
    bow_diameter: float,
    restoring_force: float,
    test_hole: float,
    tension: float = 0.0,
    target: float = 0.67,
) -> float:
    """Return the longest spacing of bow centralizers for a standoff in the middle of the span.

    Parameters
    ----------
    side : float
        Load across the pipe by length, [N/m]
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter, inner_diameter : float
        Outside and inside diameter of the pipe, [m]
    bow_diameter : float
        Outside diameter of the bow, free, [m]
    restoring_force : float
        Force that leaves a standoff of 67 % in the hole of the test, [N]
    test_hole : float
        Diameter of the hole of the test, [m]
    tension : float
        Effective tension; compression below zero, [N]
    target : float
        Standoff wanted, [-]

    Returns
    -------
    spacing : float
        Longest length between two centralizers, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or no spacing keeps that standoff.

    Notes
    -----
    Each centralizer carries the load of one spacing, half from either side; the gap in the middle
    is that at the centralizers less the sag. Both get worse with the spacing, so it is found by
    halving. Round it down to whole or half joints.

    Examples
    --------
    >>> round(bow_spacing(300.0, 0.3112, 0.2445, 0.2205, 0.34, 7117.0, 0.3112), 2)
    15.6

    References
    ----------
    .. [1] S. Devereux, Practical Well Planning and Drilling Manual, pp. 92-93.
    """
    clearance = _clearance(side, hole_diameter, outer_diameter, inner_diameter, tension, target)
    require_fit(bow_diameter, outer_diameter)
    test_clearance = require_gap(test_hole, outer_diameter) / 2
    bow = straight_bow(bow_diameter, restoring_force, test_clearance)
    stiffness = bending_stiffness(outer_diameter, inner_diameter)
    return longest_spacing(bow, target, side, tension, clearance, outer_diameter, stiffness)


@formula(
    "rigid-spacing",
    "Longest spacing of rigid centralizers for a standoff",
    inputs=[SIDE, HOLE, OUTER_DIAMETER, INNER_DIAMETER, RIGID, TENSION, TARGET],
    outputs=[SPACING],
    source=f"{BEAM_MODEL}; no deflection of the centralizer is assumed",
    range=f"{SIDE_RANGE}; {SIZES_RANGE}; {INNER_RANGE}; inside less than outside; "
    f"{TENSION_RANGE}; {TARGET_RANGE}",
)
def rigid_spacing(
    side: float,
    hole_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
    rigid_diameter: float,
    tension: float = 0.0,
    target: float = 0.67,
) -> float:
    """Return the longest spacing of rigid centralizers for a standoff in the middle of the span.

    Parameters
    ----------
    side : float
        Load across the pipe by length, [N/m]
    hole_diameter : float
        Diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter, inner_diameter : float
        Outside and inside diameter of the pipe, [m]
    rigid_diameter : float
        Outside diameter of the centralizer, [m]
    tension : float
        Effective tension; compression below zero, [N]
    target : float
        Standoff wanted, [-]

    Returns
    -------
    spacing : float
        Longest length between two centralizers, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or no spacing keeps that standoff.

    Examples
    --------
    >>> round(rigid_spacing(300.0, 0.3112, 0.2445, 0.2205, 0.3048), 2)
    18.72

    References
    ----------
    .. [1] S. Devereux, Practical Well Planning and Drilling Manual, pp. 92-93.
    """
    clearance = _clearance(side, hole_diameter, outer_diameter, inner_diameter, tension, target)
    require_fit(rigid_diameter, outer_diameter)
    stiffness = bending_stiffness(outer_diameter, inner_diameter)
    return longest_spacing(
        Rigid(rigid_diameter), target, side, tension, clearance, outer_diameter, stiffness
    )


def _clearance(
    side: float,
    hole_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
    tension: float,
    target: float,
) -> float:
    """Return the gap of centred pipe, [m], or refuse what is out of range."""
    clearance = require_gap(hole_diameter, outer_diameter) / 2
    open_end_displacement(outer_diameter, inner_diameter)
    require_side(side)
    require_tension(tension)
    require_range("Standoff wanted", target, 0.01, 0.99, "")
    return clearance
