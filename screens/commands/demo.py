"""The command that shows the demonstration: on the screen, or played to the end and printed."""

from __future__ import annotations

from pathlib import Path

import click

from screens.commands.books import BOOK, on_a_terminal, show
from screens.commands.figures import say_figures
from screens.commands.telling import say, say_path
from tally.errors import BookError
from tally.reports.guard import visible


@click.command()
@click.option("--book", "path", type=BOOK, help="Where to make the book; no file may be there.")
@click.option("--print", "to_the_end", is_flag=True, help="Play the job to its end and print it.")
def demo(path: Path | None, to_the_end: bool) -> None:
    """Show an invented job with a third of its string run, or print all of it.

    Without a terminal it prints. Without --book the book lies in a fresh temporary folder.
    """
    book = _place(path)
    if to_the_end or not on_a_terminal():
        _print(book)
        return
    from demo_db.play import play

    play(book, until="third")
    show(book)
    say_path("The demonstration's book:", book)


def _place(path: Path | None) -> Path:
    if path is None:
        from tempfile import mkdtemp

        return Path(mkdtemp(prefix="shoedown-demo-")) / "demo.db"
    if path.exists() or path.is_symlink():
        raise BookError(
            f"There is a file at {visible(str(path))} already; the demonstration makes a book of "
            "its own. Name a path that is free."
        )
    return path.absolute()


def _print(path: Path) -> None:
    from demo_db.play import FOLDER, play
    from tally.book.book import Book
    from tally.reports.export import export
    from tally.reports.final_tally import final_tally
    from tally.reports.tally_text import tally_text

    play(path)
    with Book.open(path, look_only=True) as book:
        written = export(book, path.parent / f"{path.stem}-reports")
        click.echo(tally_text(final_tally(book.job, book.entries, book.head)), nl=False)
        say("")
        say_figures(book.job)
    say("")
    say_path("Played from the files in:", FOLDER)
    say_path("Book:", path)
    for one in written:
        say_path("Written:", one)
