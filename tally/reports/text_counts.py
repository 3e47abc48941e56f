"""The section of the text page with the counts that must agree."""

from __future__ import annotations

from tally.job.counts import Share
from tally.reports.final_tally import FinalTally
from tally.reports.page import Column, Lines, Section, headings, rule, wrapped
from tally.reports.text_parts import cells, stacked, who

_COUNTS = (
    Column("", 34),
    Column("joints", 8, right=True),
    Column("length", 13, right=True),
    Column("", 42),
)


def counts_section(tally: FinalTally) -> Section:
    """Return the counts that must agree, by number and by length."""
    sums, step = tally.balance, tally.setup.step

    def line(label: str, share: Share, note: str = "") -> Lines:
        return cells(_COUNTS, label, f"{share.count:,}", step.show(share.length), note)

    parts = (sums.run, sums.left, sums.rejected, sums.laid_down)
    lines = stacked(
        headings(_COUNTS),
        line("received", plus(sums.on_location, tally.sent_away)),
        line("less sent away", tally.sent_away),
        line("ON LOCATION", sums.on_location),
        ("",),
        line("run", sums.run),
        line("left on rack", sums.left),
        line("rejected", sums.rejected),
        line("laid down", sums.laid_down),
        line("ACCOUNTED FOR", plus(*parts)),
        line("accounted for less on location", sums.difference, _word(agrees=sums.agrees)),
        ("",),
        line("joints run", sums.run),
        line("other items of the string", tally.others, "pieces, not joints"),
        line("STRING LENGTH", plus(sums.run, tally.others), "pieces and length"),
        ("",),
        _counted(tally),
    )
    return Section((rule(f"COUNTS, lengths in {step.unit}"),), (lines, ("",)))


def plus(*shares: Share) -> Share:
    """Return shares added up."""
    return Share(sum(one.count for one in shares), sum(one.length for one in shares))


def _counted(tally: FinalTally) -> Lines:
    landing = tally.job.landing
    if landing is None:
        return wrapped("The joints left on the rack are not counted by a person yet.")
    left = tally.balance.left.count
    differs = landing.counted - left
    told = _word(agrees=not differs) + (f" ({differs:+d}): {landing.reason}" if differs else "")
    return cells(
        _COUNTS,
        "counted on the rack by a person",
        f"{landing.counted:,}",
        "",
        f"{who(landing.by, landing.at)}; {told}",
    )


def _word(*, agrees: bool) -> str:
    return "agrees" if agrees else "DOES NOT AGREE"
