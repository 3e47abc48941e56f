"""The command that takes a pipe list into a book: previewed, doubted, read back, then one entry."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from screens.commands.books import BOOK, login_name, now, on_a_terminal
from screens.commands.refusing import FAULTS
from screens.commands.telling import plural, say
from tally.errors import InputError, ShoedownError

if TYPE_CHECKING:
    from tally.book.book import Book
    from tally.feeds.rig_list import Answers, Preview, Question, ReadBack


@click.command("import")
@click.argument("book", type=BOOK)
@click.argument("file", type=BOOK)
@click.option("--print", "only_print", is_flag=True, help="Print the preview and change nothing.")
@click.option(
    "--lengths",
    type=click.Choice(["running", "overall"]),
    help="How the joints were measured; make-up loss is taken off overall lengths.",
)
@click.option(
    "--unit",
    type=click.Choice(["ft", "m", "mm"]),
    help="Unit of lengths that name none, whatever their heading says.",
)
@click.option("--pipe", default="", help="Pipe of the rows that name none, by its name in the job.")
@click.option("--by", default="", help="Who takes the list; your login name unless given.")
@click.option(
    "--yes",
    is_flag=True,
    help="Take it without asking; refused while a question is open or a row cannot be taken.",
)
def import_list(
    book: Path,
    file: Path,
    only_print: bool,
    lengths: str | None,
    unit: str | None,
    pipe: str,
    by: str,
    yes: bool,
) -> None:
    """Preview the pipe list in FILE, and count it into BOOK once it is accepted.

    FILE is CSV or XLSX as the rig wrote it. Nothing enters the book until the count and the
    total are read back against the rack, or --yes is given. With --print the exit code is 1
    where there is any doubt.
    """
    from tally.book.book import Book
    from tally.feeds.rig_list import Answers

    with Book.open(book, look_only=only_print) as opened:
        preview = _preview(opened, file, Answers(lengths or "", unit or "", pipe))
        _say(preview)
        if only_print:
            sys.exit(FAULTS if preview.doubts or preview.blocked else 0)
        if yes:
            _take(opened, preview, by, None, "doubts accepted with --yes" * bool(preview.doubts))
        elif on_a_terminal():
            _ask_and_take(opened, preview, by)
        else:
            raise ShoedownError(
                "Nothing was entered: there is no terminal to read the list back on; "
                "look at the preview, then give --yes."
            )


def _preview(book: Book, file: Path, answers: Answers) -> Preview:
    from tally.feeds.rig_list import open_list, preview_of, rules_of

    setup = book.job.setup
    if setup is None:
        raise ShoedownError("The job is not set up yet; set it up before pipe is counted in.")
    if answers.pipe and answers.pipe not in [pipe.name for pipe in setup.pipes]:
        names = ", ".join(pipe.name for pipe in setup.pipes)
        raise InputError(f"There is no pipe {answers.pipe} in the job; it has {names}.")
    return preview_of(open_list(file), rules_of(book.job), answers)


def _say(preview: Preview) -> None:
    from tally.feeds.rig_list import told

    for one in told(preview):
        say(one.text)


def _take(book: Book, preview: Preview, by: str, read: ReadBack | None, reason: str) -> None:
    """Make the one entry; rows are left out only where a person has read back what is left."""
    from tally.feeds.rig_list import left_out, received

    for question in preview.questions:
        if not preview.blocked:
            option = f"--{question.key} {'|'.join(question.choices)}"
            raise ShoedownError(f"Nothing was entered: {question.sentence} Say it with {option}.")
    if preview.left_out and read is None and not preview.blocked:
        raise ShoedownError(f"Nothing was entered: {left_out(preview)} Put them right first.")
    entry = received(preview, by or login_name(), now(), read=read, reason=reason)
    book.record(entry)
    say("")
    say(f"Entered: {plural(preview.count, 'item')}, {_total(preview)}.")


def _total(preview: Preview) -> str:
    return preview.rules.step.with_unit(preview.total)


def _ask_and_take(book: Book, preview: Preview, by: str) -> None:
    while preview.questions and not preview.blocked:
        preview = _answered(preview, preview.questions[0])
        say("")
        _say(preview)
    if preview.blocked:
        raise ShoedownError(f"Nothing was entered: {preview.blocked}")
    reasons = _reasons(preview)
    read = _read_back(preview, reasons)
    click.confirm(f"Enter {plural(preview.count, 'item')}, {_total(preview)}?", abort=True)
    _take(book, preview, by, read, "; ".join(reasons))


def _answered(preview: Preview, question: Question) -> Preview:
    from tally.feeds.rig_list import preview_of

    said = click.prompt(
        question.sentence,
        type=click.Choice(question.choices),
        default=question.likely or None,
        show_default=False,
    )
    answers = replace(preview.answers, **{question.key: said})
    return preview_of(preview.file, preview.rules, answers)


def _reasons(preview: Preview) -> list[str]:
    """Ask why rows are left out and why doubtful ones are taken."""
    from tally.feeds.rig_list import left_out

    reasons = []
    if preview.left_out:
        reasons.append(_prompt(f"{left_out(preview)} Why", _reason))
    if any(not doubt.stops for doubt in preview.doubts):
        reasons.append(_prompt("There are doubts; take it all the same with the reason", _reason))
    return reasons


def _read_back(preview: Preview, reasons: list[str]) -> ReadBack:
    """Ask the count and the total as they are on the rack; a difference is answered."""
    from screens.dialogs.values import whole_number
    from tally.feeds.rig_list import ReadBack, difference

    step = preview.rules.step
    count = _prompt("Items as counted on the rack", whole_number)
    total = _prompt(f"Total as measured there, {preview.measured}, {step.unit}", step.read)
    read = ReadBack(count, total)
    differs = difference(preview, read)
    if differs:
        reasons.append(_prompt(f"{differs} Go on with the reason", _reason))
    return read


def _reason(text: str) -> str:
    from tally.units import clean

    reason = clean(text)
    if not reason:
        raise InputError("Give a reason, or leave with ctrl+c.")
    return reason


def _prompt(question: str, reader: Callable[[str], Any]) -> Any:
    """Ask until the answer can be read; what is wrong with it is said."""
    while True:
        try:
            return reader(click.prompt(question, default="", show_default=False))
        except ShoedownError as fault:
            say(str(fault))
