"""The command that only looks at a book while others write it, on this screen or in a browser."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from screens.commands.books import BOOK, on_a_terminal
from tally.errors import ShoedownError


@click.command()
@click.argument("book", type=BOOK)
@click.option("--browser", is_flag=True, help="Show it in a browser of this machine instead.")
@click.option(
    "--port",
    type=click.IntRange(1024, 65535),
    default=8000,
    show_default=True,
    help="Port of this machine for --browser.",
)
def watch(book: Path, browser: bool, port: int) -> None:
    """Look at BOOK while others write it; nothing can be entered."""
    from tally.book.book import Book

    if browser:
        with Book.open(book, look_only=True):
            pass
        _serve(book, port)
        return
    if not on_a_terminal():
        raise ShoedownError(
            "`watch` needs a terminal; `watch --browser` and `figures` work without one."
        )
    from screens.watching import WatchingApp

    with Book.open(book, look_only=True) as opened:
        app = WatchingApp(opened)
        app.run()
    if app.return_code:
        sys.exit(app.return_code)


def _serve(book: Path, port: int) -> None:
    try:
        from screens.browser.server import serve
    except ModuleNotFoundError as missing:
        if (missing.name or "").partition(".")[0] not in WANTED:
            raise
        raise ShoedownError(
            "The view in a browser wants the extra package: pip install 'shoedown[browser]'. "
            "`shoedown watch BOOK` in a terminal works without it."
        ) from missing
    serve(book, port)


WANTED = ("textual_serve", "aiohttp", "aiohttp_jinja2", "jinja2")
"""What the extra package brings; without one of them there is no view in a browser."""
