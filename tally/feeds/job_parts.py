"""From the tables of a job file to the parts of a set-up; what does not fit is noted as a fault."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from tally.errors import InputError
from tally.feeds.job_cement_tables import (
    HeadTable,
    MudTable,
    ProgrammeTable,
    PumpTable,
    WaitingTable,
)
from tally.feeds.job_faults import Fault, Spot
from tally.feeds.job_lists import LISTED, Listed
from tally.feeds.job_shape import Shape
from tally.feeds.job_tables import (
    FillingTable,
    FittingTable,
    ItemTable,
    PipeTable,
    PreviousTable,
    RackTable,
    SpaceOutTable,
    Table,
    TallyTable,
    WeightsTable,
)
from tally.job.centralizing import named_centralizer
from tally.job.limits import LIMITS
from tally.job.setup import (
    Filling,
    Hole,
    Lengths,
    Limit,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    RackRules,
    Rule,
    Setup,
    SpaceOut,
    Waiting,
    Weights,
    Well,
)
from tally.pipe.length_range import LENGTH_RANGES
from tally.pipe.sizes import find_casing
from tally.units import Measure, TallyStep, read, shown, tally_step, to_unit

STICK_UP = Spot("tally", "stick_up")
MAKE_UP_LOSS = Spot("tally", "make_up_loss")


@dataclass(frozen=True, slots=True)
class Parts:
    """What of the set-up could be made of the tables."""

    lengths: Lengths | None
    step: TallyStep
    pipes: tuple[Pipe, ...]
    items: tuple[Planned, ...]
    limits: dict[str, Limit]


def parts_of(shape: Shape) -> Parts:
    """Return the parts that take more than copying a table."""
    tally = shape.table("tally", TallyTable)
    step = tally_step(tally.unit if tally else "ft")
    lengths = _lengths(shape, tally, step) if tally else None
    return Parts(lengths, step, _pipes(shape), _items(shape, step), _limits(shape))


def setup_of(shape: Shape, parts: Parts, order: tuple[str, ...]) -> Setup:
    """Return the set-up of a file in which nothing was found wrong."""
    previous = shape.table("previous_casing", PreviousTable)
    filling = shape.table("filling", FillingTable)
    weights = shape.table("weights", WeightsTable)
    rack = shape.table("rack", RackTable)
    space_out = shape.table("space_out", SpaceOutTable)
    waiting = shape.table("waiting", WaitingTable)
    assert parts.lengths is not None  # a missing or unreadable [tally] is a fault
    return Setup(
        well=Well(**_fields(shape.tables["well"])),
        hole=Hole(**_fields(shape.tables["hole"])),
        previous=PreviousCasing(**_fields(previous)) if previous else None,
        lengths=parts.lengths,
        pipes=parts.pipes,
        pumping=_pumping(shape),
        items=parts.items,
        order=order,
        programme=rules_of(shape),
        limits=parts.limits,
        filling=Filling(**_fields(filling)) if filling else Filling(),
        weights=Weights(**_fields(weights)) if weights else Weights(),
        rack=RackRules(**_fields(rack)) if rack else RackRules(),
        space_out=SpaceOut(**_fields(space_out)) if space_out else SpaceOut(),
        waiting=Waiting(**_fields(waiting)) if waiting else Waiting(),
        units=shape.units.get("set", "field"),
        shown_in={key: unit for key, unit in shape.units.items() if key != "set"},
        **{each.field: _rows(shape, each) for each in LISTED},
    )


def _rows(shape: Shape, listed: Listed) -> tuple[Any, ...]:
    return tuple(listed.kind(**_fields(row)) for row in shape.rows(listed.name, listed.table))


def rules_of(shape: Shape) -> tuple[Rule, ...]:
    """Return the lines of the centralizer and scratcher programme, centralizers first."""
    first = shape.rows("centralizer", FittingTable)
    return (
        *(Rule(**_fields(each), centralizer=not named_centralizer(each.what)) for each in first),
        *(Rule(**_fields(each)) for each in shape.rows("fitting", FittingTable)),
    )


def _fields(table: Table) -> dict[str, Any]:
    return {name: getattr(table, name) for name in type(table).model_fields}


def _lengths(shape: Shape, tally: TallyTable, step: TallyStep) -> Lengths:
    return Lengths(
        unit=tally.unit,
        measured_as=tally.lengths,
        make_up_loss=_make_up_loss(shape, tally),
        stick_up=_steps(shape, STICK_UP, step, tally.stick_up) if tally.stick_up else 0,
        stick_up_typed=tally.stick_up,
    )


def _make_up_loss(shape: Shape, tally: TallyTable) -> str:
    where, typed = MAKE_UP_LOSS, tally.make_up_loss
    if tally.lengths == "running":
        if typed:
            said = f"{shown(typed)} goes with overall lengths only; take it out, or write"
            overall = ('lengths = "overall".', "overall for how the joints are measured.")
            shape.faults.append(Fault(where, f"{said} {overall[0]}", f"{said} {overall[1]}"))
        return ""
    if not typed:
        said = "is missing; overall lengths need it, like"
        loss = ('make_up_loss = "3.875 in".', "3.875 in.")
        shape.faults.append(Fault(where, f"{said} {loss[0]}", f"{said} {loss[1]}"))
        return ""
    try:
        return read(typed, "length", tally.unit).text
    except InputError as fault:
        shape.fault(where, str(fault))
        return ""


def _steps(shape: Shape, where: Spot, step: TallyStep, typed: str) -> int:
    try:
        return step.read(typed)
    except InputError as fault:
        shape.fault(where, str(fault))
        return 0


def _items(shape: Shape, step: TallyStep) -> tuple[Planned, ...]:
    planned = []
    for spot, item in shape.placed("item", ItemTable):
        where = replace(spot, called=item.number, key="length")
        faults = len(shape.faults)
        length = _steps(shape, where, step, item.length)
        if len(shape.faults) == faults and length == 0:
            shape.fault(where, f"{shown(item.length)} is no length of an item; measure it.")
        planned.append(
            Planned(
                number=item.number,
                kind=item.kind,
                length=length,
                typed=item.length,
                pipe=item.pipe,
                description=item.description,
            )
        )
    return tuple(planned)


def _pipes(shape: Shape) -> tuple[Pipe, ...]:
    made = [
        _pipe(shape, replace(spot, called=each.name), each)
        for spot, each in shape.placed("pipe", PipeTable)
    ]
    return tuple(each for each in made if each is not None)


def _pipe(shape: Shape, spot: Spot, table: PipeTable) -> Pipe | None:
    inner = table.inner_diameter or _looked_up(shape, spot, table)
    shortest, longest = _range(shape, spot, table)
    if inner is None:
        return None
    return Pipe(
        name=table.name,
        outer_diameter=table.outer_diameter,
        inner_diameter=inner,
        weight=table.weight,
        grade=table.grade,
        connection=table.connection,
        shortest=shortest,
        longest=longest,
        collapse_rating=table.collapse_rating,
        connection_strength=table.connection_strength,
        torque_minimum=table.torque_minimum,
        torque_optimum=table.torque_optimum,
        torque_maximum=table.torque_maximum,
    )


def _looked_up(shape: Shape, spot: Spot, table: PipeTable) -> Measure | None:
    """Return the inside diameter of the size table for the diameter and nominal weight."""
    try:
        row = find_casing(table.outer_diameter.value, table.weight.value)
    except InputError as fault:
        shape.fault(spot.at("inner_diameter"), f"is missing. {fault}")
        shape.spoilt.add("pipe")
        return None
    return read(f"{to_unit(row.inner_diameter, 'in'):.3f} in", "diameter")


def _range(shape: Shape, spot: Spot, table: PipeTable) -> tuple[Measure | None, Measure | None]:
    """Return the shortest and the longest joint: typed, or those of the length range."""
    shortest, longest = table.shortest, table.longest
    if table.length_range is not None:
        if shortest or longest:
            said = "the range gives shortest and longest; take out one or the other."
            shape.fault(spot.at("range"), said)
        first, last = LENGTH_RANGES[table.length_range]
        return read(first, "length"), read(last, "length")
    if shortest is None and longest is None:
        return None, None
    if shortest is None or longest is None:
        said = "shortest and longest go together; type both or neither."
        shape.fault(spot.at("shortest"), said)
        return None, None
    if shortest.value > longest.value:
        said = f"{shortest.text} is more than longest, {longest.text}."
        shape.fault(spot.at("shortest"), said)
        return None, None
    return shortest, longest


def _limits(shape: Shape) -> dict[str, Limit]:
    """Return the limits; each value was read for its quantity when the table was."""
    return {
        key: Limit(
            text=read(table.value, LIMITS[key].quantity).text,
            owner=table.owner,
            source=table.source,
        )
        for key, table in shape.limits.items()
    }


def _pumping(shape: Shape) -> Pumping:
    mud = shape.table("mud", MudTable)
    assert mud is not None  # a missing or unreadable [mud] is a fault
    pumping = Pumping(
        mud_weight=mud.weight,
        plastic_viscosity=mud.plastic_viscosity,
        yield_point=mud.yield_point,
        conditioning_rate=mud.conditioning_rate,
        gel_strength=mud.gel_strength,
    )
    head = shape.table("head", HeadTable)
    if head is not None:
        pumping = replace(pumping, head_volume=head.volume, head_rating=head.rating)
    for name, kind in (("pump", PumpTable), ("programme", ProgrammeTable)):
        table = shape.table(name, kind)
        if table is not None:
            pumping = replace(pumping, **_fields(table))
    return pumping
