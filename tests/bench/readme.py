"""The measured ratios as the README shows them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from tests.bench import keys
from tests.bench.ratio import Result, limits

README = Path(__file__).parents[2] / "README.md"
BEGIN, END = "<!-- measured -->", "<!-- end of measured -->"
HEADINGS = ("what", "against", "by", "ratio", "95 % interval", "at most")
INTRODUCTION = (
    "Each row is our time divided by that of a minimal program doing the same kind of thing, both "
    "measured in turns in one run on one machine (`python -m tests.bench`); the interval is a "
    "bootstrap over the rounds."
)


def section(results: Iterable[Result], about: Sequence[str]) -> str:
    """Return what stands between the marks: a sentence, the table, what it was measured on."""
    rows = [HEADINGS, ("---",) * len(HEADINGS), *(_row(result) for result in results)]
    lines = ["| " + " | ".join(row) + " |" for row in rows]
    return "\n".join(
        [
            "## Measured",
            "",
            INTRODUCTION,
            "",
            *lines,
            "",
            f"Measured on: {'; '.join(about)}.",
            "",
            keys.sentence(),
        ]
    )


def _row(result: Result) -> tuple[str, ...]:
    measure, ratio = result.measure, result.ratio
    interval = f"{ratio.low:.2f} to {ratio.high:.2f}"
    return (
        *(measure.name, measure.against, measure.statistic),
        *(f"{ratio.value:.2f}", interval, limits(measure)),
    )


def written(readme: str, results: Iterable[Result], about: Sequence[str]) -> str:
    """Return a README with its measured figures written anew."""
    before, rest = readme.split(BEGIN)
    after = rest.split(END)[1]
    return f"{before}{BEGIN}\n{section(results, about)}\n{END}{after}"
