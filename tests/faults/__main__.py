"""Faults tried and what came of them: `python -m tests.faults [--quick] [--readme]`.

Prints a line a fault: how often it was tried, how often the book held everything that was
confirmed, and how often something was lost. It needs strace. `--readme` writes the table into the
README.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

from tests.bench.machine import described
from tests.faults.killed import SWEEPS, swept
from tests.faults.killed_on_screen import killed_while_saving
from tests.faults.outcome import Outcome, table
from tests.faults.power_cut import power_cut
from tests.faults.readme import write

SEED = 20260318


def faults(quick: bool) -> Iterator[Callable[[Path], Outcome]]:
    """Yield what is tried, each in a folder of its own."""
    every, images = (9, 60) if quick else (1, 1000)
    for sweep in SWEEPS:
        yield partial(swept, sweep=sweep, every=every)
    yield partial(killed_while_saving, every=every)
    yield partial(power_cut, notes=60, count=images, seed=SEED)


def main(arguments: list[str]) -> int:
    """Try everything and print the table; 1 if anything was lost."""
    outcomes = []
    for tried in faults("--quick" in arguments):
        with tempfile.TemporaryDirectory() as folder:
            outcomes.append(tried(Path(folder)))
    print(table(outcomes))  # noqa: T201
    if "--readme" in arguments:
        write(outcomes, described())
    return 1 if any(one.wrong for one in outcomes) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
