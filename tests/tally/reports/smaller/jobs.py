"""Jobs for the tests of the smaller reports: with something of everything that is kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import cache

from tally.job.entries.handing_over import HandedOver
from tally.job.entries.people import PersonAdded
from tally.job.entries.records import CalibrationNoted, NoticeGiven, PressureTested, TimeLost
from tally.job.entry import Entry
from tally.job.fold import fold
from tally.reports.final_tally import FinalTally, final_tally
from tally.reports.sheet import Sheet
from tally.reports.smaller.every import SMALLER
from tally.units import read
from tests.tally.reports.jobs import HEAD, entries

Job = tuple[FinalTally, Sequence[Entry]]
AT = "2026-03-02T01:10:00+01:00"


def kept(text: str = "", by: str = "Ama") -> list[Entry]:
    """Return an entry of each kind that is kept beside the work; texts begin with the text."""
    who = {"by": f"{text}{by}", "at": AT}
    return [
        PersonAdded(name=f"{text}Nils", role="driller", **who),
        NoticeGiven(
            to=f"{text}district office",
            about=f"{text}cementing",
            means=f"{text}telephone",
            given=f"{text}Nils",
            when=f"{text}1 March at noon",
            answer=f"{text}no. 7",
            **who,
        ),
        CalibrationNoted(
            what=f"{text}pump gauge",
            serial=f"{text}G7",
            day="2026-01-31",
            due="2026-02-28",
            done_by=f"{text}shop",
            note=f"{text}sticker",
            despite=f"{text}no other",
            **who,
        ),
        TimeLost(cause=f"{text}pump", time=read("30 min", "time"), note=f"{text}liner", **who),
        PressureTested(
            what=f"{text}casing",
            pressure=read("1500 psi", "pressure"),
            time=read("30 min", "time"),
            ended=read("1455 psi", "pressure"),
            held=False,
            device=f"{text}chart",
            note=f"{text}a union leaks",
            **who,
        ),
        HandedOver(to=f"{text}Nils", watch=f"{text}the trip tank", **who),
    ]


@cache
def job(text: str = "", unit: str = "ft") -> Job:
    """Return a short job with something of everything, and its entries."""
    said = entries(text, unit)
    said += [replace(one, seq=len(said) + n) for n, one in enumerate(kept(text), start=1)]
    return final_tally(fold(said), said, (len(said), HEAD)), tuple(said)


def sheets(of: Job) -> dict[str, Sheet]:
    """Return every smaller report of a job by its word."""
    tally, said = of
    return {one.key: one.sheet(tally, said) for one in SMALLER}
