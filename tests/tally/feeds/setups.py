"""Set-ups drawn by lot, such as the forms or a job file can make: everything in them may be."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from hypothesis import strategies as st

from tally.job.limits import LIMITS
from tally.job.setup import (
    FILL_SOURCES,
    ITEM_KINDS,
    MUD,
    ROLES,
    ZONE_FLUIDS,
    Equipment,
    Filling,
    Hole,
    HoleSection,
    KeepClear,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    RackRules,
    Rule,
    Setup,
    SpaceOut,
    Station,
    Waiting,
    Weights,
    Well,
    Zone,
)
from tally.units import QUANTITIES, known_units, read, tally_step
from tests.tally.feeds.setup_fluids import (
    additives,
    centralizer_kinds,
    dials,
    loads,
    materials,
    planned_fluids,
    pumping,
    strengths,
    waiting_rules,
)
from tests.tally.feeds.setup_values import feet, measures, optional, texts

CASINGS = (("7 in", "26 lb/ft", "6.276 in"), ("9-5/8 in", "47 lb/ft", "8.681 in"))


@st.composite
def setups(draw: st.DrawFn) -> Setup:
    """A whole set-up."""
    depth = draw(feet(8000, 9000))
    shoe = draw(feet(1000, 3000))
    zones = draw(_zones())
    pipes = draw(_pipes())
    fluids = draw(planned_fluids())
    kinds = draw(centralizer_kinds())
    return Setup(
        well=draw(_well()),
        hole=Hole(
            diameter=read("12-1/4 in", "diameter"), depth=depth, casing_point=draw(feet(7000, 8000))
        ),
        previous=draw(optional(st.just(_casing("13-3/8 in", shoe)))),
        other_casings=tuple(
            draw(st.lists(st.just(_casing("20 in", read("300 ft", "length"))), max_size=2))
        ),
        sections=draw(_sections(shoe, depth)),
        zones=zones,
        survey=draw(_survey()),
        lengths=(lengths := draw(_lengths())),
        pipes=pipes,
        pumping=draw(pumping()),
        items=(items := draw(_items(lengths.unit, [each.name for each in pipes]))),
        order=draw(_order(items)),
        programme=draw(_programme([each.name for each in zones])),
        people=draw(_people()),
        limits=draw(_limits()),
        filling=draw(_filling()),
        weights=draw(_weights()),
        equipment=tuple(
            draw(st.lists(st.builds(Equipment, name=texts(), supplier=texts(0)), max_size=3))
        ),
        rack=RackRules(drift_records=draw(st.booleans())),
        space_out=draw(_space_out()),
        keep_clear=draw(_keep_clear()),
        waiting=draw(
            st.builds(Waiting, coldest=optional(measures("temperature", 40, 300, "degF")))
        ),
        strengths=draw(strengths(["", *(each.name for each in fluids if each.kind == "slurry")])),
        waiting_rules=draw(waiting_rules()),
        units=draw(st.sampled_from(("field", "metric"))),
        shown_in=draw(_shown_in()),
        fluids=fluids,
        additives=draw(additives([each.name for each in fluids if each.kind == "slurry"])),
        materials=draw(materials()),
        dials=draw(dials([MUD, *(each.name for each in fluids)])),
        centralizers=kinds,
        centralizer_loads=draw(loads([each.what for each in kinds])),
    )


def _filling() -> st.SearchStrategy[Filling]:
    return st.builds(
        Filling,
        closed_end=st.booleans(),
        source=st.sampled_from(FILL_SOURCES),
        interval=optional(st.integers(1, 40)),
        design_factor=optional(measures("number", 1, 2, "")),
        float_rating=optional(measures("pressure", 500, 5000, "psi")),
        converts_at_rate=optional(measures("flow rate", 2, 12, "bbl/min")),
        converts_at_pressure=optional(measures("pressure", 100, 900, "psi")),
    )


def _weights() -> st.SearchStrategy[Weights]:
    return st.builds(
        Weights,
        block_weight=optional(measures("force", 20, 90, "klbf")),
        friction_cased=optional(st.just(read("0.2", "number"))),
        friction_open=optional(st.just(read("0.35", "number"))),
        elevator_rating=optional(measures("force", 200, 900, "klbf")),
        hoisting_rating=optional(measures("force", 200, 900, "klbf")),
        tension_share=optional(measures("ratio", 50, 99, "%")),
    )


def _space_out() -> st.SearchStrategy[SpaceOut]:
    return st.builds(
        SpaceOut,
        pocket=optional(feet(1, 90)),
        pocket_band=optional(feet(0, 9)),
        stick_up_band=optional(feet(0, 3)),
        hang_off=optional(feet(1, 90)),
        coupling=optional(feet(0, 2)),
    )


def _keep_clear() -> st.SearchStrategy[tuple[KeepClear, ...]]:
    above = st.builds(KeepClear, name=texts(), above=feet(0, 9), bottom=feet(0, 5))
    below = st.builds(KeepClear, name=texts(), top=feet(1, 9), bottom=feet(10, 50))
    return st.lists(above | below, max_size=2, unique_by=lambda each: each.name).map(tuple)


def _well() -> st.SearchStrategy[Well]:
    return st.builds(
        Well,
        name=texts(),
        string=texts(),
        rig=texts(0),
        operator=texts(0),
        location=texts(0),
        datum=texts(),
        datum_elevation=optional(feet(0, 900)),
    )


def _casing(name: str, shoe: Any) -> PreviousCasing:
    return PreviousCasing(name=name, shoe=shoe, inner_diameter=read("12.615 in", "diameter"))


@st.composite
def _sections(draw: st.DrawFn, shoe: Any, depth: Any) -> tuple[HoleSection, ...]:
    if draw(st.booleans()):
        return ()
    middle = draw(feet(4000, 5000))
    cuts, wide = [shoe, middle, depth], read("12-1/4 in", "diameter")
    how = draw(st.sampled_from(("excess", "caliper", "")))
    value = {"excess": read("20 %", "ratio"), "caliper": read("13 in", "diameter")}.get(how)
    more = {how: value} if how else {}
    return tuple(
        HoleSection(top=top, bottom=bottom, diameter=wide, **more) for top, bottom in pairwise(cuts)
    )


def _zones() -> st.SearchStrategy[tuple[Zone, ...]]:
    zone = st.builds(
        Zone,
        name=texts(),
        top=feet(100, 3000),
        bottom=feet(3001, 7000),
        weak_at=optional(measures("density", 12, 18, "lb/gal")),
        fluid=st.sampled_from(("", *ZONE_FLUIDS)),
        pore=optional(measures("density", 8, 11, "lb/gal")),
    )
    return st.lists(zone, max_size=3, unique_by=lambda each: each.name.casefold()).map(tuple)


def _survey() -> st.SearchStrategy[tuple[Station, ...]]:
    depths = st.lists(st.integers(0, 7000), max_size=6, unique=True).map(sorted)
    angles = st.tuples(measures("angle", 0, 120, "deg"), measures("angle", 0, 360, "deg"))
    return depths.flatmap(
        lambda found: st.tuples(*[angles for _ in found]).map(
            lambda turned: tuple(
                Station(measured_depth=read(f"{depth} ft", "length"), inclination=i, azimuth=a)
                for depth, (i, a) in zip(found, turned, strict=True)
            )
        )
    )


@st.composite
def _lengths(draw: st.DrawFn) -> Lengths:
    unit = draw(st.sampled_from(("ft", "m", "mm")))
    stick = draw(st.sampled_from(("", "3.22 ft", "1 m", "3")))
    overall = draw(st.booleans())
    return Lengths(
        unit=unit,
        measured_as="overall" if overall else "running",
        make_up_loss=read("3.875 in", "length").text if overall else "",
        stick_up=tally_step(unit).read(stick) if stick else 0,
        stick_up_typed=stick,
    )


@st.composite
def _pipes(draw: st.DrawFn) -> tuple[Pipe, ...]:
    made = []
    for place, name in enumerate(draw(st.lists(texts(), min_size=1, max_size=2, unique=True))):
        outer, weight, inner = CASINGS[place]
        ranged = draw(st.booleans())
        made.append(
            Pipe(
                name=name,
                outer_diameter=read(outer, "diameter"),
                inner_diameter=read(inner, "diameter"),
                weight=read(weight, "mass per length"),
                grade=draw(texts(0)),
                connection=draw(texts(0)),
                shortest=read("34 ft", "length") if ranged else None,
                longest=read("48 ft", "length") if ranged else None,
                collapse_rating=draw(optional(measures("pressure", 3000, 9000, "psi"))),
                connection_strength=draw(optional(measures("force", 400, 1500, "klbf"))),
                torque_minimum=draw(optional(measures("torque", 4000, 9000, "ft-lbf"))),
                torque_optimum=draw(optional(measures("torque", 9000, 12000, "ft-lbf"))),
                torque_maximum=draw(optional(measures("torque", 12000, 15000, "ft-lbf"))),
            )
        )
    return tuple(made)


@st.composite
def _items(draw: st.DrawFn, unit: str, pipes: list[str]) -> tuple[Planned, ...]:
    step, typed = tally_step(unit), draw(st.sampled_from(("1.95 ft", "1' 9 in", "0,60 m")))
    others = draw(st.lists(st.sampled_from(ITEM_KINDS[3:]), max_size=3))
    return tuple(
        Planned(
            number=f"{kind[:5].strip()}{place}",
            kind=kind,
            length=step.read(typed),
            typed=typed,
            pipe=draw(st.sampled_from(("", *pipes))),
            description=draw(texts(0)),
        )
        for place, kind in enumerate(("shoe", "collar", *others))
    )


@st.composite
def _order(draw: st.DrawFn, items: tuple[Planned, ...]) -> tuple[str, ...]:
    joints = draw(st.lists(st.integers(1, 40), unique=True, min_size=1, max_size=30))
    begun = draw(st.integers(0, 3))
    numbers = [str(each) for each in sorted(joints)[:begun] + joints[begun:]]
    numbers = list(dict.fromkeys(numbers))
    rest = [*numbers, *(one.number for one in items[1:])]
    shuffled = draw(st.permutations(rest)) if draw(st.booleans()) else rest
    return (items[0].number, *shuffled) if draw(st.booleans()) else ()


def _programme(zones: list[str]) -> st.SearchStrategy[tuple[Rule, ...]]:
    what = st.sampled_from(("bow centralizer", "rigid centralizer", "scratcher", "stop collar"))
    position = st.sampled_from(("mid-joint", "over the coupling"))
    joints = st.sets(st.just(1), min_size=1).map(sorted).map(tuple)
    every, count = st.integers(1, 5), st.integers(1, 20)
    kinds = [
        st.builds(Rule, what=what, joints=st.just(()), position=position, count=count, every=every,
                  top=feet(10, 300), bottom=optional(feet(301, 900)))
    ]  # fmt: skip
    if zones:
        zone = st.sampled_from(zones)
        kinds.append(st.builds(Rule, what=what, zone=zone, every=every, joints=joints))
    return st.lists(st.one_of(kinds), max_size=4).map(tuple)


def _people() -> st.SearchStrategy[tuple[Person, ...]]:
    people = st.builds(Person, name=texts(), role=st.sampled_from(ROLES))
    return st.lists(
        people, max_size=3, unique_by=lambda one: tuple(one.name.casefold().split())
    ).map(tuple)


@st.composite
def _limits(draw: st.DrawFn) -> dict[str, Limit]:
    keys = draw(st.lists(st.sampled_from(sorted(LIMITS)), unique=True, max_size=4))
    return {
        key: Limit(
            text=read(QUANTITIES[LIMITS[key].quantity].example, LIMITS[key].quantity).text,
            owner=draw(texts()),
            source=draw(texts(0)),
        )
        for key in keys
    }


@st.composite
def _shown_in(draw: st.DrawFn) -> dict[str, str]:
    switched = draw(st.lists(st.sampled_from(("length", "pressure", "flow rate")), unique=True))
    return {each: draw(st.sampled_from(known_units(each))) for each in switched}
