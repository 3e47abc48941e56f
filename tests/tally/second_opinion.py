"""The same arithmetic done another way: polygons for circles, and pint's own units."""

from __future__ import annotations

from functools import lru_cache
from math import cos, pi, sin
from typing import Any

from pint import UnitRegistry


@lru_cache(maxsize=1)
def registry() -> Any:
    """Return pint with its own definitions, none of ours; its plain bbl is not the oil barrel."""
    return UnitRegistry()


def disc(diameter: float) -> float:
    """Return the area of a circle by the shoelace sum over many corners, without pi/4 x d**2."""
    corners = 7200
    points = [(cos(2 * pi * k / corners), sin(2 * pi * k / corners)) for k in range(corners)]
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return (diameter / 2) ** 2 * sum(x * v - u * y for (x, y), (u, v) in pairs) / 2


def si(number: float, unit: str) -> float:
    """Return a number in the unit, in SI."""
    return float(registry().Quantity(number, unit).to_base_units().magnitude)
