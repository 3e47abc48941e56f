"""From the plug's release to the bump: volume to the float collar, strokes, shoe track."""

from __future__ import annotations

from tally.fluids.pump import STROKE_VOLUME, strokes_for_volume
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import CAPACITY, LENGTH_RANGE, VOLUME, volume_over_length


@formula(
    "displacement-to-collar",
    "Volume that takes the top plug from the cementing head to the float collar",
    inputs=[
        Term("length", "length of casing from the head down to the float collar", "length", "ft"),
        CAPACITY,
        Term("head", "volume from the plug to the top of the casing", "volume", "bbl", "0 bbl"),
    ],
    outputs=[VOLUME],
    source="length to the collar x capacity + head; Bett, Geothermal well cementing, UNU "
    "Reports 2010, No. 10, pp. 121-123",
    range=f"{LENGTH_RANGE}; capacity 0 to 1.8 m3/m; head 0 to 5 m3",
)
def displacement_to_collar(length: float, capacity: float, head_volume: float = 0.0) -> float:
    """Return the volume that takes the top plug from the head to the float collar.

    Parameters
    ----------
    length : float
        Length of casing from the foot of the head down to the float collar, along the pipe and
        as run, [m]
    capacity : float
        Volume held by a unit of length of that casing, [m^3/m]
    head_volume : float
        Volume from the plug's place in the head down to the top of the casing, [m^3]

    Returns
    -------
    volume : float
        Displacement to the calculated bump, [m^3]

    Raises
    ------
    DomainError
        If the length is not from 0 to 20,000 m, the capacity from 0 to 1.8 m^3/m or the head
        volume from 0 to 5 m^3.

    Notes
    -----
    A string of several bores is the sum over its lengths with the head counted once. The fluid
    is taken as incompressible and the pump as counted: compression and the pump's efficiency
    stand beside this figure, not in it.

    Examples
    --------
    >>> round(displacement_to_collar(2990.0, 0.0382, 0.1), 3)
    114.318
    """
    require_range("Head volume", head_volume, 0.0, 5.0, "m3")
    return volume_over_length(capacity, length) + head_volume


@formula(
    "strokes-to-bump",
    "Volume and strokes left to the calculated bump",
    inputs=[
        Term("displacement", "volume from the head to the float collar", "volume", "bbl"),
        STROKE_VOLUME,
        Term("pumped", "volume pumped behind the top plug so far", "volume", "bbl", "0 bbl"),
    ],
    outputs=[
        Term("strokes", "strokes left, below zero when past the bump", "strokes", "strokes"),
        Term("left", "volume left, below zero when past the bump", "volume", "bbl"),
    ],
    source="(displacement - pumped) / volume of a stroke; petroleumsupport.com (displacement "
    "volume required)",
    range="volumes 0 to 10,000 m3; volume of a stroke 0.0001 to 0.5 m3",
)
def strokes_to_bump(
    displacement: float, stroke_volume: float, pumped: float = 0.0
) -> tuple[float, float]:
    """Return strokes and volume left until the top plug should reach the float collar.

    Parameters
    ----------
    displacement : float
        Volume from the head to the float collar, [m^3]
    stroke_volume : float
        Volume delivered by a stroke, efficiency included, [m^3]
    pumped : float
        Volume pumped behind the top plug so far, [m^3]

    Returns
    -------
    strokes : float
        Strokes left, not rounded; below zero when past the calculated bump, [-]
    left : float
        Volume left; below zero when past the calculated bump, [m^3]

    Raises
    ------
    DomainError
        If a volume is not from 0 to 10,000 m^3 or the stroke not from 0.0001 to 0.5 m^3.

    Examples
    --------
    >>> [round(value, 1) for value in strokes_to_bump(40.0, 0.016, 24.0)]
    [1000.0, 16.0]
    >>> [round(value, 1) for value in strokes_to_bump(40.0, 0.016, 40.8)]
    [-50.0, -0.8]
    """
    in_all = strokes_for_volume(displacement, stroke_volume)
    done = strokes_for_volume(pumped, stroke_volume)
    return in_all - done, displacement - pumped


@formula(
    "share-of-shoe-track",
    "Volume pumped past the calculated bump, as a share of the shoe track",
    inputs=[
        Term("past", "volume pumped past the calculated bump", "volume", "bbl"),
        Term("track", "volume of the shoe track, float collar to shoe", "volume", "bbl"),
    ],
    outputs=[Term("share", "share of the shoe track", "ratio", "%")],
    source="volume past the bump / volume of the shoe track; the usual limit is half of it "
    "(wipertrip.com, single stage plug type casing cementation procedure)",
    range="past 0 to 1,000 m3; shoe track 0.001 to 1,000 m3",
)
def share_of_shoe_track(past_bump: float, shoe_track: float) -> float:
    """Return the volume pumped past the calculated bump as a share of the shoe track.

    Parameters
    ----------
    past_bump : float
        Volume pumped past the calculated bump, [m^3]
    shoe_track : float
        Volume inside the casing from the float collar to the shoe, [m^3]

    Returns
    -------
    share : float
        Share of the shoe track; 1 means displacing fluid has reached the shoe, [-]

    Raises
    ------
    DomainError
        If the volume past the bump is not from 0 to 1,000 m^3 or the shoe track not from 0.001
        to 1,000 m^3.

    Notes
    -----
    Limits for it (half is usual, some stop short of the collar on purpose) belong to the job,
    with an owner, and are not set here.

    Examples
    --------
    >>> share_of_shoe_track(0.25, 1.0)
    0.25
    """
    require_range("Volume past the bump", past_bump, 0.0, 1000.0, "m3")
    require_range("Shoe track", shoe_track, 0.001, 1000.0, "m3")
    return past_bump / shoe_track
