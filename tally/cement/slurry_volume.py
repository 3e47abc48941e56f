"""Slurry wanted for a plain string, the height a volume reaches, and the film ahead of a plug."""

from __future__ import annotations

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.hole.annulus import ANNULUS_RANGE, HOLE, annulus_capacity, annulus_volume
from tally.hole.excess import (
    EXCESS,
    EXCESS_RANGE,
    annulus_volume_with_excess,
    pocket_volume,
)
from tally.pipe.capacity import (
    INNER_DIAMETER,
    INNER_RANGE,
    LENGTH,
    LENGTH_RANGE,
    OUTER_DIAMETER,
    VOLUME,
    pipe_capacity,
    pipe_volume,
)

BETT = "Bett, Geothermal well cementing, UNU Reports 2010, No. 10, pp. 121-123"
NO_EXCESS = "0 %"


@formula(
    "slurry-volume",
    "Slurry for a plain string: open hole with excess, previous casing, shoe track and pocket",
    inputs=[
        HOLE,
        OUTER_DIAMETER,
        INNER_DIAMETER,
        Term("open", "length of open hole to be filled", "length", "ft"),
        EXCESS,
        Term("previous", "inside diameter of the previous casing", "diameter", "in", "0 in"),
        Term("cased", "length in the previous casing to be filled", "length", "ft", "0 ft"),
        Term("track", "length from the float collar to the shoe", "length", "ft", "0 ft"),
        Term("pocket", "length of hole below the shoe", "length", "ft", "0 ft"),
        Term("pocket-excess", "excess over the gauge of the pocket", "ratio", "%", NO_EXCESS),
        Term("track-excess", "excess over the shoe track", "ratio", "%", NO_EXCESS),
    ],
    outputs=[
        Term("volume", "slurry in all", "volume", "bbl"),
        Term("in-open", "slurry in the open hole, with its excess", "volume", "bbl"),
        Term("in-cased", "slurry in the previous casing", "volume", "bbl"),
        Term("in-track", "slurry in the shoe track, with its excess", "volume", "bbl"),
        Term("in-pocket", "slurry in the pocket, with its excess", "volume", "bbl"),
    ],
    source=f"sum of the parts; {BETT} (who takes the excess on shoe track and pocket as well)",
    range=f"{ANNULUS_RANGE}; {INNER_RANGE}; {LENGTH_RANGE}; {EXCESS_RANGE}",
)  # fmt: skip
def slurry_volume(
    hole_diameter: float,
    outer_diameter: float,
    inner_diameter: float,
    open_length: float,
    excess: float,
    previous_bore: float = 0.0,
    cased_length: float = 0.0,
    track: float = 0.0,
    pocket: float = 0.0,
    pocket_excess: float = 0.0,
    track_excess: float = 0.0,
) -> tuple[float, float, float, float, float]:
    """Return the slurry for a plain string in all and by its parts.

    Parameters
    ----------
    hole_diameter : float
        Gauge diameter of the open hole, [m]
    outer_diameter : float
        Outside diameter of the casing, [m]
    inner_diameter : float
        Inside diameter of the casing, [m]
    open_length : float
        Length of open hole to be filled, [m]
    excess : float
        Excess over the gauge volume between hole and pipe, [-]
    previous_bore : float
        Inside diameter of the previous casing; 0 where nothing in it is filled, [m]
    cased_length : float
        Length in the previous casing to be filled, [m]
    track : float
        Length from the float collar to the shoe, [m]
    pocket : float
        Length of hole below the shoe, [m]
    pocket_excess : float
        Excess over the gauge volume of the pocket, [-]
    track_excess : float
        Excess over the volume of the shoe track; some take it there as well, [-]

    Returns
    -------
    volume, in_open, in_cased, in_track, in_pocket : float
        Slurry in all and by its parts, each with its excess, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than hole and previous casing.

    Notes
    -----
    Sources differ in what the excess is taken on: each part has its own here. Couplings,
    centralizers and several hole sizes are not in it.

    Examples
    --------
    >>> parts = slurry_volume(0.311, 0.2445, 0.2205, 500.0, 0.2, 0.32, 100.0, 24.0, 3.0)
    >>> [round(part, 2) for part in parts]
    [21.9, 17.41, 3.35, 0.92, 0.23]
    """
    require_range("Excess of the shoe track", track_excess, 0.0, 5.0, "")
    in_open, _ = annulus_volume_with_excess(hole_diameter, outer_diameter, open_length, excess)
    require_range("Inside diameter of the previous casing", previous_bore, 0.0, 1.5, "m")
    filled = cased_length != 0 or previous_bore != 0
    in_cased = annulus_volume(previous_bore, outer_diameter, cased_length) if filled else 0.0
    in_track = pipe_volume(inner_diameter, track) * (1 + track_excess)
    in_pocket = pocket_volume(hole_diameter, pocket, pocket_excess)
    return in_open + in_cased + in_track + in_pocket, in_open, in_cased, in_track, in_pocket


