"""Stresses in a pipe body: along the pipe, around it, and both together."""

from __future__ import annotations

from math import sqrt

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, OUTER_DIAMETER, OUTER_RANGE
from tally.pipe.ratings import HANDBOOK
from tally.pipe.weight import steel_area

STRESS = Term("stress", "stress along the pipe, tension positive", "pressure", "psi")
INSIDE = Term("inside", "pressure inside", "pressure", "psi")
OUTSIDE = Term("outside", "pressure outside", "pressure", "psi")
PIPE_RANGE = f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside"


@formula(
    "axial-stress",
    "Stress along the pipe body from a pull",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER, Term("pull", "pull on the pipe body", "force", "klbf")],
    outputs=[STRESS],
    source="pull / cross-section of the steel",
    range=f"{PIPE_RANGE}; pull 0 to 50 MN",
)
def axial_stress(outer_diameter: float, inner_diameter: float, pull: float) -> float:
    """Return the stress along the pipe body.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]
    pull : float
        Pull on the pipe body, for instance the buoyed weight below, [N]

    Returns
    -------
    stress : float
        Stress, tension positive, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the inside is not less than the outside.

    Examples
    --------
    >>> round(axial_stress(0.25, 0.22, 1.0e6) / 1e6, 1)
    90.3
    """
    require_range("Pull", pull, 0.0, 50e6, "N")
    return pull / steel_area(outer_diameter, inner_diameter)


@formula(
    "triaxial-stress",
    "Stress around the pipe and equivalent (von Mises) stress at the inside and outside wall",
    inputs=[
        OUTER_DIAMETER,
        INNER_DIAMETER,
        INSIDE,
        OUTSIDE,
        Term("axial", "stress along the pipe, tension positive", "pressure difference", "psi"),
    ],
    outputs=[
        Term("hoop-inside", "stress around the pipe at the inside wall", "pressure difference",
             "psi"),
        Term("hoop-outside", "stress around the pipe at the outside wall", "pressure difference",
             "psi"),
        Term("equivalent-inside", "equivalent stress at the inside wall", "pressure", "psi"),
        Term("equivalent-outside", "equivalent stress at the outside wall", "pressure", "psi"),
    ],
    source=f"Lame's thick cylinder and von Mises; {HANDBOOK}, Example 7.1",
    range=f"{PIPE_RANGE}; pressures 0 to 300 MPa; stress along the pipe -950 to 950 MPa",
)  # fmt: skip
def triaxial_stress(
    outer_diameter: float, inner_diameter: float, inside: float, outside: float, axial: float
) -> tuple[float, float, float, float]:
    """Return the stress around the pipe and the equivalent stress at both walls.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Inside diameter, [m]
    inside : float
        Pressure inside, [Pa]
    outside : float
        Pressure outside, [Pa]
    axial : float
        Stress along the pipe, tension positive, [Pa]

    Returns
    -------
    hoop_inside, hoop_outside : float
        Stress around the pipe at the inside and outside wall, tension positive, [Pa]
    equivalent_inside, equivalent_outside : float
        Equivalent (von Mises) stress at the inside and outside wall, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the inside is not less than the outside.

    Notes
    -----
    Each wall has its own pair of stresses: around the pipe, and the pressure that stands on that
    wall. The handbook's own example takes the first from the inside and the second from the
    outside wall and prints 52,426 psi for some 56,360. Bending is not counted. The collapse
    rating is no limit of equivalent stress except in thick pipe, so do not judge collapse by it.

    Examples
    --------
    >>> [round(value / 1e6) for value in triaxial_stress(0.25, 0.22, 30e6, 0.0, 100e6)]
    [236, 206, 230, 178]
    """
    steel_area(outer_diameter, inner_diameter)
    require_range("Pressure inside", inside, 0.0, 300e6, "Pa")
    require_range("Pressure outside", outside, 0.0, 300e6, "Pa")
    require_range("Stress along the pipe", axial, -950e6, 950e6, "Pa")
    outer, inner = outer_diameter**2, inner_diameter**2
    mean = (inside * inner - outside * outer) / (outer - inner)
    hoop_inside = 2 * mean + inside  # hoop and radial stress add up to twice the mean everywhere
    hoop_outside = 2 * mean + outside
    return (
        hoop_inside,
        hoop_outside,
        _equivalent(axial, hoop_inside, -inside),
        _equivalent(axial, hoop_outside, -outside),
    )


def _equivalent(first: float, second: float, third: float) -> float:
    """Return the von Mises stress of three principal stresses."""
    return sqrt(((first - second) ** 2 + (second - third) ** 2 + (third - first) ** 2) / 2)
