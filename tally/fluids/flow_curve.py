"""How a fluid resists shear: yield stress, consistency and index of the Herschel-Bulkley form."""

from __future__ import annotations

from dataclasses import dataclass
from math import log2

from tally.formula import Term, require_range

RATE_PER_RPM = 1.703
"""[1/s], shear rate at the bob of the usual viscometer (R1-B1) by one turn a minute."""

STRESS_PER_DEGREE = 0.511
"""[Pa], shear stress at the bob by one degree of the dial (1.067 lbf/100ft2)."""

YIELD_STRESS = Term("yield", "yield stress, 0 where there is none", "yield point", "lbf/100ft2")
CONSISTENCY = Term(
    "k", "plastic viscosity, or consistency in equivalent cP (0.001 Pa s^n)", "viscosity", "cP"
)
INDEX = Term("n", "flow index, 1 for a Bingham or Newtonian fluid", "number", "", "1")
CURVE_RANGE = (
    "yield stress 0 to 200 Pa; consistency 0.1 to 100,000 equivalent cP; flow index 0.1 to 1.5"
)


@dataclass(frozen=True, slots=True)
class FlowCurve:
    """Stress = yield + consistency * rate**index, [Pa], [Pa s^n], [-].

    Index 1 is a Bingham fluid, a yield of 0 a power-law fluid, both a Newtonian one.
    """

    yield_stress: float
    consistency: float
    index: float = 1.0

    def __post_init__(self) -> None:
        require_range("Yield stress", self.yield_stress, 0.0, 200.0, "Pa")
        require_range("Consistency", self.consistency, 0.000_1, 100.0, "Pa s^n")
        require_range("Flow index", self.index, 0.1, 1.5, "")

    def stress(self, rate: float) -> float:
        """Return the shear stress at a shear rate, [Pa]."""
        sheared: float = self.consistency * rate**self.index
        return self.yield_stress + sheared

    def slope(self) -> float:
        """Return the index that the readings at 600 and 300 rpm alone would give."""
        fast, slow = self.stress(600 * RATE_PER_RPM), self.stress(300 * RATE_PER_RPM)
        return log2(fast / slow)
