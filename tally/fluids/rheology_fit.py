"""Parameters of a fluid by least squares over all readings of the viscometer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import log, sqrt

from tally.errors import DomainError
from tally.fluids.flow_curve import RATE_PER_RPM, STRESS_PER_DEGREE, FlowCurve
from tally.fluids.rheology import (
    R3,
    R6,
    R100,
    R200,
    R300,
    READING_RANGE,
    YIELD,
    K,
    N,
)
from tally.fluids.root import bracketed_root
from tally.formula import Term, formula, require_range

LEAST_INDEX, MOST_INDEX = 0.1, 1.5
_STEPS = 56

R600_OR_NONE = Term(
    "r600", "reading at 600 rpm, 0 to leave it out (cement whose solids settle)", "number", "", "0"
)
ALL_READINGS = (R300, R200, R100, R6, R3, R600_OR_NONE)
MISFIT = Term("misfit", "root of the mean squared difference, degrees of the dial", "number", "")
FIT_SOURCE = "least squares over all readings; shear rate 1.703 1/s a rpm, 0.511 Pa a degree"
FIT_RANGE = f"{READING_RANGE}; flow index {LEAST_INDEX} to {MOST_INDEX}"


@dataclass(frozen=True, slots=True)
class Fit:
    """A flow curve through the readings, and how far it misses them, in degrees of the dial."""

    curve: FlowCurve
    misfit: float


@formula(
    "herschel-bulkley-fit",
    "Yield stress, flow index and consistency by least squares over all readings",
    inputs=ALL_READINGS,
    outputs=[YIELD, N, K, MISFIT],
    source=FIT_SOURCE,
    range=FIT_RANGE,
)
def herschel_bulkley_fit(
    reading_300: float,
    reading_200: float,
    reading_100: float,
    reading_6: float,
    reading_3: float,
    reading_600: float = 0.0,
) -> tuple[float, float, float, float]:
    """Return yield stress, flow index, consistency and misfit of all readings.

    Parameters
    ----------
    reading_300, reading_200, reading_100, reading_6, reading_3 : float
        Readings, degrees of the dial, [-]
    reading_600 : float
        Reading at 600 rpm, or 0 to leave it out, [-]

    Returns
    -------
    yield_stress : float
        Yield stress, not below 0, [Pa]
    index : float
        Flow index n, [-]
    consistency : float
        Consistency k, [Pa s^n]
    misfit : float
        Root of the mean squared difference, degrees of the dial, [-]

    Raises
    ------
    DomainError
        If a reading is out of range, or the readings do not rise with the speed as such a
        fluid's do.

    Notes
    -----
    For each index the best yield stress and consistency are those of a straight line; the index
    is then the one at which the sum of squares stops falling. A cement slurry is fitted without
    600 rpm where its solids are thrown out.

    Examples
    --------
    >>> fit = herschel_bulkley_fit(38.0, 29.6, 20.1, 6.6, 5.6, 60.0)
    >>> [round(value, 2) for value in fit]
    [2.3, 0.72, 0.2, 0.16]
    """
    fit = fit_curve(_readings(
        reading_600, reading_300, reading_200, reading_100, reading_6, reading_3
    ))  # fmt: skip
    return fit.curve.yield_stress, fit.curve.index, fit.curve.consistency, fit.misfit


@formula(
    "bingham-fit",
    "Plastic viscosity and yield stress by least squares over all readings",
    inputs=ALL_READINGS,
    outputs=[
        Term("pv", "plastic viscosity", "viscosity", "cP"),
        Term("yp", "yield stress of the line", "yield point", "lbf/100ft2"),
        MISFIT,
    ],
    source=FIT_SOURCE,
    range=FIT_RANGE,
)
def bingham_fit(
    reading_300: float,
    reading_200: float,
    reading_100: float,
    reading_6: float,
    reading_3: float,
    reading_600: float = 0.0,
) -> tuple[float, float, float]:
    """Return plastic viscosity, yield stress and misfit of the line through all readings.

    Parameters
    ----------
    reading_300, reading_200, reading_100, reading_6, reading_3 : float
        Readings, degrees of the dial, [-]
    reading_600 : float
        Reading at 600 rpm, or 0 to leave it out, [-]

    Returns
    -------
    plastic_viscosity : float
        Slope of the line, [Pa s]
    yield_stress : float
        Where the line meets no shear, not below 0, [Pa]
    misfit : float
        Root of the mean squared difference, degrees of the dial, [-]

    Raises
    ------
    DomainError
        If a reading is out of range, or the readings do not rise with the speed.

    Examples
    --------
    >>> fit = bingham_fit(38.0, 29.6, 20.1, 6.6, 5.6, 60.0)
    >>> [round(value, 4) for value in fit]
    [0.0271, 4.3159, 2.7338]
    """
    fit = fit_curve(_readings(
        reading_600, reading_300, reading_200, reading_100, reading_6, reading_3
    ), index=1.0)  # fmt: skip
    return fit.curve.consistency, fit.curve.yield_stress, fit.misfit


@formula(
    "power-law-fit",
    "Flow index and consistency of a power-law fluid by least squares over all readings",
    inputs=ALL_READINGS,
    outputs=[N, K, MISFIT],
    source=FIT_SOURCE,
    range=FIT_RANGE,
)
def power_law_fit(
    reading_300: float,
    reading_200: float,
    reading_100: float,
    reading_6: float,
    reading_3: float,
    reading_600: float = 0.0,
) -> tuple[float, float, float]:
    """Return flow index, consistency and misfit of the power law nearest all readings.

    Parameters
    ----------
    reading_300, reading_200, reading_100, reading_6, reading_3 : float
        Readings, degrees of the dial, [-]
    reading_600 : float
        Reading at 600 rpm, or 0 to leave it out, [-]

    Returns
    -------
    index : float
        Flow index n, [-]
    consistency : float
        Consistency k, [Pa s^n]
    misfit : float
        Root of the mean squared difference, degrees of the dial, [-]

    Raises
    ------
    DomainError
        If a reading is out of range, or the readings do not rise with the speed.

    Notes
    -----
    Differences of stress are squared, not of its logarithm, so the fast readings weigh most.

    Examples
    --------
    >>> fit = power_law_fit(38.0, 29.6, 20.1, 6.6, 5.6, 60.0)
    >>> [round(value, 3) for value in fit]
    [0.586, 0.517, 1.847]
    """
    fit = fit_curve(_readings(
        reading_600, reading_300, reading_200, reading_100, reading_6, reading_3
    ), with_yield=False)  # fmt: skip
    return fit.curve.index, fit.curve.consistency, fit.misfit


def fit_curve(
    readings: Mapping[float, float], index: float | None = None, *, with_yield: bool = True
) -> Fit:
    """Return the flow curve nearest to readings by rpm; an index given is kept.

    Raises DomainError where there are too few readings, or they do not rise with the speed.
    """
    wanted = 1 + with_yield + (index is None)
    if len(readings) < wanted:
        raise DomainError(f"{len(readings)} readings are too few; {wanted} or more are wanted.")
    points = _Points(readings, with_yield)
    return points.fit(points.best_index() if index is None else index)


class _Points:
    """Stresses and shear rates, and the straight line that suits them at a given index."""

    def __init__(self, readings: Mapping[float, float], with_yield: bool) -> None:
        for rpm, reading in readings.items():
            require_range(f"Reading at {rpm:g} rpm", reading, 0.0, 500.0, "degrees")
        self.rates = [rpm * RATE_PER_RPM for rpm in readings]
        self.stresses = [reading * STRESS_PER_DEGREE for reading in readings.values()]
        self.with_yield = with_yield

    def line(self, index: float) -> tuple[float, float]:
        """Return the best yield stress, not below 0, and the best consistency."""
        powers: list[float] = [rate**index for rate in self.rates]
        count = len(powers)
        x, y = sum(powers) / count, sum(self.stresses) / count
        pairs = list(zip(powers, self.stresses, strict=True))
        if self.with_yield:
            spread = sum((p - x) * (p - x) for p in powers)
            slope = sum((p - x) * (s - y) for p, s in pairs) / spread
            if y >= slope * x:
                return y - slope * x, slope
        return 0.0, sum(p * s for p, s in pairs) / sum(p * p for p in powers)

    def tilt(self, index: float) -> float:
        """Return how the sum of squares changes with the index, up to a positive factor."""
        _, slope = self.line(index)
        weights: list[float] = [slope * rate**index * log(rate) for rate in self.rates]
        return -sum(m * w for m, w in zip(self.misses(index), weights, strict=True))

    def best_index(self) -> float:
        """Return the index at which the sum of squares stops falling."""
        width = (MOST_INDEX - LEAST_INDEX) / _STEPS
        grid = [LEAST_INDEX + width * step for step in range(_STEPS + 1)]
        least = min(range(len(grid)), key=lambda place: self.squares(grid[place]))
        low, high = grid[max(0, least - 1)], grid[min(_STEPS, least + 1)]
        if self.tilt(low) >= 0 or self.tilt(high) <= 0:
            raise DomainError(
                f"The readings follow no flow index from {LEAST_INDEX} to {MOST_INDEX}; read the "
                "viscometer again."
            )
        return bracketed_root(self.tilt, low, high)

    def squares(self, index: float) -> float:
        """Return the sum of squares of the differences, [Pa^2]."""
        return sum(miss * miss for miss in self.misses(index))

    def misses(self, index: float) -> list[float]:
        """Return by how much each stress lies above the best curve of the index, [Pa]."""
        at_rest, slope = self.line(index)
        return [
            stress - at_rest - slope * rate**index
            for rate, stress in zip(self.rates, self.stresses, strict=True)
        ]

    def fit(self, index: float) -> Fit:
        """Return the flow curve at an index, and its misfit."""
        at_rest, slope = self.line(index)
        if slope <= 0:
            raise DomainError("The readings do not rise with the speed; read the viscometer again.")
        misfit = sqrt(self.squares(index) / len(self.rates)) / STRESS_PER_DEGREE
        return Fit(FlowCurve(at_rest, slope, index), misfit)


def _readings(
    at_600: float, at_300: float, at_200: float, at_100: float, at_6: float, at_3: float
) -> dict[float, float]:
    """Return readings by rpm; a reading of 0 at 600 rpm was not taken."""
    slow = {300.0: at_300, 200.0: at_200, 100.0: at_100, 6.0: at_6, 3.0: at_3}
    return slow if at_600 == 0 else {600.0: at_600, **slow}
