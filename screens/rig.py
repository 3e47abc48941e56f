"""The rig's stream while the book is on the screen: taken in, told on a line, kept in the book."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from time import monotonic
from typing import TYPE_CHECKING

from textual.app import ScreenStackError

from tally.errors import ShoedownError
from tally.feeds.rig_send import sent_back
from tally.feeds.rig_source import source_at
from tally.feeds.rig_stream import RigStream, wall
from tally.feeds.rig_values import LIVE_SECONDS, chosen_items
from tally.feeds.rig_watch import Down, NoOffer, Offer, RigWatch

if TYPE_CHECKING:
    from textual.timer import Timer

    from screens.app import ShoedownApp

READ_ELSEWHERE = (
    "reads the stream of the rig into this book at another station: it is kept once, and what "
    "comes of it is seen here through the book. Leave it there first (F2, g) to read it here."
)
TAKE_SECONDS = 0.5
SEND_SECONDS = 10.0
"""How often depth and volume are sent back, where that is asked for."""


class Rig:
    """One stream that the app follows."""

    def __init__(
        self,
        app: ShoedownApp,
        address: str,
        units: str,
        items: str = "",
        *,
        send: bool = False,
        steady: Callable[[], float] = monotonic,
        now: Callable[[], datetime] = wall,
        live_seconds: float = LIVE_SECONDS,
    ) -> None:
        self.address, self.units, self.items, self.send = address, units, items, send
        stream = RigStream(source_at(address), units, steady=steady, now=now)
        self.watch = RigWatch(stream, chosen_items(items), steady=steady, live_seconds=live_seconds)
        self.told = ""
        """Why the stream is not kept in the book, or not sent back; empty while it is."""
        self._app = app
        self._timer: Timer | None = None
        self._turns = 0

    def begin(self) -> None:
        """Begin to follow the stream."""
        self.watch.stream.begin()
        self._timer = self._app.set_interval(TAKE_SECONDS, self.take)

    def end(self) -> None:
        """Leave the stream; what came and is not kept yet is kept now."""
        if self._timer is not None:
            self._timer.stop()
        self.watch.stream.end()
        self.watch.take(self._app.job)
        self._keep(all_of_it=True)

    def take(self) -> None:
        """Take in what came, keep what is due, and draw the line."""
        self.watch.take(self._app.job)
        self._keep()
        self._turns += 1
        if self.send and self._turns % round(SEND_SECONDS / TAKE_SECONDS) == 0:
            self._send_back()
        with suppress(ScreenStackError):  # the app is being left
            self._draw()

    def offer(self, *roles: str) -> Offer | NoOffer:
        """Return the first value there is for these uses, or why there is none."""
        shown, job = self._app.job.known.shown, self._app.job
        found = [self.watch.offer(role, shown, job) for role in roles]
        offers = [each for each in found if isinstance(each, Offer)]
        if offers:
            return offers[0]
        whys = [each for each in found if isinstance(each, NoOffer) and each.why]
        return whys[0] if whys else NoOffer()

    def lowered(self) -> Down | None:
        """Return the next item if it was seen going down."""
        return self.watch.lowered(self._app.job)

    def _keep(self, *, all_of_it: bool = False) -> None:
        app = self._app
        if app.book.look_only or app.job.setup is None:
            return
        try:
            for entry, payload in self.watch.batches(app.who, app.now(), all_of_it=all_of_it):
                app.book.record(entry, payload)
            self.told = ""
        except ShoedownError as fault:
            self.told = f"The stream is not kept: {fault}"

    def _send_back(self) -> None:
        text = sent_back(self._app.job, self._app.now(), self.units)
        if text:
            self.told = self.watch.stream.send(text) or self.told

    def _draw(self) -> None:
        from screens.pages.page import Page

        if isinstance(self._app.screen, Page):
            self._app.screen.draw_rig()
