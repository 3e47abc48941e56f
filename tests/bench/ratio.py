"""Ratios of our program to a minimal reference, measured in turns on one machine.

A time by itself says more about the machine than about the program. So each measure runs ours and
a reference A B A B ..., and what is told is the quotient of the two medians (or 95th percentiles)
with a bootstrap interval. A limit counts as broken only when the whole interval lies above it.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterable, Sequence
from contextlib import AbstractContextManager
from dataclasses import dataclass
from math import ceil
from statistics import median

Sample = Callable[[], float]
"""Does the thing once and returns how long it took [s]."""

Side = Callable[[], AbstractContextManager[Sample]]
"""Sets one side of a measure up, yields what takes a sample, and clears up."""

RESAMPLES = 2000
CONFIDENCE = 0.95


def percentile_95(samples: Sequence[float]) -> float:
    """Return the smallest sample that at least 95 % do not exceed (nearest rank)."""
    return sorted(samples)[ceil(0.95 * len(samples)) - 1]


STATISTICS: dict[str, Callable[[Sequence[float]], float]] = {
    "median": median,
    "95th percentile": percentile_95,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What is compared with what, by which statistic, and what it may cost."""

    name: str
    ours: Side
    reference: Side
    against: str
    """What the reference is, in words."""
    limit: float
    statistic: str = "median"
    rounds: int = 300
    warm_up: int = 30
    ceiling: float | None = None
    """Most time that ours may take by the same statistic [s]."""

    def __post_init__(self) -> None:
        """Refuse a statistic that is not known."""
        if self.statistic not in STATISTICS:
            raise ValueError(f"The statistic {self.statistic!r} is none of {list(STATISTICS)}.")


@dataclass(frozen=True, slots=True)
class Samples:
    """The times of both sides in the order taken [s]; equal numbers belong to one round."""

    ours: tuple[float, ...]
    reference: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Ratio:
    """Ours divided by the reference, with the ends of its interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Result:
    """One measure with its samples and its ratio."""

    measure: Measure
    samples: Samples
    ratio: Ratio

    @property
    def ours(self) -> float:
        """Our time by the measure's statistic [s]."""
        return STATISTICS[self.measure.statistic](self.samples.ours)

    @property
    def reference(self) -> float:
        """The reference's time by the measure's statistic [s]."""
        return STATISTICS[self.measure.statistic](self.samples.reference)

    @property
    def verdict(self) -> str:
        """Say whether the limits hold: "within", "above" or, across the limit, "not settled"."""
        if self.ratio.low > self.measure.limit or self._over_ceiling():
            return "above"
        return "within" if self.ratio.high <= self.measure.limit else "not settled"

    def _over_ceiling(self) -> bool:
        return self.measure.ceiling is not None and self.ours > self.measure.ceiling


def interleave(ours: Sample, reference: Sample, rounds: int, warm_up: int) -> Samples:
    """Take samples in turns, ours first in even rounds, and forget the warm-up rounds.

    Changing who goes first spreads what one side does to the next (a warm disk, a full cache).
    """
    taken: dict[str, list[float]] = {"ours": [], "reference": []}
    sides = [("ours", ours), ("reference", reference)]
    for number in range(warm_up + rounds):
        for name, sample in sides if number % 2 == 0 else reversed(sides):
            taken[name].append(sample())
    return Samples(tuple(taken["ours"][warm_up:]), tuple(taken["reference"][warm_up:]))


def bootstrap(samples: Samples, statistic: str, resamples: int = RESAMPLES) -> Ratio:
    """Return the ratio of a statistic with the percentile bootstrap interval.

    Rounds are drawn with replacement, both sides of a round together, since they shared the
    machine's mood. The draw starts from a fixed seed: the same samples give the same interval.
    """
    of = STATISTICS[statistic]
    draw = random.Random(1)
    rounds = range(len(samples.ours))
    ratios = []
    for _ in range(resamples):
        picked = draw.choices(rounds, k=len(rounds))
        ratios.append(
            of([samples.ours[i] for i in picked]) / of([samples.reference[i] for i in picked])
        )
    ratios.sort()
    tail = (1 - CONFIDENCE) / 2
    low, high = ratios[int(tail * resamples)], ratios[ceil((1 - tail) * resamples) - 1]
    return Ratio(of(samples.ours) / of(samples.reference), low, high)


def run(measure: Measure) -> Result:
    """Set both sides up, take the samples in turns, work the ratio out."""
    with measure.ours() as ours, measure.reference() as reference:
        samples = interleave(ours, reference, measure.rounds, measure.warm_up)
    return Result(measure, samples, bootstrap(samples, measure.statistic))


HEADINGS = (
    *("what", "against", "by", "ours ms", "reference ms"),
    *("ratio", "95 % interval", "limit", "rounds", "verdict"),
)


def table(results: Iterable[Result]) -> str:
    """Return the results as one table that reads well as text and as Markdown."""
    rows = [HEADINGS, *(_row(result) for result in results)]
    widths = [max(len(row[column]) for row in rows) for column in range(len(HEADINGS))]
    lines = ["| " + " | ".join(_padded(row, widths)) + " |" for row in rows]
    lines.insert(1, "|" + "|".join("-" * (width + 2) for width in widths) + "|")
    return "\n".join(lines)


def _row(result: Result) -> tuple[str, ...]:
    measure, ratio = result.measure, result.ratio
    return (
        *(measure.name, measure.against, measure.statistic),
        *(f"{result.ours * 1000:.2f}", f"{result.reference * 1000:.2f}", f"{ratio.value:.2f}"),
        *(f"{ratio.low:.2f}-{ratio.high:.2f}", limits(measure)),
        *(str(measure.rounds), result.verdict),
    )


def limits(measure: Measure) -> str:
    """Return the limit of a measure in words."""
    ceiling = f" and {measure.ceiling * 1000:g} ms" if measure.ceiling is not None else ""
    return f"{measure.limit:g}{ceiling}"


def _padded(row: tuple[str, ...], widths: list[int]) -> list[str]:
    return [text.ljust(width) for text, width in zip(row, widths, strict=True)]
