"""What is watched while running: the trip tank and the fill."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.job.entry import Entry, ended, entry_kind
from tally.job.job import Job
from tally.job.running_records import Fill, TankLevel
from tally.job.setup import FILL_SOURCES
from tally.job.stored import measured
from tally.job.tank import tank_question
from tally.job.volumes import capacity, drawn_from_tank, filled, into_tank, over_the_top
from tally.units import Measure

TANK_CHANGES = ("emptied", "filled")
"""What is done to the tank so that it is read anew."""

PLAUSIBLE_OVER = 0.02
"""How far a fill may lie above the room that was calculated before a person is asked: a share."""


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class TankRead(Entry):
    """The trip tank was read; as a mark, it was emptied, filled or read for the first time."""

    KIND = "trip tank read"

    volume: Measure = measured("volume")
    mark: bool = False
    since: str = ""
    """From here on the total starts anew, and this is what it is counted from."""
    how: str = ""
    """Of a mark: emptied or filled."""

    def check(self, job: Job) -> str:
        """Refuse before the job is set up, and a change of level that is no new mark."""
        if job.setup is None:
            return "The job is not set up yet; the trip tank is read after that."
        if self.how and (self.how not in TANK_CHANGES or not self.mark):
            return f"A tank is {' or '.join(TANK_CHANGES)} as a new mark, not '{self.how}'."
        return ""

    def ask(self, job: Job) -> str:
        """Stop where the tank has gained or lost more than its limit."""
        return tank_question(job, self._read(job))

    def apply(self, job: Job) -> Job:
        """Keep the level; a gain or loss that was given a reason stays in sight."""
        after = self._read(job)
        question = tank_question(job, after) if self.despite else ""
        if not question:
            return after
        what = f"{question} Entered all the same: {ended(self.despite)}"
        return after.with_exception(self.seq, what, self.by, self.at, critical=True)

    def _read(self, job: Job) -> Job:
        """Return the job with the level beside what the string and the fills stood at."""
        level = TankLevel(
            self.seq,
            self.volume,
            self.mark or not job.tank,
            len(job.string),
            into_tank(job),
            drawn_from_tank(job),
            self.at,
            self.since,
        )
        return replace(job, tank=(*job.tank, level))

    def said(self) -> str:
        """Return the entry in words."""
        counted = f", the total counts from {self.since}" if self.since else ""
        mark = f", {self.how}: a new mark" if self.how else ", a new mark" if self.mark else ""
        return f"trip tank {self.volume.text}{mark}{counted}"


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class Filled(Entry):
    """Fluid was put into the pipe; without a volume it was filled to the top."""

    KIND = "filled"

    source: str
    volume: Measure | None = measured("volume", optional=True)

    def check(self, job: Job) -> str:
        """Refuse an unknown source, and a pipe that fills itself."""
        if job.setup is None or not job.string:
            return "Nothing is run yet; there is no pipe to fill."
        if self.source not in FILL_SOURCES:
            return f"'{self.source}' is no source of fill; say {' or '.join(FILL_SOURCES)}."
        if not job.setup.filling.closed_end:
            return "The pipe runs in with an open end and fills itself; no fill is counted."
        return ""

    def ask(self, job: Job) -> str:
        """Ask when more went in than the pipe takes by its size."""
        room = capacity(job) - filled(job)
        if self.volume is None or self.volume.value <= room * (1 + PLAUSIBLE_OVER):
            return ""
        return (
            f"{self.volume.text} is more than the pipe still takes, "
            f"{job.known.shown.show(room, 'volume')}; check the volume."
        )

    def apply(self, job: Job) -> Job:
        """Add the fill; what does not fit ran over."""
        volume = capacity(job) - filled(job) if self.volume is None else self.volume.value
        job = replace(job, fills=(*job.fills, Fill(self.seq, volume, self.source, self.at)))
        return replace(job, spilled=job.spilled + over_the_top(job))

    def said(self) -> str:
        """Return the entry in words."""
        how = "to the top" if self.volume is None else self.volume.text
        return f"filled {how} from the {self.source}"
