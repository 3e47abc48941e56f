"""What the job keeps of the rack: checks, bundles counted, equipment."""

from __future__ import annotations

from dataclasses import dataclass

from tally.units import Measure


@dataclass(frozen=True, slots=True)
class CheckMark:
    """What a check of one joint found, the last time it was made."""

    passed: bool
    who: str
    seq: int
    at: str
    mandrel: Measure | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class BundleCount:
    """A bundle or a truck: its joints by the delivery note, and as a person counted them."""

    name: str
    noted: int | None
    counted: int
    numbers: tuple[str, ...]
    """The numbers of its joints, where they were given."""
    seq: int
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class EquipmentMark:
    """What was noted last of one thing of the equipment list."""

    supplier: str
    here: bool
    checked: bool
    note: str
    seq: int
    by: str
    at: str
