"""How the command line refuses: one sentence on the error output and exit code 2, no traceback."""

from __future__ import annotations

import sys
from difflib import get_close_matches
from pathlib import Path
from typing import Any

import click

from tally.errors import JobFileError, ShoedownError
from tally.reports.guard import visible
from tally.units import shown

REFUSED = 2
FAULTS = 1
"""What was asked was done, and it found something wrong."""
LONGEST = 1000
"""Characters of a refusal that are printed."""


class Refusing(click.Group):
    """A group of commands that opens a book when it is given one, and refuses in a sentence."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Take a word that is no command for a book to open."""
        if args[0] not in self.commands:
            self._not_even_a_book(args)
            args = ["open", *args]
        return super().resolve_command(ctx, args)

    def _not_even_a_book(self, args: list[str]) -> None:
        path = Path(args[0])
        if len(args) == 1 and (path.suffix or path.name != args[0] or path.exists()):
            return
        near = get_close_matches(args[0], self.commands, 1)
        hint = f'did you mean "{near[0]}"? ' if near else ""
        name = shown(args[0], 60)
        raise click.UsageError(
            f'There is no command or book "{name}": {hint}shoedown --help lists the commands.'
        )

    def main(self, *args: Any, **extra: Any) -> Any:
        """Run, and leave with an exit code; a refusal is told in one sentence."""
        alone = extra.pop("standalone_mode", True)
        run: Any = super().main
        try:
            told = run(*args, standalone_mode=False, **extra)
        except click.Abort:
            sys.exit(130)
        except (ShoedownError, click.ClickException, OSError) as refusal:
            for line in refusal_lines(refusal):
                click.echo(line, err=True)
            sys.exit(REFUSED)
        if alone:
            sys.exit(told if isinstance(told, int) else 0)
        return told


def refusal_lines(refusal: Exception) -> list[str]:
    """Return a refusal as one line; each fault of a file that has several goes on its own."""
    faults = refusal.faults if isinstance(refusal, JobFileError) else ()
    if len(faults) > 1:
        head = str(refusal).removesuffix(faults[0]).rstrip()
        return [_one_line(head), *(f"  {_one_line(fault)}" for fault in faults)]
    return [_one_line(_sentence(refusal))]


def _sentence(refusal: Exception) -> str:
    if isinstance(refusal, click.UsageError):
        told = refusal.format_message().rstrip(" .")
        help_of = refusal.ctx.command_path if refusal.ctx else "shoedown"
        return f"{told}." if "--help" in told else f"{told}; {help_of} --help tells how."
    if isinstance(refusal, click.ClickException):
        return refusal.format_message()
    if isinstance(refusal, OSError):
        why = (refusal.strerror or str(refusal)).lower()
        return f"{refusal.filename or 'A file'}: {why}." if refusal.filename else f"{why}."
    return str(refusal)


def _one_line(text: str) -> str:
    """Return text on one line, what a terminal would obey made visible."""
    line = " ".join(visible(part) for part in text.split("\n") if part) or "Refused."
    return line if len(line) <= LONGEST else f"{line[:LONGEST]} ..."
