"""A short string run through the real screens, and its depths added up from a plain table.

The lengths stand in tests/drive/strings/*.csv; they are summed here as decimal numbers, with
nothing of the program.
"""

from __future__ import annotations

import csv
import re
import subprocess
import time
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

from tests.drive.floor import FORM_FOOT, Floor
from tests.drive.jobs import SHOEDOWN
from tests.drive.terminal import Terminal
from tests.screens.by_the_lines import added_up, texts_of

STRINGS = Path(__file__).parent / "strings"
AMA, NADIA, TOMAS = "Ama Osei", "N. Haddad", "Tomas Quill"


def made(folder: Path, name: str) -> Path:
    """Make the book of a string as the command line makes it, and return its path."""
    book = folder / f"{name}.book"
    job = STRINGS / f"{name}.toml"
    done = subprocess.run(
        [*SHOEDOWN, "new", book, "--from", job, "--by", AMA], capture_output=True, text=True
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return book


def table(name: str) -> dict[str, Decimal]:
    """Return the length of every joint as the plain list has it."""
    with (STRINGS / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return {row["number"]: Decimal(row["length"]) for row in csv.DictReader(file)}


class Crew(Floor):
    """Somebody at the keys of the running page."""

    def __init__(self, terminal: Terminal) -> None:
        super().__init__(terminal)
        self._last_enter = 0.0

    def enters(self, pause: float = 0.0) -> None:
        """Press Enter, no sooner than so long after the last time.

        Two quick strokes of Enter count as one key that is held down; up comes between them.
        """
        self.terminal.watch(max(0.0, self._last_enter + pause - time.monotonic()))
        self._last_enter = time.monotonic()
        self.terminal.press("up", "enter")

    def runs_as_listed(self, *numbers: str, pause: float = 0.0) -> None:
        """Run items with Enter; each must be the one that is NEXT."""
        for number in numbers:
            self.says(re.compile(rf"NEXT  (joint |the |crossover )?{number}\b"))
            self.enters(pause)
            self.says(re.compile(rf"saved \d\d:\d\d  {number} run"))

    def types(self, text: str, says: str) -> None:
        """Type into the entry line, press Enter, and wait for what the page says."""
        self.terminal.type(text)
        self.terminal.press("enter")
        self.says(says)

    def reasons(self, *answers: str) -> None:
        """Answer the question that the book asks."""
        self.fills(*answers)
        self.terminal.wait_gone(FORM_FOOT)

    def shoe_at(self, depth: Decimal) -> None:
        """Wait until the page shows the shoe at a depth."""
        self.says(f"SHOE AT {depth:,}")

    def exports(self, book: Path) -> Path:
        """Write the final tally from F7, leave the program, and return the folder."""
        self.terminal.press("f7")
        self.says("FINAL CASING TALLY")
        self.asks("e", "Write the final tally")
        self.fills("", "")
        self.says(f"{book.stem}-tally.csv")
        self.terminal.press("escape")
        self.terminal.wait_gone(FORM_FOOT)
        self.terminal.press("f10")
        assert self.terminal.wait_exit() == 0
        return book.with_name(f"{book.stem}-reports")


@dataclass(frozen=True, slots=True)
class Landed:
    """A string as it was run, from the shoe up, and what it must come to."""

    order: tuple[str, ...]
    lengths: dict[str, Decimal]
    stick_up: Decimal
    unit: str

    @property
    def shoe(self) -> Decimal:
        """Return the depth of the shoe."""
        return self.shoe_after(self.order)

    def shoe_after(self, order: tuple[str, ...]) -> Decimal:
        """Return where the shoe is with these items in the string."""
        return sum((self.lengths[number] for number in order), Decimal(0)) - self.stick_up

    @property
    def collar(self) -> Decimal:
        """Return the depth of the collar's bottom: what is under it off the shoe."""
        under = self.order[: self.order.index("collar")]
        return self.shoe - self.shoe_after(under) - self.stick_up

    def agrees_with_the_csv(self, path: Path) -> None:
        """Compare every length, sum and depth of the written tally."""
        with path.open(newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
        assert tuple(row["number"] for row in rows) == self.order
        bottom, to_here = self.shoe, Decimal(0)
        for row in rows:
            length = self.lengths[row["number"]]
            to_here += length
            assert self._read(row) == [length, to_here, bottom - length, bottom], row
            bottom -= length
        (collar,) = [row for row in rows if row["kind"] == "collar"]
        assert Decimal(collar[f"bottom_depth_{self.unit}"]) == self.collar

    def _read(self, row: dict[str, str]) -> list[Decimal]:
        names = ("length", "cumulative_length", "top_depth", "bottom_depth")
        return [Decimal(row[f"{name}_{self.unit}"]) for name in names]

    def agrees_with_the_journal(self, book: Path, **joints: int) -> None:
        """Add the stored lines up a second way; `joints`: how many stand laid down, on rack."""
        paper = added_up(texts_of(book))
        places = {"ft": 2, "mm": 0}[self.unit]
        assert tuple(paper.string) == self.order
        assert Decimal(paper.shoe).scaleb(-places) == self.shoe
        for state, count in joints.items():
            assert paper.joints(state.replace("_", " "))[0] == count, state

    def verifies(self, book: Path) -> None:
        """Let the command line verify the book."""
        done = subprocess.run([*SHOEDOWN, "verify", book], capture_output=True, text=True)
        assert done.returncode == 0, done.stdout + done.stderr
        assert "The chain holds" in done.stdout
