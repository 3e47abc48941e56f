"""Pictures of screens as text, compared with the ones kept in the folder beside this file.

    async def test_running_page(snapshot):
        await snapshot(make_app(), "running", themes=("day", "night"), press=["f4"])

A picture holds the rows of the screen, then a letter for the look of each cell, then what each
letter means. A missing picture fails; `pytest --update-snapshots` writes them, never in CI.
"""

from __future__ import annotations

import difflib
import string
from collections.abc import Awaitable, Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

from textual.app import App
from textual.pilot import Pilot

from tests.screens.cells import Cell, Look, cells

FOLDER = Path(__file__).parent / "snapshots"
_LETTERS = string.ascii_lowercase + string.ascii_uppercase + string.digits
_PARTS = "-" * 8


class Snapshots:
    """Compare screens with the pictures kept in `folder`, or write them when `update` is set."""

    def __init__(self, folder: Path = FOLDER, *, update: bool = False) -> None:
        self.folder = folder
        self.update = update
        self.written: list[Path] = []

    async def __call__(
        self,
        app: App[Any],
        name: str,
        *,
        size: tuple[int, int] = (80, 24),
        themes: Iterable[str] = (),
        press: Sequence[str] = (),
        before: Callable[[Pilot[Any]], Awaitable[None]] | None = None,
    ) -> None:
        """Run `app` at a size, press keys, await `before`, and check it in each theme.

        Without `themes` the theme that the app starts with is checked.
        """
        async with app.run_test(size=size) as pilot:
            await still(pilot)
            await pilot.press(*press)
            if before is not None:
                await before(pilot)
            faults = [await self._fault(pilot, name, theme) for theme in themes or (app.theme,)]
        _raise(faults)

    async def check(self, pilot: Pilot[Any], name: str, theme: str | None = None) -> None:
        """Check the screen of an app that a test is running, in the theme if one is given."""
        _raise([await self._fault(pilot, name, theme or pilot.app.theme)])

    async def _fault(self, pilot: Pilot[Any], name: str, theme: str) -> str:
        """Return what is wrong with the picture in this theme, "" when it agrees."""
        pilot.app.theme = theme
        await still(pilot)
        columns, rows = pilot.app.size
        path = self.folder / f"{name}-{columns}x{rows}-{theme}.txt"
        made = picture(pilot.app, f"{name}  {columns}x{rows}  {theme}")
        if self.update:
            self._write(path, made)
        return difference(path, made)

    def _write(self, path: Path, made: str) -> None:
        if not path.exists() or path.read_text("utf-8") != made:
            path.parent.mkdir(exist_ok=True)
            path.write_text(made, "utf-8")
            self.written.append(path)


async def still(pilot: Pilot[Any]) -> None:
    """Stop blinking cursors and animations and wait until everything asked for is drawn."""
    pilot.app.animation_level = "none"
    for widget in pilot.app.screen.walk_children():
        if hasattr(widget, "cursor_blink"):
            widget.cursor_blink = False
    await pilot.pause()
    await pilot.pause()


def picture(app: App[Any], title: str) -> str:
    """Return the screen that `app` now shows: title, rows, looks, legend."""
    rows = cells(app)
    letters: dict[Look, str] = {}
    shown = ["".join(cell.text for cell in row).rstrip() for row in rows]
    looks = [_letters_of(row, letters) for row in rows]
    legend = [f"{letter}  {_said(look)}" for look, letter in letters.items()]
    return "\n".join([title, _PARTS, *shown, _PARTS, *looks, _PARTS, *legend, ""])


def difference(path: Path, made: str) -> str:
    """Return how a picture differs from the one kept at `path`, "" when they are the same."""
    if not path.exists():
        return f"{path} is missing. Look at the screen, then run pytest --update-snapshots.\n{made}"
    kept = path.read_text("utf-8")
    if kept == made:
        return ""
    lines = difflib.unified_diff(
        kept.splitlines(), made.splitlines(), f"kept {path.name}", "screen now", n=1, lineterm=""
    )
    return f"The screen differs from {path}:\n" + "\n".join(lines)


def _letters_of(row: list[Cell], letters: dict[Look, str]) -> str:
    """Return the letter of each cell's look; the ink of a blank does not count."""
    line = ""
    last: Look | None = None
    for cell in row:
        look = _seen(cell, last)
        if look not in letters:
            letters[look] = _LETTERS[len(letters)]
        line += letters[look]
        last = look
    return line


def _seen(cell: Cell, last: Look | None) -> Look:
    if not cell.blank:
        return cell.look
    if last is not None and last.background == cell.look.background:
        return last
    return Look("", cell.look.background)


def _said(look: Look) -> str:
    return " ".join(filter(None, [look.foreground or "blank", "on", look.background, *look.marks]))


def _raise(faults: list[str]) -> None:
    __tracebackhide__ = True
    if found := [fault for fault in faults if fault]:
        raise AssertionError("\n\n".join(found))
