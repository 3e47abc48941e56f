"""The preview of a list: what was read, every doubt by row, what is to be answered, the totals.

Nothing here writes to a book. A preview is worked out from the file, the job and the answers, and
gives the same each time.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tally.feeds.opening import unread
from tally.feeds.rig_list import doubts
from tally.feeds.rig_list.asking import NOTHING_SAID, OVERALL, Answers, Question, questions
from tally.feeds.rig_list.cells import ListFile
from tally.feeds.rig_list.checks import Sample, between_rows, of_the_mean, sample_of
from tally.feeds.rig_list.doubts import WHOLE_LIST, Doubt
from tally.feeds.rig_list.items import Items, ListItem, joints
from tally.feeds.rig_list.layout import Layout, layout_of
from tally.feeds.rig_list.lengths import Reader
from tally.feeds.rig_list.noting import notes
from tally.feeds.rig_list.readers import Chosen, chosen_reader
from tally.feeds.rig_list.rules import Rules
from tally.feeds.rig_list.sums import Sums
from tally.units import shown


@dataclass(frozen=True, slots=True)
class Preview:
    """A list as it would enter the book."""

    file: ListFile
    rules: Rules
    answers: Answers
    items: tuple[ListItem, ...]
    """Every row, in the order of the list."""
    left_out: frozenset[int]
    """The places in `items` of the rows that cannot be taken."""
    doubts: tuple[Doubt, ...]
    """By row; those about the whole list first."""
    questions: tuple[Question, ...]
    """What is still to be answered."""
    notes: tuple[str, ...]
    """What was understood and what was not used."""
    measured: str
    """running or overall, as the lengths are taken."""
    sample: Sample | None

    @property
    def taken(self) -> tuple[ListItem, ...]:
        """The rows that can be taken."""
        return tuple(item for place, item in enumerate(self.items) if place not in self.left_out)

    @property
    def loss(self) -> Fraction | None:
        """The make-up loss that is taken off each length, [m]; nothing where none is."""
        return self.rules.make_up_loss if self.measured == OVERALL else None

    @property
    def count(self) -> int:
        """Items that can be taken."""
        return len(self.taken)

    @property
    def total(self) -> int:
        """Their length as it would enter the book, in steps."""
        return sum(item.length for item in self.taken)

    @property
    def total_measured(self) -> int:
        """Their length as it was measured, added up and then rounded once, in steps."""
        exact = sum((item.exact for item in self.taken if item.exact is not None), Fraction(0))
        return self.rules.step.steps(exact)

    @property
    def by_kind(self) -> Counter[str]:
        """How many items there are of each kind."""
        return Counter(item.kind for item in self.taken)

    @property
    def blocked(self) -> str:
        """Why the list cannot be taken at all, or nothing."""
        if self.measured == OVERALL and self.rules.make_up_loss is None:
            return (
                "The lengths are overall and the job has no make-up loss; set it up as overall "
                "with its make-up loss first."
            )
        return "" if self.count else "The list has no row that can be taken."


def preview_of(file: ListFile, rules: Rules, answers: Answers = NOTHING_SAID) -> Preview:
    """Return a list as it would enter the book of a job.

    Parameters
    ----------
    file : ListFile
        The list, opened
    rules : Rules
        What it is held against
    answers : Answers
        What a person has said about the batch so far

    Raises
    ------
    JobFileError
        If nothing in the file tells which column holds the numbers and which the lengths.
    """
    layout = layout_of(file.rows, shown(file.name, 60), rules.step.unit)
    if file.parted:
        _refuse_shifted(file, layout)
    chosen = [
        chosen_reader(
            each, [one for one in layout.lines if one.columns is each], rules, answers.unit
        )
        for each in layout.columns
    ]
    measured, said = _measured(layout, rules, answers)
    loss = rules.make_up_loss if measured == OVERALL else None
    readers = [each.reader for each in chosen]
    items, sums = _read(layout, readers, Items(rules, loss, answers.pipe), file.parted)
    return _preview(file, layout, chosen, items, sums, (measured, said), answers)


def _refuse_shifted(file: ListFile, layout: Layout) -> None:
    """Refuse a list most of whose rows have more cells than headings: its marks part numbers."""
    items = [line for line in layout.lines if not line.is_sum]
    shifted = [line for line in items if line.beyond]
    if len(shifted) * 2 > len(items):
        raise unread(
            f"The rows of '{shown(file.name, 60)}' have more cells than there are headings "
            f"(row {shifted[0].place}): the {file.parted} part the numbers too; save the list with "
            "other marks between its cells."
        )


def _read(
    layout: Layout, readers: Sequence[Reader], items: Items, parted: str
) -> tuple[Items, Sums]:
    by_columns = {id(each): reader for each, reader in zip(layout.columns, readers, strict=True)}
    sums = Sums(items.rules)
    for line in layout.lines:
        reader = by_columns[id(line.columns)]
        if line.is_sum or sums.is_sum(line, reader):
            sums.check(line, reader)
        else:
            sums.add(items.add(line, reader, shifted=bool(parted and line.beyond)))
    return items, sums


def _measured(layout: Layout, rules: Rules, answers: Answers) -> tuple[str, str]:
    """Return how the lengths are taken, and what says so: the answer, the heading, or nothing."""
    told = {each.measured for each in layout.columns if each.measured}
    if answers.lengths:
        return answers.lengths, "answer"
    if len(told) == 1:
        return told.pop(), "heading"
    return rules.measured_as, ""


def _preview(
    file: ListFile,
    layout: Layout,
    chosen: Sequence[Chosen],
    items: Items,
    sums: Sums,
    measured: tuple[str, str],
    answers: Answers,
) -> Preview:
    rules = items.rules
    rows = [item for item, _ in items.found]
    noted = {place: list(doubts) for place, (_, doubts) in enumerate(items.found)}
    places = {id(item): place for place, item in enumerate(rows)}
    for item, doubt in between_rows(joints(rows), rules):
        noted[places[id(item)]].append(doubt)
    left_out = frozenset(place for place, all_of in noted.items() if any(d.stops for d in all_of))
    here = [item for place, item in enumerate(rows) if place not in left_out]
    sample = sample_of(joints(here), file.sha256)
    whole = [
        *_unit_doubts(chosen),
        *_length_doubts(layout, measured),
        *_mean_doubts(sample, joints(here), rules),
    ]
    by_row = [doubt for place in sorted(noted) for doubt in noted[place]]
    return Preview(
        file=file,
        rules=rules,
        answers=answers,
        items=tuple(rows),
        left_out=left_out,
        doubts=(*whole, *sums.found, *by_row),
        questions=tuple(questions(layout, chosen, rules, answers, told=bool(measured[1]))),
        notes=tuple(notes(file, layout, chosen, sums)),
        measured=measured[0],
        sample=sample,
    )


def _unit_doubts(chosen: Sequence[Chosen]) -> Iterator[Doubt]:
    for sentence in dict.fromkeys(each.doubtful for each in chosen if each.doubtful):
        yield Doubt(WHOLE_LIST, doubts.UNIT, sentence)


def _length_doubts(layout: Layout, measured: tuple[str, str]) -> Iterator[Doubt]:
    told = {each.measured for each in layout.columns if each.measured}
    if measured[1] == "answer" and told - {measured[0]}:
        said = f"a heading says {' and '.join(sorted(told))}, and they are taken as {measured[0]}."
        yield Doubt(WHOLE_LIST, doubts.LENGTHS, said)
    elif len(told) > 1:
        said = "one heading says running and another overall; part the list."
        yield Doubt(WHOLE_LIST, doubts.LENGTHS, said)


def _mean_doubts(sample: Sample | None, here: Sequence[ListItem], rules: Rules) -> Iterator[Doubt]:
    if here:
        most, _ = Counter(item.pipe for item in here).most_common(1)[0]
        yield from of_the_mean(sample, rules.pipe(most), rules)
