"""Every kind of entry; importing this room fills the table of kinds."""

from tally.job.entries import (
    auto_fill,
    closing,
    correction,
    landing,
    people,
    pipe,
    pumping,
    rack,
    running,
    steps,
    watching,
    weighing,
)

__all__ = [
    "auto_fill",
    "closing",
    "correction",
    "landing",
    "people",
    "pipe",
    "pumping",
    "rack",
    "running",
    "steps",
    "watching",
    "weighing",
]
