"""What a person must say of a batch: overall or running, the unit, the pipe."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tally.feeds.rig_list.columns import PARTS, PIPE
from tally.feeds.rig_list.layout import Layout
from tally.feeds.rig_list.readers import UNITS, Chosen
from tally.feeds.rig_list.rules import Rules

RUNNING, OVERALL = "running", "overall"


@dataclass(frozen=True, slots=True)
class Answers:
    """What a person has said about the batch; empty where nothing was said."""

    lengths: str = ""
    """running or overall."""
    unit: str = ""
    """ft, m or mm."""
    pipe: str = ""
    """The name of the pipe of rows that name none."""


NOTHING_SAID = Answers()


@dataclass(frozen=True, slots=True)
class Question:
    """Something that a person must say before the list can be taken."""

    key: str
    """The field of `Answers` that it fills."""
    sentence: str
    choices: tuple[str, ...]
    likely: str = ""


def questions(
    layout: Layout, chosen: Sequence[Chosen], rules: Rules, answers: Answers, *, told: bool
) -> Iterator[Question]:
    """Yield what is still to be answered; `told` where a heading or an answer says how measured."""
    if not told:
        yield _ask_lengths(rules, sum(1 for line in layout.lines if not line.is_sum))
    doubtful = [each for each in chosen if each.doubtful]
    if doubtful:
        likely = doubtful[0].reader.unit
        yield Question("unit", doubtful[0].doubtful.capitalize(), UNITS, likely)
    if len(rules.pipes) > 1 and not answers.pipe and _nameless(layout):
        names = tuple(pipe.name for pipe in rules.pipes)
        yield Question("pipe", "Which pipe are the rows that name none?", names)


def _ask_lengths(rules: Rules, count: int) -> Question:
    if rules.make_up_loss is None:
        said = (
            "Are these running lengths? The job measures running lengths and has no make-up loss, "
            "so overall lengths cannot be taken."
        )
        return Question("lengths", said, (RUNNING, OVERALL), RUNNING)
    step = rules.step
    all_of_it = step.with_unit(step.steps(rules.make_up_loss * count))
    said = (
        f"Were the joints measured overall or running? Off overall lengths goes the make-up loss "
        f"of {rules.loss_text} each, {all_of_it} over {count} rows."
    )
    return Question("lengths", said, (RUNNING, OVERALL), rules.measured_as)


def _nameless(layout: Layout) -> bool:
    """Return whether any row says nothing of its pipe."""
    parts = (PIPE, *PARTS)
    return any(
        not any(line.cell(part).text for part in parts) for line in layout.lines if not line.is_sum
    )
