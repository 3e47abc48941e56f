"""Which lists of tables of a job file make which parts of a set-up, field by field."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tally.feeds import job_catalogue
from tally.feeds.job_tables import Table
from tally.job import setup


@dataclass(frozen=True, slots=True)
class Listed:
    """A list of tables whose rows have the fields of a part of the set-up, one for one."""

    name: str
    field: str
    """The field of the set-up that holds them."""
    kind: type[Any]

    @property
    def table(self) -> type[Table]:
        """The table of one row."""
        return job_catalogue.LISTS[self.name]


LISTED = (
    Listed("hole_section", "sections", setup.HoleSection),
    Listed("other_casing", "other_casings", setup.PreviousCasing),
    Listed("zone", "zones", setup.Zone),
    Listed("survey", "survey", setup.Station),
    Listed("viscometer", "dials", setup.Dial),
    Listed("fluid", "fluids", setup.Fluid),
    Listed("additive", "additives", setup.Additive),
    Listed("material", "materials", setup.OwnMaterial),
    Listed("centralizer_kind", "centralizers", setup.CentralizerKind),
    Listed("centralizer_load", "centralizer_loads", setup.CentralizerLoad),
    Listed("keep_clear", "keep_clear", setup.KeepClear),
    Listed("strength", "strengths", setup.StrengthReading),
    Listed("waiting_rule", "waiting_rules", setup.WaitingRule),
    Listed("equipment", "equipment", setup.Equipment),
    Listed("people", "people", setup.Person),
)
