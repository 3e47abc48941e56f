"""The files of a job: the tally for a spreadsheet, the page that is signed, the running list."""

from __future__ import annotations

from pathlib import Path

from tally.book.book import Book
from tally.reports.final_tally import FinalTally, final_tally
from tally.reports.list_lines import Listing, listing
from tally.reports.pipe_list_csv import pipe_list_csv
from tally.reports.running_list_text import running_list_text
from tally.reports.tally_csv import not_run_csv, string_csv
from tally.reports.tally_text import tally_text
from tally.reports.writing import make_folder, write_anew


def export(book: Book, to_folder: Path) -> tuple[Path, ...]:
    """Write the files of a book to a folder and return where they are.

    A folder that is not there is made. Files of the same name are replaced as wholes.
    While the string is not on depth the names say so, and a final tally is left alone.

    Raises
    ------
    ShoedownError
        If the folder cannot be made or a file cannot be written; files of an earlier export
        stay whole.
    """
    tally = final_tally(book.job, book.entries, book.head)
    made = contents(tally, listing(book.job, book.entries, book.head), book.path.stem)
    make_folder(to_folder)
    write_anew({to_folder / name: content for name, content in made.items()})
    return tuple(to_folder / name for name in made)


def contents(tally: FinalTally, made: Listing, name: str) -> dict[str, bytes]:
    """Return what each file of an export holds, by its name."""
    state = "" if tally.final else "-not-final"
    return {
        f"{name}-tally{state}.txt": tally_text(tally).encode("ascii"),
        f"{name}-tally{state}.csv": string_csv(tally).encode("utf-8"),
        f"{name}-not-in-string{state}.csv": not_run_csv(tally).encode("utf-8"),
        f"{name}-pipe-list.csv": pipe_list_csv(tally.job).encode("utf-8"),
        f"{name}-running-list.txt": running_list_text(made).encode("ascii"),
    }
