"""Times of a cementing job, and the fluid that a contact time wants."""

from __future__ import annotations

from tally.cement.slurry_volume import BETT
from tally.fluids.pump import time_at_rate
from tally.formula import Term, formula, require_range
from tally.hole.annulus import ANNULUS_RANGE, HOLE, annulus_length_filled
from tally.pipe.capacity import OUTER_DIAMETER


@formula(
    "cementing-time",
    "Time from the first slurry mixed to the bump, with an allowance",
    inputs=[
        Term("slurry", "volume of slurry", "volume", "bbl"),
        Term("mixing-rate", "rate at which it is mixed and pumped", "flow rate", "bbl/min"),
        Term("displacement", "volume of displacement", "volume", "bbl"),
        Term("displacement-rate", "rate of displacement", "flow rate", "bbl/min"),
        Term("plug", "time to drop the plug", "time", "min", "0 min"),
        Term("allowance", "time allowed on top", "time", "min", "0 min"),
        Term("batch", "time that the slurry stands mixed before it is pumped", "time", "min",
             "0 min"),
    ],
    outputs=[
        Term("time", "time in all, to hold against the thickening time", "time", "min"),
        Term("mixing", "time to mix and pump the slurry", "time", "min"),
        Term("displacing", "time to displace", "time", "min"),
    ],
    source=f"sum of volume / rate and the times given; {BETT}",
    range="volumes 0 to 10,000 m3; rates 0.00001 to 1 m3/s; times 0 to 10 d",
)  # fmt: skip
def cementing_time(
    slurry: float,
    mixing_rate: float,
    displacement: float,
    displacement_rate: float,
    plug: float = 0.0,
    allowance: float = 0.0,
    batch: float = 0.0,
) -> tuple[float, float, float]:
    """Return the time from the first slurry mixed to the bump, and its two pumping times.

    Parameters
    ----------
    slurry : float
        Volume of slurry, [m^3]
    mixing_rate : float
        Rate at which it is mixed and pumped, [m^3/s]
    displacement : float
        Volume of displacement, [m^3]
    displacement_rate : float
        Rate of displacement, [m^3/s]
    plug : float
        Time to drop the plug, [s]
    allowance : float
        Time allowed on top, [s]
    batch : float
        Time that the slurry stands mixed before it is pumped, [s]

    Returns
    -------
    time : float
        Time in all, [s]
    mixing : float
        Time to mix and pump the slurry, [s]
    displacing : float
        Time to displace, [s]

    Raises
    ------
    DomainError
        If a number is out of range.

    Examples
    --------
    >>> [round(value) for value in cementing_time(30.0, 0.015, 24.0, 0.015, 900.0, 3600.0)]
    [8100, 2000, 1600]
    """
    mixing, displacing = (
        time_at_rate(slurry, mixing_rate),
        time_at_rate(displacement, displacement_rate),
    )
    for name, time in (("Plug", plug), ("Allowance", allowance), ("Batch mixing", batch)):
        require_range(f"{name} time", time, 0.0, 864_000.0, "s")
    return mixing + displacing + plug + allowance + batch, mixing, displacing


@formula(
    "fluid-for-contact",
    "Volume of a spacer that passes a point of the annulus for a time, and its length there",
    inputs=[
        Term("time", "time that it passes", "time", "min"),
        Term("rate", "rate in the annulus", "flow rate", "bbl/min"),
        HOLE,
        OUTER_DIAMETER,
    ],
    outputs=[
        Term("volume", "volume of it", "volume", "bbl"),
        Term("length", "length of annulus that it fills", "length", "ft"),
    ],
    source="rate x time; volume / annulus",
    range=f"time 0 to 1 d; rate 0.00001 to 1 m3/s; {ANNULUS_RANGE}; volume 0 to 10,000 m3",
)
def fluid_for_contact(
    time: float, rate: float, hole_diameter: float, outer_diameter: float
) -> tuple[float, float]:
    """Return the volume that passes a point of the annulus for a time, and its length there.

    Parameters
    ----------
    time : float
        Time that it passes, [s]
    rate : float
        Rate in the annulus; while the heavier fluids fall free it is not that of the pump, [m^3/s]
    hole_diameter : float
        Diameter of the hole, [m]
    outer_diameter : float
        Outside diameter of the casing, [m]

    Returns
    -------
    volume : float
        Volume of it, [m^3]
    length : float
        Length of annulus that it fills, [m]

    Raises
    ------
    DomainError
        If a number is out of range, or the pipe is not less than the hole.

    Notes
    -----
    The other way about, the contact time of a volume is `time-at-rate`.

    Examples
    --------
    >>> [round(value, 1) for value in fluid_for_contact(600.0, 0.015, 0.311, 0.2445)]
    [9.0, 310.2]
    """
    require_range("Time", time, 0.0, 86_400.0, "s")
    require_range("Rate", rate, 1e-5, 1.0, "m3/s")
    volume = rate * time
    return volume, annulus_length_filled(hole_diameter, outer_diameter, volume)
