"""The section of the text page with the counts that must agree."""

from __future__ import annotations

from tally.job.counts import Share
from tally.reports.final_tally import FinalTally
from tally.reports.page import Column, Lines, Section, headings, rule, wrapped
from tally.reports.text_parts import cells, stacked, who

Counted = tuple[str, Share, str]
"""What was counted, the count with its length, and what is to be said of it."""

NOT_COUNTED = "The joints left on the rack are not counted by a person yet."
_COUNTS = (
    Column("", 34),
    Column("joints", 8, right=True),
    Column("length", 13, right=True),
    Column("", 42),
)


def counts_section(tally: FinalTally) -> Section:
    """Return the counts that must agree, by number and by length."""
    step = tally.setup.step
    sums = (
        stacked(
            *(
                cells(_COUNTS, label, f"{share.count:,}", step.show(share.length), note)
                for label, share, note in group
            ),
            ("",),
        )
        for group in counts(tally)
    )
    lines = stacked(headings(_COUNTS), *sums, _counted(tally))
    return Section((rule(f"COUNTS, lengths in {step.unit}"),), (lines, ("",)))


def counts(tally: FinalTally) -> tuple[tuple[Counted, ...], ...]:
    """Return three sums, each of which adds up as printed."""
    sums = tally.balance
    parts = (sums.run, sums.left, sums.rejected, sums.laid_down)
    return (
        (
            ("received", plus(sums.on_location, tally.sent_away), ""),
            ("less sent away", tally.sent_away, ""),
            ("ON LOCATION", sums.on_location, ""),
        ),
        (
            ("run", sums.run, ""),
            ("left on rack", sums.left, ""),
            ("rejected", sums.rejected, ""),
            ("laid down", sums.laid_down, ""),
            ("ACCOUNTED FOR", plus(*parts), ""),
            ("accounted for less on location", sums.difference, _word(agrees=sums.agrees)),
        ),
        (
            ("joints run", sums.run, ""),
            ("other items of the string", tally.others, "pieces, not joints"),
            ("STRING LENGTH", plus(sums.run, tally.others), "pieces and length"),
        ),
    )


def plus(*shares: Share) -> Share:
    """Return shares added up."""
    return Share(sum(one.count for one in shares), sum(one.length for one in shares))


def _counted(tally: FinalTally) -> Lines:
    by_hand = counted_by_hand(tally)
    if by_hand is None:
        return wrapped(NOT_COUNTED)
    return cells(_COUNTS, by_hand[0], by_hand[1], "", by_hand[2])


def counted_by_hand(tally: FinalTally) -> tuple[str, str, str] | None:
    """Return what a person counted on the rack, and whether it agrees."""
    landing = tally.job.landing
    if landing is None:
        return None
    differs = landing.counted - tally.balance.left.count
    told = _word(agrees=not differs) + (f" ({differs:+d}): {landing.reason}" if differs else "")
    by = f"{who(landing.by, landing.at)}; {told}"
    return "counted on the rack by a person", f"{landing.counted:,}", by


def _word(*, agrees: bool) -> str:
    return "agrees" if agrees else "DOES NOT AGREE"
