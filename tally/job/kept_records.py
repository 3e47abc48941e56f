"""What is kept beside the work: notices, calibrations, time lost, pressure tests, handovers."""

from __future__ import annotations

from dataclasses import dataclass

from tally.units import Measure


@dataclass(frozen=True, slots=True)
class Notice:
    """Somebody was told of the job: whom, of what, by what means, and who gave the notice."""

    seq: int
    to: str
    about: str
    means: str
    given: str
    """Who gave it."""
    when: str
    """When it was given, as it was typed; empty: at the time of the entry."""
    answer: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Calibration:
    """When something that measures was calibrated, by whom, and until when it holds."""

    seq: int
    what: str
    serial: str
    day: str
    due: str
    """Empty: no day was given."""
    done_by: str
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class LostTime:
    """Time that the work stood: how long, since when, and why."""

    seq: int
    cause: str
    time: Measure
    began: str
    """When it began, as a time of an entry."""
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class PressureTest:
    """Something held under pressure: what was put on, for how long, what was left of it."""

    seq: int
    what: str
    pressure: Measure
    time: Measure
    ended: Measure | None
    held: bool
    device: str
    note: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Handover:
    """The job handed over by one person to another, with what the next one has to watch."""

    seq: int
    by: str
    to: str
    watch: str
    at: str
    signed: tuple[str, ...]
    """Who confirmed it with a PIN."""
    taken_at: str = ""
    """When it was taken over; empty: nobody has yet."""
    taken_by: str = ""
    taken_seq: int = 0
    """The entry with which it was taken over."""
    taken_why: str = ""
    """Why another person took over than the one it was handed to."""
