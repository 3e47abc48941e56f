"""The command that lists the shipped checklists, or checks a company's own ones."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from screens.commands.refusing import FAULTS
from screens.commands.telling import plural, say
from tally.errors import InputError

if TYPE_CHECKING:
    from tally.steps.model import Checklist


@click.command()
@click.argument("files", metavar="[FILE]...", nargs=-1, type=click.Path(path_type=Path))
@click.option("--check", is_flag=True, help="Check the checklists in each FILE.")
def steps(files: tuple[Path, ...], check: bool) -> None:
    """List the checklists that come with the program; with --check, check your own.

    Every fault of every FILE is told at once, with the list, the step, the line at which the
    step begins, and the key. The exit code is 1 where there is a fault.
    """
    if check:
        _check(files)
    elif files:
        raise InputError("Say what to do with the files: shoedown steps --check FILE.")
    else:
        _list()


def _list() -> None:
    from tally.steps.reading import shipped

    lists = shipped()
    wide = max(len(each.id) for each in lists)
    for each in lists:
        called = ", on call" if each.on_call else ""
        count = plural(len(each.steps), "step")
        say(f"{each.id:<{wide}}  {each.page:<7}  {count:<8}  {each.title}{called}")


def _check(files: tuple[Path, ...]) -> None:
    from tally.errors import JobFileError
    from tally.steps.reading import checklists, read_checklist

    if not files:
        raise InputError("Name the files to check, as in `shoedown steps --check own.toml`.")
    faults: list[str] = []
    read: list[Checklist] = []
    try:
        checklists(files)
    except JobFileError as error:
        faults += error.faults
    for path in files:
        try:
            read.append(read_checklist(path))
        except JobFileError:
            continue
    faults += _strange_names(read, files)
    for fault in faults:
        say(fault)
    if faults:
        say(plural(len(faults), "fault"))
        sys.exit(FAULTS)
    for each in read:
        say(f"{each.id}: {plural(len(each.steps), 'step')}, page {each.page}; no fault")


def _strange_names(lists: Iterable[Checklist], files: tuple[Path, ...]) -> Iterator[str]:
    """Yield a sentence for each figure or limit that a step names and the program does not know."""
    from tally.job.figures import catalogue
    from tally.job.limits import LIMITS
    from tally.steps.reading import places_of

    known = {"figure": catalogue(), "limit": LIMITS}
    places = places_of(files)
    for checklist in lists:
        for step in checklist.steps:
            for key in ("expect", "within", "only_with"):
                kind, _, name = getattr(step, key).partition(":")
                if kind in known and name not in known[kind]:
                    line = places.get((checklist.id, step.id))
                    place = f"List {checklist.id}, step {step.id}"
                    place += f", line {line}" if line else ""
                    yield f"{place}, key {key}: there is no {kind} '{name}' in this program."
