"""Set-ups drawn by lot, such as the forms or a job file can make: everything in them may be."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st

from tally.job.limits import LIMITS
from tally.job.setup import (
    CENTRALIZER_KINDS,
    EXCESS_ON,
    FILL_SOURCES,
    ITEM_KINDS,
    MUD,
    ROLES,
    SHARE_OF,
    WAITING_NEEDS,
    ZONE_FLUIDS,
    Additive,
    CentralizerKind,
    CentralizerLoad,
    Dial,
    Equipment,
    Filling,
    Fluid,
    Hole,
    HoleSection,
    KeepClear,
    Lengths,
    Limit,
    Person,
    Pipe,
    Planned,
    PreviousCasing,
    Pumping,
    RackRules,
    Rule,
    Setup,
    SpaceOut,
    Station,
    StrengthReading,
    Waiting,
    WaitingRule,
    Weights,
    Well,
    Zone,
)
from tally.units import QUANTITIES, clean, known_units, read, tally_step

LETTERS = "abXY 019\u00c5\u00f8\u4e95[](){}=#'\"\\,;:-+*/|<>%&$~"
HOSTILE = (
    "=1+1",
    "[/]",
    "[hole]",
    "\\u202e",
    'a "b" \\ c',
    "# no",
    "'''",
    "\u00c5se",
    "a, b",
    "4127",
)
CASINGS = (("7 in", "26 lb/ft", "6.276 in"), ("9-5/8 in", "47 lb/ft", "8.681 in"))


def texts(least: int = 1) -> st.SearchStrategy[str]:
    """Text that a person may type, nasty but printable."""
    drawn = st.text(LETTERS, max_size=12).map(lambda text: clean(f"x{text}"))
    some = st.one_of(st.sampled_from(HOSTILE), drawn)
    return some if least else st.one_of(st.just(""), some)


def measures(quantity: str, least: int, most: int, unit: str) -> st.SearchStrategy[Any]:
    """A measure of so many hundredths of a unit."""
    return st.integers(least * 100, most * 100).map(
        lambda hundredths: read(f"{hundredths / 100:.2f} {unit}", quantity)
    )


def feet(least: int, most: int) -> st.SearchStrategy[Any]:
    """A depth."""
    return measures("length", least, most, "ft")


def optional(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Something or nothing."""
    return st.none() | strategy


@st.composite
def setups(draw: st.DrawFn) -> Setup:
    """A whole set-up."""
    depth = draw(feet(8000, 9000))
    shoe = draw(feet(1000, 3000))
    zones = draw(_zones())
    pipes = draw(_pipes())
    fluids = draw(_fluids())
    kinds = draw(_kinds())
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
        pumping=draw(_pumping()),
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
        strengths=draw(_strengths(["", *(each.name for each in fluids if each.kind == "slurry")])),
        waiting_rules=draw(_waiting_rules()),
        units=draw(st.sampled_from(("field", "metric"))),
        shown_in=draw(_shown_in()),
        fluids=fluids,
        additives=draw(_additives([each.name for each in fluids if each.kind == "slurry"])),
        dials=draw(_dials([MUD, *(each.name for each in fluids)])),
        centralizers=kinds,
        centralizer_loads=draw(_loads([each.what for each in kinds])),
    )


@st.composite
def _strengths(draw: Any, names: list[str]) -> tuple[StrengthReading, ...]:
    """One laboratory curve that rises, of the slurry at the coldest point or one by name."""
    fluid = draw(st.sampled_from(names))
    cured = draw(optional(measures("temperature", 40, 300, "degF")))
    hours = sorted(draw(st.lists(st.integers(1, 96), max_size=4, unique=True)))
    psi = sorted(draw(st.lists(st.integers(1, 5000), min_size=len(hours), max_size=len(hours))))
    return tuple(
        StrengthReading(
            fluid=fluid,
            time=read(f"{hour} h", "time"),
            strength=read(f"{strength} psi", "pressure"),
            temperature=cured,
        )
        for hour, strength in zip(hours, psi, strict=True)
    )


def _waiting_rules() -> st.SearchStrategy[tuple[WaitingRule, ...]]:
    time, strength = measures("time", 1, 48, "h"), measures("pressure", 50, 3000, "psi")
    words = {"clause": texts(0), "strings": texts(0), "where": texts(0), "says": texts(0)}
    rule = st.builds(
        WaitingRule,
        name=texts(),
        place=texts(),
        time=time,
        strength=optional(strength),
        need=st.sampled_from(WAITING_NEEDS),
        **words,
    )
    lists = st.lists(rule, max_size=2, unique_by=lambda each: each.name)
    return lists.map(tuple)


