"""Keys taken in turn: what one key began is done before the next one is looked at.

A scanner, a held-up line, or a person ahead of a busy machine sends keys faster than the focus
moves. Without turns the first digits of a joint number would be lost on the way to the line they
opened, and the letters of a reason would be taken for acts of the page.
"""

from __future__ import annotations

import asyncio
from collections import deque
from time import monotonic
from typing import ClassVar

from textual.app import App
from textual.events import Event, Key, Paste
from textual.screen import ModalScreen
from textual.widgets import Input

TICK = 0.001
"""How long to wait before looking again whether all is done, [s]."""
QUIET_TICKS = 2
PATIENCE = 2.0
"""How long a key waits for what the one before it began, [s]."""
ACT = "act"
"""The group of workers that do what a key asked for."""


class KeysInTurn(App[None]):
    """An app that takes up a key or a paste once the one before it has had its effect."""

    WATCHES: ClassVar[bool] = False
    """Whether it only looks, so that a dialog names no act."""

    def __init__(self) -> None:
        super().__init__()
        self._ahead: deque[Key | Paste] = deque()
        self._last_taken = 0.0
        self._typing = False

    @property
    def acting(self) -> bool:
        """Whether an act is under way; it may be waiting for a dialog."""
        return any(worker.group == ACT and not worker.is_finished for worker in self.workers)

    async def on_event(self, event: Event) -> None:
        """Take a key up, or put it behind those that came before it."""
        if not isinstance(event, Key | Paste) or event.is_forwarded:
            await super().on_event(event)
        elif not self._ahead and (self._goes_on_typing(event) or self._is_settled()):
            await self._take(event)
        else:
            self._ahead.append(event)
            if len(self._ahead) == 1:
                self.run_worker(self._catch_up(), group="keys")

    async def _take(self, event: Key | Paste) -> None:
        self._last_taken = monotonic()
        self._typing = self._is_text(event)
        await super().on_event(event)

    async def _catch_up(self) -> None:
        """Take up what waits, one by one."""
        while self._ahead:
            if not self._goes_on_typing(self._ahead[0]):
                await self._settle()
            await self._take(self._ahead[0])
            self._ahead.popleft()

    async def _settle(self) -> None:
        deadline = monotonic() + PATIENCE
        quiet = 0
        while quiet < QUIET_TICKS and monotonic() < deadline:
            await asyncio.sleep(TICK)
            quiet = quiet + 1 if self._is_quiet() else 0

    def _is_settled(self) -> bool:
        """Tell whether the key before has certainly had its effect."""
        return monotonic() - self._last_taken > TICK * QUIET_TICKS * 2 and self._is_quiet()

    def _is_quiet(self) -> bool:
        """Tell whether nothing waits to be handled and a screen is there to take a key."""
        screen = self.screen
        if self.acting and not isinstance(screen, ModalScreen):
            return False
        if not screen.is_mounted or (screen.AUTO_FOCUS and screen.focused is None):
            return False
        return not any(
            pump.message_queue_size for pump in (self, *screen.walk_children(with_self=True))
        )

    def _goes_on_typing(self, event: Key | Paste) -> bool:
        """Tell whether a character follows another into the same field: nothing else can move."""
        return self._typing and self._is_text(event)

    def _is_text(self, event: Key | Paste) -> bool:
        """Tell whether a key only adds a character to the field that has the focus."""
        return isinstance(event, Key) and event.is_printable and isinstance(self.focused, Input)
