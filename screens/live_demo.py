"""The demonstration moving by itself: a rig that sends, and the acts of the invented crew."""

from __future__ import annotations

from collections import deque
from contextlib import suppress
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from textual.app import ScreenStackError

from demo_db.by_the_rig import by_the_rig
from demo_db.happenings import Row, entry_of
from demo_db.play import MOMENTS, acts_after, play
from demo_db.rig_data import RigData
from demo_db.sender import LOOPBACK, RigSender
from screens.app import ShoedownApp
from screens.rig import Rig
from tally.book.book import Book
from tally.errors import EntryRefused, ShoedownError
from tally.feeds.rig_values import LIVE_SECONDS
from tally.job.entries.running import ItemRun
from tally.job.entry import clock, moment

if TYPE_CHECKING:
    from tally.job.entry import Entry

LOOK_SECONDS = 0.2
LATE = 15.0
"""[s] of the job after its time that an act is entered, while the gauges still stand."""
OLDEST = 20.0
"""[s] of the job that a reading may be old for the crew's act."""
A_PAINT = 1.5
"""[s] of a real clock for which a reading is shown; the job's clock is quicker."""


class LiveDemo:
    """Plays the crew on a book that is open on the screen."""

    def __init__(self, app: ShoedownApp, sender: RigSender) -> None:
        self._app, self._sender = app, sender
        self._acts = deque(acts_after("third"))

    def begin(self) -> None:
        """Connect the rig and begin to act."""
        self._sender.begin()
        address = f"{LOOPBACK}:{self._sender.port}"
        self._app.rig = Rig(
            self._app,
            address,
            "field",
            steady=self._sender.seconds,
            now=self._sender.now,
            live_seconds=max(LIVE_SECONDS, A_PAINT * self._sender.speed),
        )
        self._app.rig.begin()
        self._app.set_interval(LOOK_SECONDS, self.act)

    def act(self) -> None:
        """Enter what the crew has done by now."""
        if self._app.rig is not None:
            self._app.rig.take()
        upto = self._sender.now() - timedelta(seconds=LATE)
        while self._acts and moment(self._acts[0]["at"]) <= upto:
            self._enter(self._acts.popleft())

    def _enter(self, row: Row) -> None:
        app, rig = self._app, self._app.rig
        with suppress(ShoedownError):  # somebody who practises may have done it already
            typed = entry_of(row, app.job, app.book.entries)
            fresh = rig is not None and rig.watch.age is not None and rig.watch.age <= OLDEST
            entry = by_the_rig(typed, rig.offer) if rig is not None and fresh else typed
            down = rig.lowered() if rig is not None else None
            if isinstance(typed, ItemRun) and down is not None and down.item.number == typed.number:
                entry = replace(typed, **down.told)
            try:
                app.record(entry)
            except EntryRefused:
                entry = typed  # what was read a little late is asked about; the crew typed this
                app.record(entry)
            self._told(entry)

    def _told(self, entry: Entry) -> None:
        from screens.pages.page import Page

        with suppress(ScreenStackError):  # the app is being left
            if isinstance(self._app.screen, Page):
                told = entry.worded(self._app.job)
                self._app.screen.saved(f"saved {clock(entry.at)}  {entry.by}: {told}")


def run_live(path: Path, speed: float) -> None:
    """Make the book of the demonstration, a third run, and let the job go on by itself."""
    play(path, until="third")
    rig = RigData()
    with Book.open(path) as book:
        sender = RigSender(rig, moment(MOMENTS["third"]), speed=speed)

        def now() -> str:
            return sender.now().isoformat(timespec="seconds")

        app = ShoedownApp(book, now=now)
        app.at_start = LiveDemo(app, sender).begin
        try:
            app.run()
        finally:
            sender.end()
