"""The command that shows the demonstration: on the screen, or played to the end and printed."""

from __future__ import annotations

from pathlib import Path
from time import sleep

import click

from screens.commands.books import BOOK, on_a_terminal, show
from screens.commands.figures import say_figures
from screens.commands.telling import say, say_path
from tally.errors import BookError, ShoedownError
from tally.reports.guard import visible


@click.command()
@click.option("--book", "path", type=BOOK, help="Where to make the book; no file may be there.")
@click.option("--print", "to_the_end", is_flag=True, help="Play the job to its end and print it.")
@click.option("--live", is_flag=True, help="Let the job go on by itself, its rig sending readings.")
@click.option(
    "--send",
    type=click.IntRange(1, 65535),
    help="Only send the rig's readings, at this port of this machine, to practise on.",
)
@click.option(
    "--speed",
    type=click.FloatRange(1, 600),
    default=60.0,
    show_default=True,
    help="How many times quicker than the clock --live and --send play.",
)
def demo(path: Path | None, to_the_end: bool, live: bool, send: int | None, speed: float) -> None:
    """Show an invented job with a third of its string run, or print all of it.

    Without a terminal it prints. Without --book the book lies in a fresh temporary folder.
    """
    if send is not None:
        _send(send, speed)
        return
    book = _place(path)
    if live and not to_the_end:
        _live(book, speed)
        return
    if to_the_end or not on_a_terminal():
        _print(book)
        return
    from demo_db.play import play

    play(book, until="third")
    show(book)
    say_path("The demonstration's book:", book)


def _live(book: Path, speed: float) -> None:
    if not on_a_terminal():
        raise ShoedownError("The screens need a terminal; --send sends the readings without one.")
    from screens.live_demo import run_live

    run_live(book, speed)
    say_path("The demonstration's book:", book)


def _send(port: int, speed: float) -> None:
    """Send what the rig measured from the moment that the demonstration opens at, to its end."""
    from demo_db.play import MOMENTS
    from demo_db.rig_data import RigData
    from demo_db.sender import RigSender
    from tally.job.entry import moment

    try:
        sender = RigSender(RigData(), moment(MOMENTS["third"]), speed=speed, port=port)
    except OSError as fault:
        raise ShoedownError(f"Nothing can be sent at port {port}: {fault.strerror}.") from None
    say(f"The rig sends at 127.0.0.1:{sender.port}, field units; ctrl+c ends it.")
    sender.begin()
    try:
        while not sender.over:
            sleep(0.25)
    finally:
        sender.end()


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
