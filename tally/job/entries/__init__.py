"""Every kind of entry; importing this room fills the table of kinds."""

from tally.job.entries import (
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
)

__all__ = [
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
]