@formula(
    "cement-height",
    "Height of annulus that a volume of slurry fills, with excess and what stays inside",
    inputs=[
        VOLUME,
        HOLE,
        OUTER_DIAMETER,
        Term("excess", "excess over the gauge volume", "ratio", "%", NO_EXCESS),
        Term("inside", "slurry that stays in the shoe track and the pocket", "volume", "bbl",
             "0 bbl"),
    ],
    outputs=[Term("height", "length of annulus filled, along the hole", "length", "ft")],
    source="(volume - inside) / (annulus x (1 + excess))",
    range=f"{ANNULUS_RANGE}; {EXCESS_RANGE}; volumes 0 to 10,000 m3",
)  # fmt: skip
def cement_height(
    volume: float,
    hole_diameter: float,
    outer_diameter: float,
    excess: float = 0.0,
    inside: float = 0.0,
) -> float:
    """Return the length of annulus that a volume of slurry fills.

    Parameters
    ----------
    volume : float
        Volume of slurry, [m^3]
    hole_diameter : float
        Gauge diameter of the hole, or inside diameter of the outer casing, [m]
    outer_diameter : float
        Outside diameter of the casing, [m]
    excess : float
        Excess over the gauge volume that the hole is taken to have, [-]
    inside : float
        Slurry that stays in the shoe track and the pocket, [m^3]

    Returns
    -------
    height : float
        Length filled, along the hole, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or more stays inside than there is.

    Examples
    --------
    >>> round(cement_height(16.0, 0.311, 0.2445, 0.2, 1.0), 1)
    430.8
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    require_range("Volume inside", inside, 0.0, 10_000.0, "m3")
    require_range("Excess", excess, 0.0, 5.0, "")
    if inside > volume:
        raise DomainError(
            f"{inside:.6g} m3 stay inside, more than the {volume:.6g} m3 of slurry, so the top of "
            "cement is below the shoe; check the two volumes."
        )
    return (volume - inside) / (annulus_capacity(hole_diameter, outer_diameter) * (1 + excess))


@formula(
    "film-ahead-of-plug",
    "Casing that fills with the mud film wiped ahead of a top plug",
    inputs=[
        INNER_DIAMETER,
        Term("film", "thickness of the film on the wall", "diameter", "in"),
        LENGTH,
    ],
    outputs=[
        Term("filled", "length of casing that the film fills", "length", "ft"),
        Term("volume", "volume of the film", "volume", "bbl"),
    ],
    source="length x (1 - ((bore - 2 film) / bore) squared); slides, scribd.com/presentation/"
    "326518505 (table by size and film)",
    range=f"{INNER_RANGE}; film 0 to 0.02 m; {LENGTH_RANGE}",
)
def film_ahead_of_plug(inner_diameter: float, film: float, length: float) -> tuple[float, float]:
    """Return the length of casing that the wiped film fills ahead of the plug, and its volume.

    Parameters
    ----------
    inner_diameter : float
        Inside diameter of the casing, [m]
    film : float
        Thickness of the film on the wall, [m]
    length : float
        Length of casing that the plug wipes, [m]

    Returns
    -------
    filled : float
        Length of casing that the film fills, [m]
    volume : float
        Volume of the film, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    Without a bottom plug the film gathers under the top plug: a reason for a longer shoe track.

    Examples
    --------
    >>> [round(value, 2) for value in film_ahead_of_plug(0.22, 0.001, 1000.0)]
    [18.1, 0.69]
    """
    require_range("Film", film, 0.0, 0.02, "m")
    volume = pipe_volume(inner_diameter, length) * (1 - ((inner_diameter - 2 * film)
                                                         / inner_diameter) ** 2)  # fmt: skip
    return volume / pipe_capacity(inner_diameter), volume
