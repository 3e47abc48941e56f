"""The files of a job by their kind: what can be written, and the writing of all of it at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tally.book.book import Book
from tally.errors import InputError
from tally.reports.final_tally import FinalTally, final_tally
from tally.reports.progress import begun
from tally.reports.signed import file_mark
from tally.reports.smaller.every import RUNNING_LIST, SMALLER
from tally.reports.writing import make_folder, write_anew
from tally.units import shown


@dataclass(frozen=True, slots=True)
class Source:
    """What the files of an export are made from."""

    book: Book
    tally: FinalTally

    @property
    def name(self) -> str:
        """How the names of the files begin."""
        return self.book.path.stem

    @property
    def state(self) -> str:
        """What a name says of a tally, so that one that is final or signed is left alone."""
        return file_mark(self.tally, "tally")


Files = Mapping[str, bytes]
"""Contents by the name of the file."""


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of export: its word, what it writes, and how."""

    key: str
    says: str
    files: Callable[[Source], Files]
    usual: bool = True
    """Whether it is written where nothing is chosen."""


def _text(source: Source) -> Files:
    from tally.reports.tally_text import tally_text

    made = tally_text(source.tally).encode("ascii")
    return {f"{source.name}-tally{source.state}.txt": made}


def _csv(source: Source) -> Files:
    from tally.reports.tally_csv import not_run_csv, string_csv

    name, state = source.name, source.state
    return {
        f"{name}-tally{state}.csv": string_csv(source.tally).encode("utf-8"),
        f"{name}-not-in-string{state}.csv": not_run_csv(source.tally).encode("utf-8"),
    }


def _xlsx(source: Source) -> Files:
    from tally.reports.tally_xlsx import tally_xlsx

    return {f"{source.name}-tally{source.state}.xlsx": tally_xlsx(source.tally)}


def _pipe_list(source: Source) -> Files:
    from tally.reports.pipe_list_csv import pipe_list_csv

    return {f"{source.name}-pipe-list.csv": pipe_list_csv(source.tally.job).encode("utf-8")}


def _running_list(source: Source) -> Files:
    """Return the list for the floor in its own form as text, and as the smaller reports are."""
    from tally.reports.list_lines import listing
    from tally.reports.running_list_text import running_list_text

    book = source.book
    made = running_list_text(listing(book.job, book.entries, book.head))
    return {
        **_smaller(RUNNING_LIST, source),
        f"{source.name}-{RUNNING_LIST}.txt": made.encode("ascii"),
    }


def _smaller(key: str, source: Source) -> Files:
    from tally.reports.pdf.paper import A4
    from tally.reports.smaller.files import smaller_files

    return smaller_files(source.tally, source.book.entries, key, source.name, A4)


def _every_smaller(source: Source) -> Files:
    made = (_running_list(source), *(_smaller(one.key, source) for one in _AFTER_THE_LIST))
    return {name: content for files in made for name, content in files.items()}


def _every_smaller_letter(source: Source) -> Files:
    from tally.reports.pdf.paper import LETTER
    from tally.reports.smaller.files import smaller_pdf

    entries = source.book.entries
    made = (smaller_pdf(source.tally, entries, one, source.name, LETTER) for one in SMALLER)
    return dict(made)


def _json(source: Source) -> Files:
    from tally.book.document import document_text

    made = document_text(source.book.document())
    return {f"{source.name}-book.json": made.encode("ascii")}


def _pdf(source: Source) -> Files:
    from tally.reports.pdf.files import pdf_files
    from tally.reports.pdf.paper import A4

    return pdf_files(source.tally, source.name, A4)


def _pdf_letter(source: Source) -> Files:
    from tally.reports.pdf.files import pdf_files
    from tally.reports.pdf.paper import LETTER

    return pdf_files(source.tally, source.name, LETTER)


def _witsml(version: str, source: Source) -> Files:
    from tally.reports.witsml.files import witsml_files
    from tally.reports.witsml.heading import Given

    given = Given(source.tally, source.book.entries, source.book.id)
    return witsml_files(given, version, source.name)


_AFTER_THE_LIST = tuple(one for one in SMALLER if one.key != RUNNING_LIST)
KINDS: tuple[Kind, ...] = (
    Kind("text", "the tally as pages to sign", _text),
    Kind("csv", "the tally as CSV", _csv),
    Kind("xlsx", "the tally as a workbook", _xlsx),
    Kind("pdf", "the tally, the report and the regulator's fields as PDF, A4", _pdf),
    Kind("pdf-letter", "the same on letter paper", _pdf_letter, usual=False),
    Kind("pipe-list", "the pipe list, which reads in the same", _pipe_list),
    Kind(RUNNING_LIST, "the running list for the floor, as text, PDF and CSV", _running_list),
    Kind("json", "the whole book, from which it can be made again", _json),
    Kind(
        "witsml",
        "string and cementing as WITSML 2.1 documents",
        partial(_witsml, "2.1"),
        usual=False,
    ),
    Kind(
        "witsml-1.4.1.1",
        "the same as WITSML 1.4.1.1, for receivers that have not moved",
        partial(_witsml, "1.4.1.1"),
        usual=False,
    ),
    Kind("smaller", "every smaller report, as text, PDF and CSV", _every_smaller, usual=False),
    Kind("smaller-letter", "their PDFs on letter paper", _every_smaller_letter, usual=False),
    *(Kind(one.key, one.says, partial(_smaller, one.key), usual=False) for one in _AFTER_THE_LIST),
)


def chosen(words: Sequence[str], kinds: Sequence[Kind] = KINDS) -> tuple[Kind, ...]:
    """Return the kinds that are named, in the order of the table; the usual ones for no name.

    Raises
    ------
    InputError
        If there is no kind of a name.
    """
    keys = {kind.key for kind in kinds}
    for word in words:
        if word not in keys:
            raise InputError(
                f'There is no kind of report "{shown(word, 40)}"; the kinds are '
                f"{', '.join(kind.key for kind in kinds)}."
            )
    return tuple(kind for kind in kinds if kind.key in words or (not words and kind.usual))


def export(book: Book, to_folder: Path, kinds: Iterable[Kind] = KINDS) -> tuple[Path, ...]:
    """Write the files of a book to a folder and return where they are.

    A folder that is not there is made. Files of the same name are replaced as wholes.
    While the string is not on depth the names say so, and a final tally is left alone.

    Raises
    ------
    ShoedownError
        If the folder cannot be made or a file cannot be written; files of an earlier export
        stay whole.
    """
    source = Source(book, final_tally(book.job, book.entries, book.head))
    wanted = tuple(kinds)
    made: dict[Path, bytes] = {}
    for place, kind in enumerate(wanted, start=1):
        begun(kind.key, place, len(wanted))
        made |= {to_folder / name: each for name, each in kind.files(source).items()}
    make_folder(to_folder)
    write_anew(made)
    return tuple(made)
