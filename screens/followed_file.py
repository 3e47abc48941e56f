"""A pump file that is followed while the book is on the screen: read in a thread, kept in the book.

The thread reads and works out what the page will show; the book and the page are touched by the
loop of the app only.
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING, Any

from textual.app import ScreenStackError
from textual.css.query import NoMatches

from tally.errors import EntryRefused, ShoedownError
from tally.feeds.following import Batch, Brought, Following, LastRow
from tally.job.entries.following import FileLeft
from tally.job.entries.pumping import Pumped
from tally.job.entries.readings import Readings
from tally.job.figures import figure
from tally.job.followed_file import FollowedFile
from tally.job.job import Job, PumpReading
from tally.job.placement import live
from tally.job.with_readings import bumped, with_readings

if TYPE_CHECKING:
    from screens.app import ShoedownApp

LOOK_SECONDS = 1.0
"""How long the file is left alone after its last whole line."""
AGAIN_SECONDS = 2.0
WORK_OUT_SECONDS = 2.0
"""How often the placement is worked out anew from the readings."""
GROUP = "followed file"
NOT_KEPT = "Another program keeps the rows of this file; here they are only shown."


class FileWatch:
    """Follows the file that the job names; holds what the page shows of it."""

    def __init__(self, app: ShoedownApp) -> None:
        self._app = app
        self._file: FollowedFile | None = None
        self._following: Following | None = None
        self._turn = asyncio.Lock()
        self._unsaved: list[Batch] = []
        self._keeps = not app.book.look_only
        self._worked_out = 0.0
        self._readings: tuple[PumpReading, ...] = ()
        self._drawn: tuple[Job, Job] | None = None
        self.last: LastRow | None = None
        self.told = ""
        """The last thing that was wrong with the file."""
        self.doubts: Mapping[str, str] = {}

    @property
    def file(self) -> FollowedFile | None:
        """The file that is followed here."""
        return self._file

    def begin(self) -> None:
        """Follow the file that the job names, if it names one."""
        self._file = self._app.job.followed
        self._following, self._drawn, self._readings = None, None, ()
        self.last, self.told, self.doubts = None, "", {}
        self._unsaved = []
        if self._file is not None:
            self._app.run_worker(self._follow(self._file), group=GROUP, exclusive=True)

    def with_readings(self, job: Job) -> Job:
        """Return the job with the readings of the file, for the page."""
        if not self._readings:
            return job
        if self._drawn is None or self._drawn[0] is not job:
            self._drawn = (job, with_readings(job, self._readings))
        return self._drawn[1]

    async def leave(self) -> None:
        """Take in what was read so far, and look at the file no more."""
        following, self._file = self._following, None
        if following is not None:
            async with self._turn:
                now, job = self._app.now(), self._app.job
                self._take(await asyncio.to_thread(following.look, now, job, whole=True))

    async def _follow(self, file: FollowedFile) -> None:
        following = await self._opened(file)
        while following is not None and self._file is file:
            async with self._turn:
                job = self._app.job
                brought, drawn = await asyncio.to_thread(self._look, following, job)
            if self._file is not file:
                return
            if drawn is not None:
                self._readings, self._drawn = brought.readings, (job, drawn)
            self._take(brought)
            self._draw()
            if brought.ended:
                self._end(file, brought.ended)
                return
            await asyncio.sleep(0 if brought.more else LOOK_SECONDS)

    async def _opened(self, file: FollowedFile) -> Following | None:
        """Return the file, ready to be read on; one that is not there now is tried again."""
        while self._file is file:
            try:
                self._following = await asyncio.to_thread(self._ready, file, self._app.job)
                return self._following
            except ShoedownError as fault:
                self.told = str(fault)
                self._draw()
                await asyncio.sleep(AGAIN_SECONDS)
        return None

    def _ready(self, file: FollowedFile, job: Job) -> Following:
        upto = job.read_up_to.get(file.path)
        named_since = upto is None or file.seq > upto.seq
        return Following(
            Path(file.path),
            file.asked,
            job.known.shown,
            since=upto,
            anew=named_since,
            now=self._app.now(),
        )

    def _look(self, following: Following, job: Job) -> tuple[Brought, Job | None]:
        """Read on, and work out what the page will ask for: this runs in the thread."""
        brought = following.look(self._app.now(), job)
        new = brought.readings is not self._readings and not brought.more
        if not new or (bumped(job) and self._readings):
            return brought, None
        if monotonic() - self._worked_out < WORK_OUT_SECONDS:
            return brought, None
        drawn = with_readings(job, brought.readings)
        if drawn is not job:
            with suppress(ShoedownError):
                live(drawn)
            figure(drawn, "bump_seen")
        self._worked_out = monotonic()
        return brought, drawn

    def _take(self, brought: Brought) -> None:
        """Keep what came in the book, and what is told for the page."""
        self.last = brought.last or self.last
        self.doubts = brought.doubts
        if brought.told:
            self.told = brought.told[-1]
        self._unsaved += brought.batches
        try:
            while self._unsaved and self._keeps:
                self._keep(self._unsaved[0])
                del self._unsaved[0]
        except ShoedownError as fault:
            self.told = str(fault)
        for fields in brought.due if self._keeps else ():
            self._count(fields)

    def _keep(self, batch: Batch) -> None:
        if any(
            isinstance(one, Readings) and one.sha256 == batch.fields["sha256"]
            for one in self._app.book.entries[-5:]
        ):
            return  # the disk did not confirm it, and it is there all the same
        try:
            self._app.book.record(Readings(**self._who(), **batch.fields), batch.payload)
        except EntryRefused:
            self._keeps = False
            self.told = NOT_KEPT
            raise

    def _count(self, fields: Mapping[str, Any]) -> None:
        """Enter a reading as a person would; what the book asks about is told, not answered."""
        who = self._who() | {"at": fields["at"]}
        try:
            self._app.book.record(Pumped(**{**who, **fields}))
        except ShoedownError as fault:
            self.told = f"Not counted: {fault}"

    def _who(self) -> dict[str, Any]:
        followed = self._app.job.followed
        return {"by": followed.by if followed else self._app.who, "at": self._app.now()}

    def _end(self, file: FollowedFile, why: str) -> None:
        self._file, self.told = None, why
        if self._keeps:
            try:
                self._app.book.record(FileLeft(**self._who(), reason=why))
            except ShoedownError as fault:
                self.told = f"{why} {fault}"
        self._draw()

    def _draw(self) -> None:
        from screens.pages.plugs import PlugsPage  # read in when somebody turns to it

        with suppress(ScreenStackError, NoMatches):  # the app is being left
            if isinstance(self._app.screen, PlugsPage):
                self._app.screen.draw()
