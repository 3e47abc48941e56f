"""Whether a smaller report is final, and what its pages say of that: the one place that tells."""

from __future__ import annotations

from tally.reports.final_tally import FinalTally
from tally.reports.signed import UNSIGNED, not_final, still_open

OF_THE_STRING = ("running-list", "trip-sheet", "inventory")
"""Those that are complete with the string on depth; the others want the cementing too."""
OF_A_MOMENT = "handover"
"""It tells how things stand at one moment, and is final once somebody has taken over."""


def standing_of(tally: FinalTally, key: str) -> str:
    """Return what every page says of a report's standing."""
    if key == OF_A_MOMENT:
        return f"As it stood after {tally.entries} entries. {lacking(tally, key)}".rstrip()
    return lacking(tally, key) or UNSIGNED + still_open(tally)


def lacking(tally: FinalTally, key: str) -> str:
    """Return why a report cannot be signed yet, in a sentence, or nothing."""
    if key == OF_A_MOMENT:
        return _not_taken(tally)
    return not_final(tally, "tally" if key in OF_THE_STRING else "report")


def final(tally: FinalTally, key: str) -> bool:
    """Whether nothing is missing any more before a report is signed."""
    return not lacking(tally, key)


def _not_taken(tally: FinalTally) -> str:
    waiting = tally.job.waiting_handover
    if waiting is not None:
        return f"NOT FINAL: {waiting.to} has not taken over yet."
    return "" if tally.job.handovers else "NOT FINAL: nobody has handed over."
