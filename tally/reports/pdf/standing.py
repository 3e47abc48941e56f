"""What every page must say of a document: that it is not final, and what is open in it."""

from __future__ import annotations

from tally.job.unfinished import unfinished
from tally.reports.final_tally import FinalTally
from tally.reports.signed import UNSIGNED


def of_tally(tally: FinalTally) -> str:
    """Return what stands at the head of each page of the tally."""
    if not tally.final:
        return "NOT FINAL: the string is not on depth; depths rest on the usual stick-up."
    return _open(tally)


def of_report(tally: FinalTally) -> str:
    """Return what stands at the head of each page of the casing and cementing report."""
    return unfinished_report(tally) or _open(tally)


def unfinished_tally(tally: FinalTally) -> str:
    """Return why the tally cannot be signed yet, or nothing."""
    return "" if tally.final else "NOT FINAL: do not sign as the final tally."


def unfinished_report(tally: FinalTally) -> str:
    """Return why the report cannot be signed yet, or nothing."""
    lacks = unfinished(tally.job, "report")
    return f"NOT FINAL: {lacks}." if lacks else ""


def _open(tally: FinalTally) -> str:
    still = sum(1 for one in tally.exceptions if not one.closed_by)
    more = f" Exceptions still open: {still}." if still else ""
    return UNSIGNED + more
