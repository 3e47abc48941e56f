"""The equipment list: what is wanted, who brings it, whether it is here and checked."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.job import Job
from tally.job.rack_records import EquipmentMark
from tally.job.setup import same_name


@dataclass(frozen=True, slots=True)
class Thing:
    """One line of the list; without a mark nobody has noted anything of it yet."""

    name: str
    supplier: str
    mark: EquipmentMark | None

    @property
    def ready(self) -> bool:
        """Whether it is here and checked."""
        return self.mark is not None and self.mark.here and self.mark.checked


def equipment_list(job: Job) -> tuple[Thing, ...]:
    """Return the list of the set-up, then what was noted beside it."""
    planned = {one.name: one.supplier for one in job.setup.equipment} if job.setup else {}
    names = dict.fromkeys((*planned, *job.equipment))
    return tuple(_thing(job, name, planned.get(name, "")) for name in names)


def _thing(job: Job, name: str, supplier: str) -> Thing:
    mark = job.equipment.get(name)
    return Thing(name, mark.supplier if mark and mark.supplier else supplier, mark)


def listed_name(job: Job, name: str) -> str:
    """Return the name under which a thing is in the list already, or the name itself."""
    known = (thing.name for thing in equipment_list(job))
    return next((each for each in known if same_name(each, name)), name)
