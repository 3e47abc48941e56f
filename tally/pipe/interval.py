"""A length of one kind of pipe at its place in the hole, and volumes inside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import pi

from tally.formula import require_range
from tally.pipe.capacity import open_end_displacement


@dataclass(frozen=True, slots=True)
class PipeInterval:
    """Pipe of one kind between two measured depths, [m]; weight in air with couplings, [kg/m].

    `coupling_area` is the volume of the couplings beyond the body, shared out by length, [m^2].
    `yield_strength` [Pa] is that of a standard grade; `collapse_rating` [Pa] is typed from the data
    sheet of pipe that has no standard one.
    """

    top: float
    bottom: float
    outer_diameter: float
    inner_diameter: float
    weight: float
    coupling_area: float = 0.0
    yield_strength: float | None = None
    collapse_rating: float | None = None

    def __post_init__(self) -> None:
        require_range("Top of the pipe", self.top, -100.0, 30_000.0, "m")
        require_range("Bottom of the pipe", self.bottom, self.top, 30_000.0, "m")
        open_end_displacement(self.outer_diameter, self.inner_diameter)
        require_range("Weight of the pipe", self.weight, 5.0, 1500.0, "kg/m")
        require_range("Room of the couplings", self.coupling_area, 0.0, 0.5, "m3/m")

    @property
    def wall(self) -> float:
        """Wall of the body, [m]."""
        return (self.outer_diameter - self.inner_diameter) / 2

    @property
    def body(self) -> float:
        """Cross-section of the steel of the body, couplings left out, [m^2]."""
        return pi / 4 * (self.outer_diameter**2 - self.inner_diameter**2)

    @property
    def length(self) -> float:
        """Length along the pipe, [m]."""
        return self.bottom - self.top

    @property
    def bore(self) -> float:
        """Volume held by length, [m^3/m]."""
        return pi / 4 * self.inner_diameter**2

    @property
    def closed(self) -> float:
        """Volume pushed aside by length with a closed float, couplings counted, [m^3/m]."""
        return pi / 4 * self.outer_diameter**2 + self.coupling_area

    @property
    def steel(self) -> float:
        """Volume of the steel by length, couplings counted, [m^3/m]."""
        return self.closed - self.bore


def inside_volume(pipe: Iterable[PipeInterval], top: float, bottom: float) -> float:
    """Return the volume inside the pipe between two measured depths, [m^3].

    >>> pipe = [PipeInterval(0.0, 1000.0, 0.25, 0.22, 90.0)]
    >>> round(inside_volume(pipe, 100.0, 2000.0), 2)
    34.21
    """
    return sum(each.bore * overlap(each.top, each.bottom, top, bottom) for each in pipe)


def overlap(top: float, bottom: float, upper: float, lower: float) -> float:
    """Return the length that two stretches of depth share.

    >>> overlap(0.0, 10.0, 4.0, 20.0), overlap(0.0, 1.0, 2.0, 3.0)
    (6.0, 0.0)
    """
    return max(0.0, min(bottom, lower) - max(top, upper))
