"""Take the measures and print one table: python -m tests.bench [--only WORD] [--rounds N].

With --readme the table is also written into README.md; run that on a quiet machine.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from dataclasses import asdict, replace
from pathlib import Path
from statistics import median

from tests.bench import timed
from tests.bench.machine import described
from tests.bench.measures import MEASURES
from tests.bench.ratio import Measure, Result, interleave, run, table
from tests.bench.readme import README, written


def main(arguments: Sequence[str] | None = None) -> int:
    """Run what is asked for; return 1 when a limit is broken."""
    asked = _asked(arguments)
    measures = [_shortened(m, asked.rounds) for m in MEASURES if asked.only in m.name]
    if not measures:
        sys.stderr.write("No measure in tests/bench/measures.py has that name.\n")
        return 2
    about = [*described(), f"harness {harness_cost() * 1000:.2f} ms from key to answer (median)"]
    results = [_told(measure) for measure in measures]
    sys.stdout.write("\n".join([*about, "", table(results), ""]))
    if asked.readme:
        README.write_text(written(README.read_text("utf-8"), results, about), "utf-8")
    if asked.raw:
        asked.raw.write_text(json.dumps(raw(about, results), indent=1), "utf-8")
    return int(any(result.verdict == "above" for result in results))


def harness_cost(rounds: int = 100) -> float:
    """Return the median time from key to answer of a program without a toolkit [s]."""
    with timed.echo() as sample:
        return median(interleave(sample, lambda: 0.0, rounds, warm_up=10).ours)


def raw(about: list[str], results: list[Result]) -> dict[str, object]:
    """Return every sample, for keeping with the figures."""
    return {
        "measured on": about,
        "samples [s]": {result.measure.name: asdict(result.samples) for result in results},
    }


def _asked(arguments: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.bench")
    parser.add_argument("--only", default="", help="only measures whose name holds this word")
    parser.add_argument("--rounds", type=int, help="fewer rounds, for a quick look")
    parser.add_argument(
        "--readme", action="store_true", help="write the table into README.md; all measures only"
    )
    parser.add_argument("--raw", type=Path, help="write every sample to this file (JSON)")
    asked = parser.parse_args(arguments)
    if asked.readme and asked.only:
        parser.error("--readme is for all measures; leave --only out")
    return asked


def _shortened(measure: Measure, rounds: int | None) -> Measure:
    if rounds is None:
        return measure
    return replace(measure, rounds=rounds, warm_up=min(measure.warm_up, rounds))


def _told(measure: Measure) -> Result:
    sys.stderr.write(f"measuring {measure.name} against {measure.against} ...\n")
    return run(measure)


if __name__ == "__main__":
    sys.exit(main())
