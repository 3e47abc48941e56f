"""The faults tried as the README shows them."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tests.faults.outcome import Outcome

README = Path(__file__).parents[2] / "README.md"
BEGIN, END = "<!-- faults -->", "<!-- end of faults -->"
HEADINGS = ("fault", "tries", "survived", "lost")
INTRODUCTION = (
    "Each fault is made to happen at one place after the other while entries are recorded "
    "(`python -m tests.faults`, which needs strace). A try is survived if the program died by "
    "signal 9 where it was to be killed, or said in a sentence what it could not do; and if the "
    "book then opens, verifies, and holds every entry that was confirmed and at most the one in "
    "flight besides."
)


def section(outcomes: Sequence[Outcome], about: Sequence[str]) -> str:
    """Return what stands between the marks."""
    rows = [HEADINGS, ("---",) * len(HEADINGS)]
    rows += [
        (one.fault, f"{one.tries:,}", f"{one.survived:,}", str(len(one.wrong))) for one in outcomes
    ]
    lines = ["| " + " | ".join(row) + " |" for row in rows]
    tried_on = f"Tried on: {'; '.join(about)}."
    return "\n".join(["## Faults survived", "", INTRODUCTION, "", *lines, "", tried_on])


def written(readme: str, outcomes: Sequence[Outcome], about: Sequence[str]) -> str:
    """Return a README with its table of faults written anew."""
    before, rest = readme.split(BEGIN)
    after = rest.split(END)[1]
    return f"{before}{BEGIN}\n{section(outcomes, about)}\n{END}{after}"


def write(outcomes: Sequence[Outcome], about: Sequence[str]) -> None:
    """Write the table into the README."""
    README.write_text(written(README.read_text("utf-8"), outcomes, about), "utf-8")
