"""The table of bumps found, for the guide: python -m tests.tally.cement.bump_table --write."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.tally.cement.bump_files import PSI
from tests.tally.cement.bump_score import Score, fresh, scores

GUIDE = Path(__file__).parents[3] / "DEVELOPERS.md"
BEGIN, END = "<!-- bumps -->", "<!-- end of bumps -->"
MARCHES, FILES = 100, 4000
NOISE = ((5, 20), (20, 40), (40, 60))
SPACING = ((1, 4), (4, 7), (7, 10))
INTRODUCTION = (
    "The finder of the bump (`tally/cement/bump.py`) on recorded files that the tests make: the "
    "plain march of a well drawn at random, with noise, rate changes of 30 % or more in the last "
    "60 bbl, cement that sets, losses, a valve. A bump counts as found within 1 bbl of where it "
    "is; half of the files have none, and any call there is a false one. Written by "
    "`python -m tests.tally.cement.bump_table --write`."
)


def table(seen: Sequence[Score]) -> str:
    """Return what stands between the marks."""
    rows = ["| noise, psi | reading every | found | of | false calls | of |"]
    rows += ["|---|---|---|---|---|---|", *_rows(seen)]
    return "\n".join([INTRODUCTION, "", *rows])


def _rows(seen: Sequence[Score]) -> Iterator[str]:
    for low, high in NOISE:
        for short, long in SPACING:
            part = [
                each
                for each in seen
                if low <= each.file.noise / PSI < high and short <= each.file.spacing < long
            ]
            yield _row(f"{low} to {high}", f"{short} to {long} s", part)
    yield _row("all", "", seen)


def _row(noise: str, spacing: str, part: Sequence[Score]) -> str:
    bumped = [each for each in part if each.file.bump is not None]
    found, false = sum(each.found for each in bumped), sum(each.false for each in part)
    return (
        f"| {noise} | {spacing} | {found} | {len(bumped)} | {false} | {len(part) - len(bumped)} |"
    )


def written(guide: str, seen: Sequence[Score]) -> str:
    """Return the guide with its table written anew."""
    before, rest = guide.split(BEGIN)
    return f"{before}{BEGIN}\n{table(seen)}\n{END}{rest.split(END)[1]}"


if __name__ == "__main__":
    start = fresh()
    made = scores(range(start, start + MARCHES), range(start, start + FILES))
    if "--write" in sys.argv[1:]:
        GUIDE.write_text(written(GUIDE.read_text("utf-8"), made), "utf-8")
    else:
        sys.stdout.write(table(made) + "\n")
