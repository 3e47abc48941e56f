"""A slot with a moving wall worked out by small steps: the second opinion on surge."""

from __future__ import annotations

import numpy as np
from scipy.optimize import brentq

STEPS = 801


def moving_slot_gradient(
    height: float, speed: float, upward: float, curve: tuple[float, float, float]
) -> float:
    """Return the pressure by length of a slot, [Pa/m].

    One wall stands, the other goes down at `speed`, the mean flow goes up at `upward`. The stress
    falls evenly across the slot; the velocity is its Herschel-Bulkley shear rate added up from
    the still wall. The stress at that wall is found for which the other wall goes as it does, and
    the gradient for which the mean is that wanted.
    """
    at_rest, consistency, index = curve
    across = np.linspace(0.0, height, STEPS)

    def velocity(gradient: float, wall: float) -> np.ndarray:
        stress = wall - gradient * across
        over = np.maximum(np.abs(stress) - at_rest, 0.0) / consistency
        rate = np.sign(stress) * over ** (1 / index)
        grown = np.cumsum((rate[1:] + rate[:-1]) / 2) * (height / (STEPS - 1))
        return np.concatenate([[0.0], grown])

    def mean(gradient: float) -> float:
        most = at_rest + consistency * (20 * (speed + upward) / height) ** index
        most += 2 * gradient * height
        wall = brentq(lambda one: velocity(gradient, one)[-1] + speed, -most, most, rtol=1e-12)
        found = velocity(gradient, wall)
        return float(((found[1:] + found[:-1]) / 2).mean())

    high = 1.0
    while mean(high) < upward:
        high *= 2
    return float(brentq(lambda one: mean(one) - upward, 0.0, high, rtol=1e-8))
