"""Depths and volumes by hand: whole hundredths of a foot, and exact fractions from the inch up."""

from __future__ import annotations

from fractions import Fraction

PI = Fraction(3141592653589793238462643383279, 10**30)
CUBIC_INCHES_IN_A_BARREL = 42 * 231
CUBIC_METRES_IN_A_BARREL = CUBIC_INCHES_IN_A_BARREL * Fraction("0.0254") ** 3


def disc(inches: str) -> Fraction:
    """Return the area of a disc, in square inches."""
    return PI / 4 * Fraction(inches) ** 2


def metal(pounds_per_foot: str) -> Fraction:
    """Return the area of the steel of a pipe with couplings, in square inches.

    A gallon of steel weighs 65.5 lb: 47 lb/ft are 47/65.5 gal/ft of 231 cubic inches each.
    """
    return Fraction(pounds_per_foot) / Fraction("65.5") * 231 / 12


BORE = disc("8.681")
HEAVY_BORE = disc("8.535")
STEEL = metal("47")
HEAVY_STEEL = metal("53.5")
CLOSED = BORE + STEEL
"""What a closed pipe pushes aside: what it holds, its steel and its couplings."""
HOLE = disc("12.25")
OLD_CASING = disc("12.415")


def bbl(area_times_hundredths: Fraction) -> Fraction:
    """Return barrels for square inches times hundredths of a foot."""
    return area_times_hundredths * 12 / 100 / CUBIC_INCHES_IN_A_BARREL


def cubic_metres(area_times_hundredths: Fraction) -> float:
    """Return cubic metres for square inches times hundredths of a foot."""
    return float(bbl(area_times_hundredths) * CUBIC_METRES_IN_A_BARREL)
