"""The string as it hangs: its pieces in the hole, with the mud outside and the fill inside."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tally.hole import survey
from tally.job import depths, volumes
from tally.job.geometry import Last, hung, path_of, string_pieces
from tally.job.job import Job
from tally.pipe.interval import PipeInterval
from tally.string.columns import FluidColumn, column
from tally.string.pieces import StringPiece
from tally.string.weights import Span, hanging, weighed


@dataclass(frozen=True, slots=True)
class Hanging:
    """The string where it hangs, from the top down, what stands in and around it, what it weighs.

    `pieces` are from the shoe up; `level` is the depth of the fluid inside, [m].
    """

    pieces: tuple[StringPiece, ...]
    pipe: tuple[PipeInterval, ...]
    shoe: float
    inside: FluidColumn
    outside: FluidColumn
    survey: survey.Survey
    spans: tuple[Span, ...]

    @property
    def level(self) -> float:
        """Depth of the fluid inside, below zero above the datum, [m]."""
        return self.inside.top

    def below(self, depth: float) -> float:
        """Return the weight that hangs below a depth, [N]."""
        return hanging(self.spans, self.survey, depth)

    @property
    def load(self) -> float:
        """Weight of the whole string in its fluids, without blocks, [N]."""
        return hanging(self.spans, self.survey)

    def filled_up(self) -> Hanging:
        """Return the string filled to its top."""
        inside = replace(self.inside, top=self.pipe[0].top)
        return replace(self, inside=inside, spans=weighed(self.pipe, inside, self.outside))


def _as_it_hangs(job: Job) -> Hanging:
    setup = job.known
    pieces = string_pieces(job)
    shoe = setup.step.si(depths.shoe_depth(job))
    top = -setup.step.si(depths.stick_up(job))
    mud = setup.pumping.mud_weight.value
    inside = column(mud, min(shoe, top + volumes.empty_length(job)))
    outside, pipe = column(mud), hung(job)
    spans = weighed(pipe, inside, outside)
    return Hanging(pieces, pipe, shoe, inside, outside, path_of(setup), spans)


as_it_hangs = Last(_as_it_hangs)
"""The string of a job as it hangs; it must have at least one item run."""
