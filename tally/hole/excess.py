"""Open hole larger than gauge: excess on a volume, and the hole behind a measured volume."""

from __future__ import annotations

from math import pi, sqrt

from tally.formula import Term, formula, require_range
from tally.hole.annulus import (
    ANNULUS_RANGE,
    HOLE,
    HOLE_RANGE,
    annulus_capacity,
    annulus_volume,
    hole_capacity,
)
from tally.pipe.capacity import (
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    OUTER_RANGE,
    VOLUME,
    closed_end_displacement,
    volume_over_length,
)

EXCESS = Term("excess", "excess over the gauge volume", "ratio", "%")
EXCESS_RANGE = "excess 0 to 500 %"


@formula(
    "annulus-volume-with-excess",
    "Volume between open hole and pipe over a length, with excess on that volume",
    inputs=[HOLE, OUTER_DIAMETER, LENGTH, EXCESS],
    outputs=[
        Term("volume", "volume with the excess", "volume", "bbl"),
        Term("added", "the excess alone", "volume", "bbl"),
    ],
    source="gauge volume between hole and pipe x (1 + excess); common practice, as in Bett, "
    "Geothermal well cementing, UNU Reports 2010, No. 10, pp. 121-123 (who takes it on shoe "
    "track and rat hole as well)",
    range=f"{ANNULUS_RANGE}; {LENGTH_RANGE}; {EXCESS_RANGE}",
)
def annulus_volume_with_excess(
    hole_diameter: float, outer_diameter: float, length: float, excess: float
) -> tuple[float, float]:
    """Return the volume between open hole and pipe with excess, and the excess alone.

    Parameters
    ----------
    hole_diameter : float
        Gauge diameter of the hole, [m]
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    length : float
        Length along the hole, [m]
    excess : float
        Excess as a share of the gauge volume between hole and pipe, [-]

    Returns
    -------
    volume : float
        Volume with the excess, [m^3]
    added : float
        The excess alone, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    Here the excess is on the volume between hole and pipe. Some take it on the shoe track and
    the pocket too: their volumes then go in with their own excess.

    Examples
    --------
    >>> [round(value, 2) for value in annulus_volume_with_excess(0.31, 0.25, 500.0, 0.25)]
    [16.49, 3.3]
    """
    gauge = annulus_volume(hole_diameter, outer_diameter, length)
    require_range("Excess", excess, 0.0, 5.0, "")
    return gauge * (1 + excess), gauge * excess


@formula(
    "pocket-volume",
    "Volume of the hole below the shoe",
    inputs=[HOLE, LENGTH, Term("excess", "excess over the gauge volume", "ratio", "%", "0 %")],
    outputs=[VOLUME],
    source="hole capacity x length x (1 + excess); Bett, Geothermal well cementing, UNU Reports "
    "2010, No. 10, pp. 121-123 (rat hole)",
    range=f"{HOLE_RANGE}; {LENGTH_RANGE}; {EXCESS_RANGE}",
)
def pocket_volume(hole_diameter: float, length: float, excess: float = 0.0) -> float:
    """Return the volume of the hole below the shoe.

    Parameters
    ----------
    hole_diameter : float
        Gauge diameter of the hole, [m]
    length : float
        Bottom of the hole less the depth of the shoe, [m]
    excess : float
        Excess as a share of the gauge volume, [-]

    Returns
    -------
    volume : float
        Volume below the shoe, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> round(pocket_volume(0.31, 10.0), 3)
    0.755
    """
    require_range("Excess", excess, 0.0, 5.0, "")
    return volume_over_length(hole_capacity(hole_diameter), length) * (1 + excess)


@formula(
    "excess-from-diameters",
    "Excess over gauge of the volume between hole and pipe, from a mean (caliper) diameter",
    inputs=[
        Term("gauge", "gauge diameter of the hole (bit)", "diameter", "in"),
        Term("mean", "mean diameter by volume, from the caliper", "diameter", "in"),
        OUTER_DIAMETER,
    ],
    outputs=[Term("excess", "excess over the gauge volume, below zero under gauge",
                  "ratio difference", "%")],
    source="(mean squared - pipe squared) / (gauge squared - pipe squared) - 1",
    range=f"{HOLE_RANGE}; {OUTER_RANGE}; pipe less than both",
)  # fmt: skip
def excess_from_diameters(gauge: float, mean: float, outer_diameter: float) -> float:
    """Return the excess that a mean diameter of the hole stands for.

    Parameters
    ----------
    gauge : float
        Gauge diameter of the hole, [m]
    mean : float
        Mean diameter of the hole by volume, [m]
    outer_diameter : float
        Outside diameter of the pipe body, [m]

    Returns
    -------
    excess : float
        Excess as a share of the gauge volume between hole and pipe, [-]

    Raises
    ------
    DomainError
        If a diameter is out of range, or the pipe is not less than the hole.

    Notes
    -----
    A hole 5 % over gauge in diameter is far more over in volume: the pipe takes its room from
    both.

    Examples
    --------
    >>> round(excess_from_diameters(0.311, 0.330, 0.2445), 3)
    0.33
    """
    found = annulus_capacity(mean, outer_diameter)
    return found / annulus_capacity(gauge, outer_diameter) - 1


@formula(
    "hole-diameter-from-volume",
    "Mean diameter of the hole behind a measured volume between hole and pipe",
    inputs=[OUTER_DIAMETER, LENGTH, VOLUME],
    outputs=[Term("mean", "mean diameter of the hole by volume", "diameter", "in")],
    source="square root of (pipe squared + 4/pi x volume / length)",
    range=f"{OUTER_RANGE}; length 0.1 to 20,000 m; volume 0 to 10,000 m3; mean diameter to 1.5 m",
)
def hole_diameter_from_volume(outer_diameter: float, length: float, volume: float) -> float:
    """Return the mean diameter of the hole behind a measured volume.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    length : float
        Length along the hole, [m]
    volume : float
        Volume measured between hole and pipe over that length, [m^3]

    Returns
    -------
    mean : float
        Mean diameter by volume, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the hole comes out wider than 1.5 m.

    Examples
    --------
    >>> round(hole_diameter_from_volume(0.25, 500.0, 13.19), 3)
    0.31
    """
    require_range("Length", length, 0.1, 20_000.0, "m")
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    mean = sqrt(4 / pi * (closed_end_displacement(outer_diameter) + volume / length))
    require_range("Mean diameter", mean, 0.05, 1.5, "m")
    return mean