def _filling() -> st.SearchStrategy[Filling]:
    return st.builds(
        Filling,
        closed_end=st.booleans(),
        source=st.sampled_from(FILL_SOURCES),
        interval=optional(st.integers(1, 40)),
        design_factor=optional(measures("number", 1, 2, "")),
        float_rating=optional(measures("pressure", 500, 5000, "psi")),
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


def _pumping() -> st.SearchStrategy[Pumping]:
    volume = measures("volume", 0, 900, "bbl")
    return st.builds(
        Pumping,
        mud_weight=measures("density", 8, 18, "lb/gal"),
        plastic_viscosity=optional(measures("viscosity", 8, 40, "cP")),
        yield_point=optional(measures("yield point", 4, 40, "lbf/100ft2")),
        conditioning_rate=optional(measures("flow rate", 2, 20, "bbl/min")),
        gel_strength=optional(measures("yield point", 1, 40, "lbf/100ft2")),
        volume_per_stroke=optional(measures("volume per stroke", 1, 9, "gal/stroke")),
        efficiency=optional(measures("ratio", 80, 100, "%")),
        rate=optional(measures("flow rate", 1, 20, "bbl/min")),
        head_volume=optional(volume),
        slurry_volume=optional(volume),
        spacer_volume=optional(volume),
        final_pressure=optional(measures("pressure", 1, 5000, "psi")),
        bottom_plugs=st.integers(0, 2),
        relief=optional(measures("pressure", 1000, 9000, "psi")),
        excess_applies_to=st.sampled_from(EXCESS_ON),
        pocket_filled=st.booleans(),
        line_volume=optional(volume),
        line_full_at_zero=st.booleans(),
        wash_up_volume=optional(volume),
        dead_volume=optional(volume),
        reserve=optional(measures("ratio", 0, 50, "%")),
        batch_mixed=st.booleans(),
        mixing_rate=optional(measures("flow rate", 1, 9, "bbl/min")),
        plug_time=optional(measures("time", 1, 30, "min")),
        compressibility=optional(measures("compressibility", 0, 2, "%/1000psi")),
        plug_rating=optional(measures("pressure", 1000, 9000, "psi")),
        collar_rating=optional(measures("pressure", 1000, 9000, "psi")),
    ).flatmap(_with_head)


def _with_head(pumping: Pumping) -> st.SearchStrategy[Pumping]:
    """A rating goes with a head that has a volume."""
    if pumping.head_volume is None:
        return st.just(pumping)
    rating = optional(measures("pressure", 1000, 9000, "psi"))
    return rating.map(lambda rated: replace(pumping, head_rating=rated))


@st.composite
def _fluids(draw: st.DrawFn) -> tuple[Fluid, ...]:
    """Fluids in an order in which they can be pumped, each with its amount said in one way."""
    ahead = draw(st.lists(st.sampled_from(("preflush", "spacer", "slurry")), max_size=3))
    behind = ["displacement"] * draw(st.integers(0, 2))
    if not ahead and not behind:
        return ()
    kinds = [*ahead, "slurry", *behind]
    open_one = len(kinds) - 1 if draw(st.booleans()) else 0
    return tuple(_fluid(draw, place, kind, place == open_one) for place, kind in enumerate(kinds))


def _fluid(draw: st.DrawFn, place: int, kind: str, open_one: bool) -> Fluid:
    amounts = [{"volume": measures("volume", 1, 90, "bbl")}]
    if kind == "displacement":
        amounts = [{}] if open_one else amounts
    else:
        rate = measures("flow rate", 1, 9, "bbl/min")
        amounts += [
            {"length": feet(1, 900)},
            {"top": feet(1, 900)},
            {"contact": measures("time", 1, 20, "min"), "rate": rate},
        ]
    said = {name: draw(each) for name, each in draw(st.sampled_from(amounts)).items()}
    slurry = {
        "cement": draw(texts(0)),
        "sack": draw(optional(measures("mass", 50, 110, "lb"))),
        "slurry_yield": draw(optional(measures("slurry yield", 1, 3, "ft3/sk"))),
        "mix_water": draw(optional(measures("mix water", 4, 12, "gal/sk"))),
        "thickening_time": draw(optional(measures("time", 100, 600, "min"))),
    }
    return Fluid(
        name=f"{draw(texts())} {place}",
        kind=kind,
        density=draw(optional(measures("density", 9, 18, "lb/gal"))),
        plastic_viscosity=draw(optional(measures("viscosity", 1, 90, "cP"))),
        yield_point=draw(optional(measures("yield point", 1, 40, "lbf/100ft2"))),
        **said,
        **(slurry if kind == "slurry" else {}),
    )


def _additives(slurries: list[str]) -> st.SearchStrategy[tuple[Additive, ...]]:
    if not slurries:
        return st.just(())
    names = {"fluid": st.sampled_from(slurries), "material": texts()}
    share = st.builds(
        Additive, **names, share=measures("ratio", 1, 40, "%"), of=st.sampled_from(SHARE_OF)
    )
    by_sack = st.builds(Additive, **names, per_sack=measures("mix water", 0, 2, "gal/sk"))
    return st.lists(share | by_sack, max_size=3).map(tuple)


def _dials(fluids: list[str]) -> st.SearchStrategy[tuple[Dial, ...]]:
    read_at = st.tuples(st.sampled_from(fluids), st.sampled_from(("600 rpm", "300 rpm", "3 rpm")))
    return st.lists(read_at, max_size=4, unique=True).flatmap(
        lambda drawn: st.tuples(
            *(
                st.builds(
                    Dial,
                    fluid=st.just(fluid),
                    speed=st.just(read(speed, "rotary speed")),
                    dial=measures("number", 1, 90, ""),
                )
                for fluid, speed in drawn
            )
        )
    )


def _kinds() -> st.SearchStrategy[tuple[CentralizerKind, ...]]:
    kind = st.builds(
        CentralizerKind,
        what=texts(),
        kind=st.sampled_from(CENTRALIZER_KINDS),
        outer_diameter=measures("diameter", 9, 13, "in"),
        restoring_force=optional(measures("force", 100, 3000, "lbf")),
        starting_force=optional(measures("force", 100, 3000, "lbf")),
    )
    return st.lists(kind, max_size=2, unique_by=lambda each: each.what).map(tuple)


def _loads(kinds: list[str]) -> st.SearchStrategy[tuple[CentralizerLoad, ...]]:
    if not kinds:
        return st.just(())
    rising = st.lists(st.integers(1, 400), max_size=3, unique=True).map(sorted)
    return rising.map(
        lambda drawn: tuple(
            CentralizerLoad(
                what=kinds[0],
                deflection=read(f"{each / 100:.2f} in", "length"),
                load=read(f"{each} lbf", "force"),
            )
            for each in drawn
        )
    )


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
