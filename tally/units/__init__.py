"""Numbers in and out: typed text to exact SI, SI to text, lengths as whole steps."""

from tally.units.factors import factor, from_unit, to_unit
from tally.units.quantities import QUANTITIES, known_units
from tally.units.reading import Measure, read, read_exact
from tally.units.sets import FIELD, METRIC, Shown, UnitSet, unit_set
from tally.units.steps import TallyStep, tally_step
from tally.units.text import clean, shown

__all__ = [
    "FIELD",
    "METRIC",
    "QUANTITIES",
    "Measure",
    "Shown",
    "TallyStep",
    "UnitSet",
    "clean",
    "factor",
    "from_unit",
    "known_units",
    "read",
    "read_exact",
    "shown",
    "tally_step",
    "to_unit",
    "unit_set",
]
