"""Somebody at the keys of the real program."""

from __future__ import annotations

import re
from decimal import Decimal

from tests.drive.terminal import Terminal

FORM_FOOT = "Enter next, on the last field"
"""What every form shows in its last row."""
PAGES = {
    "f2": "last entry",
    "f3": "is due",
    "f5": "Mud conditioning: 0 of 15",
    "f6": "Rig-up: 0 of 12",
    "f7": "NOT FINAL",
    "f8": "CALCULATIONS",
    "f4": "TO GO",
}
"""What tells a page from the others, by its key, in the demonstration while the string is run;
the page of the start comes last."""


class Floor:
    """Types into a program and waits for what the screen says."""

    def __init__(self, terminal: Terminal) -> None:
        self.terminal = terminal

    def says(self, wanted: str | re.Pattern[str]) -> re.Match[str]:
        """Wait for a text or a pattern on the screen."""
        return self.terminal.wait_for(wanted)

    def saves(self, what: str, *keys: str, typed: str = "") -> None:
        """Type and press; wait until the screen says that this is saved."""
        self.terminal.type(typed)
        self.terminal.press(*keys)
        self.says(re.compile(rf"saved \d\d:\d\d  {re.escape(what)}"))

    def asks(self, key: str, title: str) -> None:
        """Press a key and wait for the form that it opens."""
        self.terminal.press(key)
        self.says(title)

    def fills(self, *answers: str) -> None:
        """Answer the fields of a form, each with Enter."""
        for answer in answers:
            self.terminal.type(answer)
            self.terminal.press("enter")

    def works(self, *answers: str) -> None:
        """Do the step that NEXT names with the key that it names, and wait for its form to go."""
        key = self.says(re.compile(r"NEXT  (Enter|\w)  "))[1]
        self.asks(key.lower(), FORM_FOOT)
        self.fills(*answers)
        self.terminal.wait_gone(FORM_FOOT)

    def becomes(self, name: str) -> None:
        """Change who is at the keys."""
        self.asks("w", "Who is at the keys")
        self.fills(name)
        self.says(f"{name} is at the keys")

    def figure(self, pattern: str) -> Decimal:
        """Return the number on the screen that a pattern finds."""
        return Decimal(self.says(re.compile(pattern))[1].replace(",", ""))
