"""Fluids standing in pipe or annulus, layer on layer, and their pressure along the hole."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from tally.errors import DomainError
from tally.formula import require_range
from tally.hole.survey import Survey
from tally.pipe.weight import STANDARD_GRAVITY

DEEPEST = 30_000.0
"""[m]; a layer that reaches so far reaches the bottom."""


@dataclass(frozen=True, slots=True)
class Layer:
    """A fluid down to a measured depth [m], of one density [kg/m^3]."""

    bottom: float
    density: float

    def __post_init__(self) -> None:
        require_range("Bottom of the fluid", self.bottom, -100.0, DEEPEST, "m")
        require_range("Density", self.density, 0.0, 3000.0, "kg/m3")


@dataclass(frozen=True, slots=True)
class FluidColumn:
    """Layers of fluid from the top down; above `top` (a measured depth, [m]) there is air.

    A level inside the pipe below the floor is a column with its top at the level.
    """

    layers: tuple[Layer, ...]
    top: float = 0.0

    def __post_init__(self) -> None:
        require_range("Top of the fluid", self.top, -100.0, DEEPEST, "m")
        depth = self.top
        for layer in self.layers:
            if layer.bottom < depth:
                raise DomainError(
                    f"The fluid down to {layer.bottom:.6g} m ends above {depth:.6g} m, where the "
                    "one over it ends; check the order of the fluids."
                )
            depth = layer.bottom

    def density_at(self, depth: float) -> float:
        """Return the density just above a measured depth, [kg/m^3]; 0 in the air over the top."""
        if depth <= self.top or not self.layers:
            return 0.0
        place = bisect_left([layer.bottom for layer in self.layers], depth)
        return self.layers[min(place, len(self.layers) - 1)].density

    def breaks(self) -> list[float]:
        """Return the measured depths at which the density changes."""
        return [self.top, *(layer.bottom for layer in self.layers[:-1])]

    def pressure(self, depth: float, survey: Survey) -> float:
        """Return the pressure of the column at a measured depth, air pressure left out, [Pa]."""
        total, upper = 0.0, self.top
        last = len(self.layers) - 1
        for place, layer in enumerate(self.layers):
            lower = depth if place == last else min(depth, layer.bottom)
            if lower > upper:
                rise = vertical(lower, survey) - vertical(upper, survey)
                total += layer.density * STANDARD_GRAVITY * rise
                upper = lower
        return total


def column(density: float, top: float = 0.0) -> FluidColumn:
    """Return one fluid from a level down.

    >>> column(1200.0).density_at(500.0)
    1200.0
    """
    return FluidColumn((Layer(DEEPEST, density),), top)


def stacked(layers: Sequence[tuple[float, float]], top: float = 0.0) -> FluidColumn:
    """Return a column from pairs of bottom depth [m] and density [kg/m^3], from the top down.

    >>> stacked([(500.0, 1200.0), (1000.0, 1900.0)]).density_at(600.0)
    1900.0
    """
    return FluidColumn(tuple(Layer(bottom, density) for bottom, density in layers), top)


def vertical(depth: float, survey: Survey) -> float:
    """Return the true vertical depth, also for pipe that stands above the datum, [m]."""
    return depth if depth <= 0 else survey.true_vertical(depth)
