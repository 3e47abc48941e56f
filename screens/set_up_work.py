"""A set-up being typed: the draft, what is wrong in it, and where the draft is kept."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from screens.draft_file import DraftFile
from tally.book.book import Book
from tally.errors import InputError
from tally.feeds.job_changes import changes
from tally.feeds.job_document import document_of_setup
from tally.feeds.job_draft import Draft, Texts, chosen, document_of, draft_of
from tally.feeds.job_faults import Fault
from tally.feeds.job_file import Looked, look_through
from tally.feeds.job_sheets import FILES, Cell, Sheet, Where, sheets, where
from tally.job.job import Job
from tally.units import FIELD, UnitSet, read, unit_set

EMPTY, WANTED, FAULTS, COMPLETE = "empty", "wanted", "faults", "complete"
Told = Mapping[Where, tuple[str, ...]]
"""What is wrong in each field, in sentences."""


@dataclass(frozen=True, slots=True)
class State:
    """How far a sheet is: a word, and how many rows or faults it has."""

    word: str
    count: int = 0

    def __str__(self) -> str:
        if self.word == FAULTS:
            return "1 fault" if self.count == 1 else f"{self.count} faults"
        if self.word == COMPLETE and self.count:
            return "1 line" if self.count == 1 else f"{self.count} lines"
        return self.word


class SetUpWork:
    """What is typed of one book's set-up, looked through whenever it changes."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.file = DraftFile(book.path)
        self.standing = standing_of(book.job)
        draft, self.says = self.file.read()
        self.draft = self.standing if draft.empty else draft
        self._looked: tuple[Draft, Job, Looked] | None = None
        self.tidy()

    @property
    def editing(self) -> bool:
        """Whether there is a set-up that this one would change."""
        return self.book.job.setup is not None

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets to fill in; a book that is set up takes its pipe in on the rack."""
        return tuple(
            each for each in sheets().values() if not (self.editing and each.name == FILES)
        )

    def typed(self, sheet: str, place: int, texts: Texts) -> None:
        """Take over what is typed in a row."""
        if dict(self.draft.row(sheet, place)) != {key: text for key, text in texts.items() if text}:
            self.draft = self.draft.with_row(sheet, place, texts)

    def tidy(self) -> None:
        """Take the rows out of each list in which nothing is typed any more."""
        for name, sheet in sheets().items():
            rows = self.draft.of(name)
            if sheet.many and not all(rows):
                self.draft = self.draft.with_rows(name, [row for row in rows if row])

    def keep(self) -> str:
        """Keep the draft beside the book; return why that could not be done."""
        if self.draft == self.standing:
            self.file.remove()
            return ""
        return self.file.write(self.draft)

    def look_again(self) -> Looked:
        """Look through everything anew, the files beside the book too."""
        self._looked = None
        return self.looked

    def begin_again(self) -> None:
        """Throw away what is typed: go back to what stands in the book."""
        self.file.remove()
        self.standing = standing_of(self.book.job)
        self.draft, self.says = self.standing, ""

    @property
    def looked(self) -> Looked:
        """What the draft comes to, worked out once for each state of it."""
        job = self.book.job
        if self._looked is None or self._looked[0] is not self.draft or self._looked[1] is not job:
            self._looked = (self.draft, job, self._look())
        return self._looked[2]

    def _look(self, asked: str = "") -> Looked:
        document = document_of(self.draft, asked)
        return look_through(document, self.book.path.parent, there(self.book.job))

    @property
    def told(self) -> Told:
        """What is wrong, by field."""
        return _told(self.looked.faults)

    @property
    def doubts(self) -> Told:
        """What is doubtful and stops nobody from saving, by field."""
        return _told(self.looked.doubts)

    def doubts_of(self, sheet: str, place: int) -> dict[str, str]:
        """Return what is doubtful in one row, by key."""
        return _in_row(self.doubts, sheet, place)

    def faults_of(self, sheet: str, place: int) -> dict[str, str]:
        """Return what is wrong in one row, by key, with everything missing that it must have."""
        return _in_row(_told(self._look(asked=sheet).faults), sheet, place)

    def state(self, sheet: Sheet) -> State:
        """Return how far a sheet is."""
        rows = [row for row in self.draft.of(sheet.name) if row]
        if not rows:
            return State(WANTED if sheet.needed else EMPTY)
        faults = sum(len(said) for spot, said in self.told.items() if spot.sheet == sheet.name)
        if faults:
            return State(FAULTS, faults)
        return State(COMPLETE, len(rows) if sheet.many or sheet.rows else 0)

    def changes(self) -> tuple[str, ...]:
        """Return what saving would change, in words; nothing while anything is wrong."""
        job, setup = self.looked.job, self.book.job.setup
        return changes(setup, job.setup) if job and setup else ()

    def unit(self, cell: Cell) -> str:
        """Return the unit of a bare number in a field, as the draft stands."""
        tally = self._typed("tally", "unit")
        if cell.tally:
            return tally or "ft"
        if not cell.quantity:
            return ""
        if cell.quantity == "length" and tally:
            return "m" if tally != "ft" else "ft"
        return self._units().unit(cell.quantity)

    def _units(self) -> UnitSet:
        try:
            return unit_set(self._typed("units", "set") or "field")
        except InputError:
            return FIELD

    def _typed(self, sheet: str, key: str) -> str:
        cells = {cell.key: cell for cell in sheets()[sheet].cells}
        text = chosen(cells[key], self.draft.row(sheet, 0).get(key, ""))
        return text if text in cells[key].choices else ""

    def completed(self, cell: Cell, text: str) -> str:
        """Return a text as it is kept: a choice in its word, a bare number with its unit."""
        plain = chosen(cell, text)
        unit = self.unit(cell) if cell.quantity else ""
        if not unit or not plain.strip() or _reads(plain, cell.quantity):
            return plain
        whole = f"{plain.strip()} {unit}"
        return whole if _reads(whole, cell.quantity) else plain


def _reads(text: str, quantity: str) -> bool:
    try:
        read(text, quantity)
    except InputError:
        return False
    return True


def _in_row(told: Told, sheet: str, place: int) -> dict[str, str]:
    return {
        spot.key: " ".join(sentences)
        for spot, sentences in told.items()
        if (spot.sheet, spot.row) == (sheet, place)
    }


def _told(faults: Iterable[Fault]) -> Told:
    told: dict[Where, tuple[str, ...]] = {}
    for fault in faults:
        spot = where(fault.spot)
        told[spot] = (*told.get(spot, ()), fault.beside)
    return told


def standing_of(job: Job) -> Draft:
    """Return the set-up of a job as it would be typed; nothing where there is none."""
    return draft_of(document_of_setup(job.setup)) if job.setup else Draft()


def there(job: Job) -> list[tuple[str, str]] | None:
    """Return number and kind of what came on location; nothing where no pipe came yet."""
    if job.setup is None:
        return None
    planned = {one.number for one in job.setup.items}
    came = {one.number: one.kind for one in job.items.values() if one.received}
    joints = [number for number in job.setup.order if number not in {*planned, *came}]
    listed = [*came.items(), *((number, "joint") for number in joints)]
    return [each for each in listed if each[0] not in planned] if came else None
