"""The measures that `python -m tests.bench` takes, in the order of the table.

A measure names two sides: functions that set one side up and yield what takes a sample. Those of
the reference programs stand in timed.py and minimal.py; ours are made the same way, with
`key_to_paint` and `start_to_key` for what a person sees.
"""

from __future__ import annotations

from tests.bench.ratio import Measure

MEASURES: list[Measure] = []
