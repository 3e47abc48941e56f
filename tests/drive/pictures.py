"""Draw the pictures of the README: python -m tests.drive.pictures screens/pictures [--png].

Each page in PAGES is run, brought to its state by keys and saved as an SVG picture. SVG and not
PNG, because it is text (the difference between two versions can be read and a test can tell
whether a picture is of the screen as it is now), it is sharp at any size, a tenth as large, and
needs no tool but Textual. Textual's own picture asks a web server for its font; here the font is
one that the reader's machine has, and every word is placed at its column, so that the columns
stand in any font of equal width. With --png each picture is also drawn by rsvg-convert (Debian:
librsvg2-bin) for looking at.
"""

from __future__ import annotations

import argparse
import asyncio
import html
import re
import shutil
import subprocess
import sys
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from pathlib import Path
from secrets import token_hex
from tempfile import TemporaryDirectory
from typing import Any

from rich.cells import cell_len
from textual.app import App
from textual.pilot import Pilot

from tally.book.book import Book
from tests.screens.demo_books import app_at, at, up_to
from tests.screens.snapshots import still

FONT = "'DejaVu Sans Mono', 'Liberation Mono', Menlo, Consolas, monospace"

FONT_SIZE = "20.27px"
"""At this size a letter of the first font is as wide as a cell (12.2), in any viewer."""

_WEB_FONT = re.compile(r"\s*@font-face \{[^}]*\}")
_FAMILY = re.compile(r"font-family: [^;]*;")
_CLIP = re.compile(r'(clip-terminal">\s*<rect x="0" y="0" width="[\d.]+" height=")([\d.]+)')
_TEXT = re.compile(
    r'<text class="(?P<look>[^"]*)" x="(?P<x>[^"]*)" y="(?P<y>[^"]*)" '
    r'textLength="(?P<length>[^"]*)" clip-path="(?P<clip>[^"]*)">(?P<words>[^<]*)</text>'
)
_GROUP = re.compile("[^\u00a0]+(?:\u00a0[^\u00a0]+)*")


@dataclass(frozen=True, slots=True)
class Page:
    """One picture: how to make the app, which keys bring it to its state, size and theme."""

    name: str
    make: Callable[[], App[Any]]
    keys: tuple[str, ...] = ()
    size: tuple[int, int] = (80, 24)
    theme: str | None = None
    before: Callable[[Pilot[Any]], Awaitable[None]] | None = None
    """What else is done after the keys."""


PICTURES = Path(__file__).parents[2] / "screens" / "pictures"
_BOOKS = TemporaryDirectory(prefix="pictures-")


def _demo(page: str, clock: str) -> Callable[[], App[Any]]:
    """Return what makes the app on the demonstration's book at a moment of its second day."""

    def make() -> App[Any]:
        now = at(clock)
        path = Path(_BOOKS.name) / f"{page}-{clock}-{token_hex(4)}.book"
        return app_at(Book.create(path, up_to(now)), page, now)

    return make


PAGES: list[Page] = [
    Page("running-night", _demo("run", "03:12:00")),
    Page("running-day", _demo("run", "03:12:00"), size=(132, 40), theme="day"),
    Page("plugs-night", _demo("plugs", "17:41:20")),
    Page("rack-day", _demo("rack", "03:12:00"), theme="day"),
]
"""The pictures of the README; the wide one shows the large digits and the volumes."""


async def svg(page: Page) -> str:
    """Run the page's app to its state and return its picture."""
    app = page.make()
    async with app.run_test(size=page.size) as pilot:
        await still(pilot)
        await pilot.press(*page.keys)
        if page.before is not None:
            await page.before(pilot)
        app.theme = page.theme or app.theme
        await still(pilot)
        return without_web_font(app.export_screenshot(title=app.title))


def without_web_font(picture: str) -> str:
    """Replace the web font and place each word of the picture at its own column."""
    picture = _FAMILY.sub(f"font-family: {FONT};", _WEB_FONT.sub("", picture))
    picture = _CLIP.sub(lambda found: f"{found[1]}{float(found[2]) + 4:g}", picture)
    picture = picture.replace("font-size: 20px;", f"font-size: {FONT_SIZE};")
    return _TEXT.sub(_placed_words, picture) + "\n"


def _placed_words(found: re.Match[str]) -> str:
    """Part a row where two or more blanks meet; some viewers lose blanks or stretch them."""
    words = html.unescape(found["words"])
    if not words.strip():
        return ""
    cell = float(found["length"]) / cell_len(words)
    placed = ""
    for group in _GROUP.finditer(words):
        x = float(found["x"]) + cell * cell_len(words[: group.start()])
        length = cell * cell_len(group[0])
        text = html.escape(group[0]).replace("\u00a0", "&#160;")
        placed += (
            f'<text class="{found["look"]}" x="{x:.6g}" y="{found["y"]}" '
            f'textLength="{length:.6g}" clip-path="{found["clip"]}">{text}</text>\n'
        )
    return placed


def draw(pages: list[Page], folder: Path, *, png: bool = False) -> list[Path]:
    """Write the pictures into `folder`; return their paths."""
    folder.mkdir(parents=True, exist_ok=True)
    written = []
    for page in pages:
        path = folder / f"{page.name}.svg"
        path.write_text(asyncio.run(svg(page)), "utf-8")
        written.append(path)
        if png:
            written.append(_png(path))
    return written


def stale(pages: list[Page], folder: Path) -> list[str]:
    """Return the names of the pictures that are missing or not of the screen as it is now."""
    kept = {page.name: folder / f"{page.name}.svg" for page in pages}
    return [
        page.name
        for page in pages
        if not kept[page.name].exists()
        or kept[page.name].read_text("utf-8") != asyncio.run(svg(page))
    ]


def _png(path: Path) -> Path:
    drawn = path.with_suffix(".png")
    subprocess.run(["rsvg-convert", "--zoom", "2", path, "--output", drawn], check=True)
    return drawn


def main() -> int:
    """Draw every page; tell what was written."""
    parser = argparse.ArgumentParser(prog="python -m tests.drive.pictures")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--png", action="store_true", help="also as PNG, by rsvg-convert")
    asked = parser.parse_args()
    if asked.png and not shutil.which("rsvg-convert"):
        parser.error("--png needs rsvg-convert; install librsvg2-bin")
    if not PAGES:
        parser.error("no page is listed in PAGES")
    for path in draw(PAGES, asked.folder, png=asked.png):
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
