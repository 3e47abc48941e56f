"""The smaller reports by their word: what each is, and how it is made."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib import import_module

from tally.job.entry import Entry
from tally.reports.final_tally import FinalTally
from tally.reports.sheet import Sheet

Make = Callable[[FinalTally], Sheet]


@dataclass(frozen=True, slots=True)
class Smaller:
    """One smaller report: its word, what it is, and where it is made."""

    key: str
    says: str
    made_in: str

    def sheet(self, tally: FinalTally, entries: Sequence[Entry]) -> Sheet:
        """Return the report of a job; the room that makes it is read in now."""
        module, _, name = self.made_in.partition(".")
        make: Callable[..., Sheet] = getattr(import_module(f"tally.reports.smaller.{module}"), name)
        if self.key == RUNNING_LIST:
            from tally.reports.list_lines import listing

            return make(tally, listing(tally.job, entries, (tally.entries, tally.head)))
        return make(tally)


RUNNING_LIST = "running-list"
SMALLER: tuple[Smaller, ...] = (
    Smaller(RUNNING_LIST, "the running list", "on_the_floor.running_list_sheet"),
    Smaller("trip-sheet", "the trip sheet", "on_the_floor.trip_sheet"),
    Smaller("inventory", "inventory and return note", "on_the_floor.inventory_sheet"),
    Smaller("pressure-tests", "the pressure tests", "cementing.pressure_tests_sheet"),
    Smaller("pumping", "pressure and volume as read", "cementing.pumping_sheet"),
    Smaller("mixing-log", "the mixing log", "cementing.mixing_log_sheet"),
    Smaller("times", "the time breakdown", "times.times_sheet"),
    Smaller("notices", "the notices given", "kept.notices_sheet"),
    Smaller("calibrations", "the calibration dates", "kept.calibrations_sheet"),
    Smaller("handover", "the handover", "handover.handover_sheet"),
    Smaller("exceptions", "exceptions, hold points, corrections", "kept.exceptions_sheet"),
)
