"""What a list is held against: the tally, how joints are measured, the pipe, and the book."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from tally.feeds.item_numbers import as_painted
from tally.job.job import Job
from tally.job.setup import Pipe
from tally.units import TallyStep


@dataclass(frozen=True, slots=True)
class Rules:
    """What is known before a list is read."""

    step: TallyStep
    pipes: tuple[Pipe, ...]
    measured_as: str = "running"
    make_up_loss: Fraction | None = None
    """What is taken off an overall length, [m]; nothing where the job has none."""
    loss_text: str = ""
    taken: Mapping[str, str] = field(default_factory=dict)
    """What is in the book already, by the number as it is painted."""
    before: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    """The lengths of the joints in the book, in steps, by the name of their pipe."""

    def pipe(self, name: str) -> Pipe:
        """Return the pipe of a name; the first one if none is named."""
        return next((pipe for pipe in self.pipes if pipe.name == name), self.pipes[0])


def rules_of(job: Job) -> Rules:
    """Return what a list is held against in a job that is set up."""
    setup = job.known
    before: dict[str, list[int]] = {}
    for item in job.items.values():
        if item.kind == "joint":
            before.setdefault(setup.pipe(item.pipe).name, []).append(item.length)
    return Rules(
        step=setup.step,
        pipes=setup.pipes,
        measured_as=setup.lengths.measured_as,
        make_up_loss=setup.make_up_loss,
        loss_text=setup.lengths.make_up_loss,
        taken={
            as_painted(item.number): f"{item.kind} {item.number}, {item.state}"
            for item in job.items.values()
        },
        before={name: tuple(lengths) for name, lengths in before.items()},
    )
