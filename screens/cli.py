"""The command line: `shoedown` and its commands. What a command needs, it imports when it runs."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from screens.commands.books import export, new, open_book, verify
from screens.commands.calc import calc
from screens.commands.demo import demo
from screens.commands.figures import figures
from screens.commands.lists import import_list
from screens.commands.refusing import Refusing


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
        click.echo(f"shoedown {release()}")
        ctx.exit()
    if ctx.invoked_subcommand is None:
        ctx.invoke(open_book, book=None, look=False)


def release() -> str:
    """Return the number of this release: as installed, else as the checkout has it."""
    from importlib.metadata import PackageNotFoundError
    from importlib.metadata import version as version_of

    try:
        return version_of("shoedown")
    except PackageNotFoundError:
        return _release_of_checkout()


def _release_of_checkout() -> str:
    import tomllib

    text = (Path(__file__).parent.parent / "pyproject.toml").read_text("utf-8")
    return str(tomllib.loads(text)["project"]["version"])


for command in (open_book, new, import_list, figures, calc, export, verify, demo):
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
