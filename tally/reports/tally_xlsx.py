"""The tally as a workbook: the string, what is not in it, the sums, and what was said of the job.

Each cell is written by its type: a number as a number with the decimals that the page shows, all
else as text, which can become neither a formula nor a link.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any

from tally.errors import InputError
from tally.job.entry import moment
from tally.reports.final_tally import CAUTION, FinalTally
from tally.reports.guard import Number, visible
from tally.reports.signed import amendments_told, signed_told, standing
from tally.reports.tally_csv import (
    Cells,
    not_run_cells,
    not_run_header,
    string_cells,
    string_header,
)
from tally.reports.text_counts import counted_by_hand, counts
from tally.reports.text_depths import convention, sums
from tally.reports.text_job import job_lines
from tally.reports.text_people import correction_told, exception_told, fitting_rows, missing_told

if TYPE_CHECKING:
    from xlsxwriter import Workbook
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

LONGEST = 32_767
"""Characters that a cell holds."""
CUT = " (cut: the JSON of the book has all of it)"
_OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
}
_NO_TIME = datetime(2000, 1, 1, tzinfo=UTC)
_NARROWEST, _WIDEST = 8, 40


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet: its name, its heading, and its rows."""

    name: str
    heading: tuple[str, ...]
    rows: tuple[Cells, ...]


def tally_xlsx(tally: FinalTally) -> bytes:
    """Return the workbook; the same tally gives the same bytes."""
    from xlsxwriter import Workbook

    kept = BytesIO()
    with Workbook(kept, _OPTIONS) as book:
        book.set_properties({"title": _title(tally), "created": _made(tally)})
        forms = Forms(book)
        for sheet in sheets(tally):
            _write(book.add_worksheet(sheet.name), sheet, forms, _foot(tally))
    return kept.getvalue()


def sheets(tally: FinalTally) -> tuple[Sheet, ...]:
    """Return what stands on each sheet."""
    unit = tally.setup.step.unit
    return (
        Sheet("Tally", string_header(tally), tuple(string_cells(tally))),
        Sheet("Not in the string", not_run_header(tally), tuple(not_run_cells(tally))),
        Sheet("Sums", ("what", "pieces", f"length_{unit}", "remark"), tuple(_sums(tally))),
        Sheet("Job", ("what", "told"), tuple(_told(tally))),
    )


def _sums(tally: FinalTally) -> Iterator[Cells]:
    show = tally.setup.step.show
    for depths in sums(tally) if tally.rows else ():
        yield from ((label, "", Number(show(steps)), told) for label, steps, told in depths)
    for group in counts(tally):
        for label, share, note in group:
            yield label, share.count, Number(show(share.length)), note
    by_hand = counted_by_hand(tally)
    if by_hand is not None:
        label, count, note = by_hand
        yield label, int(Number(count)), "", note
    for what, installed, wanted, difference, word, _ in fitting_rows(tally):
        yield what, int(installed), "", f"wanted {wanted}, difference {difference}: {word}"


def _told(tally: FinalTally) -> Iterator[Cells]:
    yield "tally", _title(tally)
    yield "issue", standing(tally, "tally")
    yield "entries", tally.entries
    yield "chain ends", tally.head
    for label, *told in job_lines(tally):
        text = ", ".join(each for each in told if each)
        if text:
            yield label, text
    yield "depths", convention(tally.setup.well.datum)
    yield "centralizers and scratchers", missing_told(tally)
    for accepted in tally.exceptions:
        yield "exception", " ".join(exception_told(accepted))
    yield from (("correction", correction_told(each)) for each in tally.corrections)
    yield from (("amendment", told) for told in amendments_told(tally.issues["tally"]))
    yield from ((f"person, {each.role}", each.name) for each in tally.people)
    for one in tally.issues["tally"].signatures:
        yield f"signature, {one.role}", ", ".join((one.name, *signed_told(one)))
    yield "caution", CAUTION


def _title(tally: FinalTally) -> str:
    return "FINAL CASING TALLY" if tally.final else "CASING TALLY, NOT FINAL"


def _foot(tally: FinalTally) -> str:
    return f"&L{_title(tally)}, page &P of &N&R{tally.entries} entries, chain ends {tally.head}"


def _made(tally: FinalTally) -> datetime:
    """Return the time of what was entered last for the string, so that no clock is asked."""
    landing = tally.job.landing
    times = [landing.at] if landing else [row.at for row in tally.rows[-1:]]
    try:
        return moment(times[0]).astimezone(UTC) if times else _NO_TIME
    except InputError:
        return _NO_TIME


class Forms:
    """The forms of cells in one workbook, each made once."""

    def __init__(self, book: Workbook) -> None:
        self._book = book
        self._numbers: dict[int, Format] = {}
        self.heading = book.add_format({"bold": True, "text_wrap": True, "bottom": 1})
        self.text = book.add_format({"quote_prefix": True, "num_format": "@"})
        """Text stays text where somebody edits the cell."""

    def number(self, digits: str) -> Format:
        """Return the form of a number with as many decimals as its digits have."""
        decimals = len(digits.partition(".")[2])
        if decimals not in self._numbers:
            shape = "0." + "0" * decimals if decimals else "0"
            self._numbers[decimals] = self._book.add_format({"num_format": shape})
        return self._numbers[decimals]


def _write(page: Worksheet, sheet: Sheet, forms: Forms, foot: str) -> None:
    """Write one sheet; its heading stays in sight, and stands on every printed page."""
    for column, name in enumerate(sheet.heading):
        page.write_string(0, column, text_of(name), forms.heading)
    for place, cells in enumerate(sheet.rows, start=1):
        for column, cell in enumerate(cells):
            _cell(page, place, column, cell, forms)
    for column, width in enumerate(_widths(sheet)):
        page.set_column(column, column, width)
    page.freeze_panes(1, 0)
    page.repeat_rows(0)
    page.set_landscape()
    page.fit_to_pages(1, 0)
    page.set_footer(foot)


def _cell(page: Worksheet, row: int, column: int, cell: Any, forms: Forms) -> None:
    if isinstance(cell, int | Number):
        page.write_number(row, column, float(cell), forms.number(str(cell)))
    elif cell:
        page.write_string(row, column, text_of(cell), forms.text)


def text_of(text: str) -> str:
    """Return text as a cell holds it: what cannot be shown is made visible, no more than fits."""
    shown = visible(text)
    return shown if len(shown) <= LONGEST else shown[: LONGEST - len(CUT)] + CUT


def _widths(sheet: Sheet) -> Iterable[int]:
    columns = zip(*(sheet.heading, *sheet.rows[:200]), strict=True)
    for column in columns:
        yield min(_WIDEST, max(_NARROWEST, *(len(str(cell)) + 1 for cell in column)))
