"""Every kind of entry; importing this room fills the table of kinds."""

from tally.job.entries import (
    auto_fill,
    closing,
    conditioning,
    correction,
    flow,
    landing,
    people,
    pipe,
    pumping,
    rack,
    running,
    steps,
    trouble,
    waiting,
    watching,
    weighing,
)

__all__ = [
    "auto_fill",
    "closing",
    "conditioning",
    "correction",
    "flow",
    "landing",
    "people",
    "pipe",
    "pumping",
    "rack",
    "running",
    "steps",
    "trouble",
    "waiting",
    "watching",
    "weighing",
]
