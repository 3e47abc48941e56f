"""Write the reports to a folder, and say which files were written."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.running import ask
from screens.ink import QUIET, line, wrap
from screens.pages.page import Page
from tally.errors import InputError, ShoedownError
from tally.units import shown


async def write_reports(page: Page) -> None:
    """Ask for the folder, write the files, and list them."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; there is no tally to write.")
        return
    book = page.shoedown.book.path
    answer = await ask(
        page,
        "Write the final tally" if page.job.landing else "Write the tally, not final",
        Field(
            "folder",
            "Folder",
            _folder_beside(book),
            value=str(book.with_name(f"{book.stem}-reports")),
        ),
        Field("kinds", "Which", _kinds, hint=_kinds_named(), optional=True),
        says="" if page.job.landing else "The string is not on depth; the files will say so.",
    )
    if answer:
        await _write(page, answer["folder"], answer["kinds"] or ())


def _kinds_named() -> str:
    from screens.export_files import ALL_KINDS

    return f"empty for the usual ones, or some of {', '.join(kind.key for kind in ALL_KINDS)}"


def _kinds(text: str) -> tuple[str, ...]:
    """Return the kinds that are named, between blanks or commas."""
    from screens.export_files import ALL_KINDS
    from tally.reports.export import chosen

    words = tuple(text.replace(",", " ").split())
    chosen(words, ALL_KINDS)
    return words


async def _write(page: Page, folder: Path, kinds: tuple[str, ...]) -> None:
    from screens.export_files import export_files

    try:
        written = export_files(page.shoedown.book, folder, kinds)
    except ShoedownError as fault:
        page.refuse(str(fault))
        return
    page.saved(f"{len(written)} files written to {folder}")
    lines = [*wrap(f"in {folder}", 70, QUIET), line("")]
    longest = max(len(path.name) for path in written)
    for path in written:
        lines.append(line(f"{path.name:{longest}}  {path.stat().st_size:>9,} bytes"))
    await page.app.push_screen_wait(Panel("Written", lines))


def _folder_beside(book: Path) -> Callable[[str], Path]:
    """Return a reader of a folder; a name alone is a folder beside the book."""

    def read(text: str) -> Path:
        try:
            folder = book.parent / Path(text).expanduser()
            taken = next((each for each in (folder, *folder.parents) if each.is_file()), None)
        except (OSError, RuntimeError):
            raise InputError(f"{shown(text, 60)} cannot be reached; type another folder.") from None
        if taken is not None:
            raise InputError(f"{shown(taken.name, 60)} is a file; type the name of a folder.")
        return folder

    return read
