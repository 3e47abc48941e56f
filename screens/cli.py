"""The command line: `shoedown` and its commands. What a command needs, it imports when it runs."""

from __future__ import annotations

import sys

import click

from screens.commands.books import backup, export, new, open_book, verify
from screens.commands.calc import calc
from screens.commands.demo import demo
from screens.commands.figures import figures
from screens.commands.gather import gather
from screens.commands.lists import import_list
from screens.commands.refusing import Refusing
from screens.commands.steps import steps
from screens.commands.watch import watch


@click.group(
    cls=Refusing,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)
@click.option("--version", is_flag=True, is_eager=True, help="Print the release and leave.")
@click.pass_context
def cli(ctx: click.Context, version: bool) -> None:
    """Record and calculate the running and cementing of a casing string.

    `shoedown BOOK` opens a book on the screen.
    """
    if version:
        from tally.release import release

        click.echo(f"shoedown {release()}")
        ctx.exit()
    if ctx.invoked_subcommand is None:
        ctx.invoke(open_book)


for command in (
    open_book,
    new,
    import_list,
    figures,
    calc,
    steps,
    export,
    verify,
    backup,
    gather,
    watch,
    demo,
):
    cli.add_command(command)


def main() -> None:
    """Run the command line."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")
    cli(prog_name="shoedown")


if __name__ == "__main__":
    main()
