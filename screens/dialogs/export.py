"""Write the reports to a folder, and say which files were written."""

from __future__ import annotations

from asyncio import to_thread
from collections.abc import Callable
from pathlib import Path

from screens.dialogs.form import Field
from screens.dialogs.panel import Panel
from screens.dialogs.running import ask
from screens.dialogs.writing import WritingPanel
from screens.ink import QUIET, line, wrap
from screens.pages.page import Page
from tally.errors import InputError, ShoedownError
from tally.units import shown


async def write_reports(page: Page) -> None:
    """Ask for the folder, write the files, and list them."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; there is no tally to write.")
        return
    answer = await ask(
        page,
        "Write the final tally" if page.job.landing else "Write the tally, not final",
        _folder(page),
        Field("kinds", "Which", _kinds, hint=_kinds_named(), optional=True),
        says="" if page.job.landing else "The string is not on depth; the files will say so.",
    )
    if answer:
        await _write(page, answer["folder"], answer["kinds"] or ())


async def write_kinds(page: Page, title: str, *kinds: str) -> None:
    """Ask for the folder, and write files of these kinds to it."""
    if page.job.setup is None:
        page.refuse("The job is not set up yet; there is nothing to write.")
        return
    answer = await ask(page, title, _folder(page))
    if answer:
        await _write(page, answer["folder"], kinds)


def _folder(page: Page) -> Field:
    book = page.shoedown.book.path
    beside = str(book.with_name(f"{book.stem}-reports"))
    return Field("folder", "Folder", _folder_beside(book), value=beside)


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
    panel = WritingPanel()
    await page.app.push_screen(panel)
    try:
        written = await to_thread(_written, page.shoedown.book.path, folder, kinds, panel)
    except ShoedownError as fault:
        page.refuse(str(fault))
        return
    finally:
        panel.dismiss(None)
    page.saved(f"{len(written)} files written to {folder}")
    lines = [*wrap(f"in {folder}", 70, QUIET), line("")]
    longest = max(len(path.name) for path in written)
    for path in written:
        lines.append(line(f"{path.name:{longest}}  {path.stat().st_size:>9,} bytes"))
    await page.app.push_screen_wait(Panel("Written", lines))


def _written(
    path: Path, folder: Path, kinds: tuple[str, ...], panel: WritingPanel
) -> tuple[Path, ...]:
    """Write the files from a reader of the book of our own; the page's stays with its thread."""
    from screens.export_files import export_files
    from tally.book.book import Book
    from tally.reports.progress import listening

    with Book.open(path, look_only=True) as book, listening(panel.take):
        return export_files(book, folder, kinds)


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
