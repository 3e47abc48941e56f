"""A set-up as the tables of a job file: read again, they give the same set-up."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tally.feeds.job_cement_tables import (
    HeadTable,
    MudTable,
    ProgrammeTable,
    PumpTable,
    WaitingTable,
)
from tally.feeds.job_faults import LIMITS_TABLE
from tally.feeds.job_lists import LISTED
from tally.feeds.job_tables import (
    FillingTable,
    FittingTable,
    HoleTable,
    ItemTable,
    PipeTable,
    PreviousTable,
    RackTable,
    SpaceOutTable,
    Table,
    TallyTable,
    WeightsTable,
    WellTable,
)
from tally.feeds.short_forms import in_short, order_in_short
from tally.job.centralizing import named_centralizer
from tally.job.setup import Rule, Setup
from tally.units import Measure

Tables = dict[str, Any]
OTHERWISE = {
    (TallyTable, "lengths"): "measured_as",
    (TallyTable, "stick_up"): "stick_up_typed",
    (ItemTable, "length"): "typed",
    (MudTable, "weight"): "mud_weight",
    (HeadTable, "volume"): "head_volume",
    (HeadTable, "rating"): "head_rating",
}
"""The fields of the set-up that have another name than their key in a job file."""


def document_of_setup(setup: Setup) -> Tables:
    """Return the tables of a job file that makes this set-up; the pipe list is no part of it."""
    order = order_in_short(setup.order, [one.number for one in setup.items])
    centralizers, fittings = _parted(setup.programme)
    listed = {each.name: _each(each.table, getattr(setup, each.field)) for each in LISTED}
    every = {
        "running_order": order,
        "well": _table(WellTable, setup.well),
        "hole": _table(HoleTable, setup.hole),
        "hole_section": listed["hole_section"],
        "previous_casing": _table(PreviousTable, setup.previous),
        "other_casing": listed["other_casing"],
        "zone": listed["zone"],
        "survey": listed["survey"],
        "tally": _table(TallyTable, setup.lengths),
        "units": _units(setup),
        "pipe": _each(PipeTable, setup.pipes),
        "mud": _table(MudTable, setup.pumping),
        "viscometer": listed["viscometer"],
        "pump": _table(PumpTable, setup.pumping),
        "head": _table(HeadTable, setup.pumping),
        "programme": _programme(setup),
        "fluid": listed["fluid"],
        "additive": listed["additive"],
        "material": listed["material"],
        "filling": _table(FillingTable, setup.filling),
        "weights": _table(WeightsTable, setup.weights),
        "item": _each(ItemTable, setup.items),
        "centralizer": _each(FittingTable, centralizers),
        "centralizer_kind": listed["centralizer_kind"],
        "centralizer_load": listed["centralizer_load"],
        "fitting": _each(FittingTable, fittings),
        "equipment": listed["equipment"],
        "rack": _table(RackTable, setup.rack),
        "space_out": _table(SpaceOutTable, setup.space_out),
        "keep_clear": listed["keep_clear"],
        "waiting": _table(WaitingTable, setup.waiting),
        "strength": listed["strength"],
        "waiting_rule": listed["waiting_rule"],
        "people": listed["people"],
        LIMITS_TABLE: _limits(setup),
    }
    return {name: table for name, table in every.items() if table}


def _table(kind: type[Table], thing: object) -> Tables:
    """Return a table as it would be typed; what stands as it does anyway is left out."""
    table: Tables = {}
    for name, info in kind.model_fields.items():
        value = getattr(thing, OTHERWISE.get((kind, name), name), None)
        if value not in (None, "", ()) and (info.is_required() or value != info.default):
            table[info.alias or name] = _as_typed(value)
    return table


def _as_typed(value: Any) -> Any:
    if isinstance(value, Measure):
        return value.text
    return in_short(value) if isinstance(value, tuple) else value


def _each(kind: type[Table], things: Iterable[object]) -> list[Tables]:
    return [_table(kind, thing) for thing in things]


def _programme(setup: Setup) -> Tables:
    """Return the cementing programme, or nothing where there is only the usual one plug."""
    table = _table(ProgrammeTable, setup.pumping)
    return table if table != {"bottom_plugs": 1} else {}


def _parted(programme: tuple[Rule, ...]) -> tuple[tuple[Rule, ...], tuple[Rule, ...]]:
    """Part the lines into centralizers and what follows; read again, centralizers come first."""
    first = next(
        (place for place, rule in enumerate(programme) if not _centralizer(rule)),
        len(programme),
    )
    return programme[:first], programme[first:]


def _centralizer(rule: Rule) -> bool:
    return rule.centralizer or named_centralizer(rule.what)


def _units(setup: Setup) -> Tables:
    switched = {quantity.replace(" ", "_"): unit for quantity, unit in setup.shown_in.items()}
    return {"set": setup.units, **switched} if setup.units else switched


def _limits(setup: Setup) -> Tables:
    return {
        key: {"value": limit.text, "owner": limit.owner}
        | ({"source": limit.source} if limit.source else {})
        for key, limit in setup.limits.items()
    }
