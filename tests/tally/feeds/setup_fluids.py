"""Fluids, pumping, centralizers and waiting of a set-up, drawn by lot."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import strategies as st

from tally.fluids.material_rows import ORIGINS
from tally.job.setup import (
    CENTRALIZER_KINDS,
    EXCESS_ON,
    SHARE_OF,
    WAITING_NEEDS,
    Additive,
    CentralizerKind,
    CentralizerLoad,
    Dial,
    Fluid,
    OwnMaterial,
    Pumping,
    StrengthReading,
    WaitingRule,
)
from tally.units import read
from tests.tally.feeds.setup_values import feet, measures, optional, texts


@st.composite
def strengths(draw: Any, names: list[str]) -> tuple[StrengthReading, ...]:
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


def waiting_rules() -> st.SearchStrategy[tuple[WaitingRule, ...]]:
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


def pumping() -> st.SearchStrategy[Pumping]:
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
def planned_fluids(draw: st.DrawFn) -> tuple[Fluid, ...]:
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


def additives(slurries: list[str]) -> st.SearchStrategy[tuple[Additive, ...]]:
    if not slurries:
        return st.just(())
    names = {"fluid": st.sampled_from(slurries), "material": texts()}
    share = st.builds(
        Additive, **names, share=measures("ratio", 1, 40, "%"), of=st.sampled_from(SHARE_OF)
    )
    by_sack = st.builds(Additive, **names, per_sack=measures("mix water", 0, 2, "gal/sk"))
    return st.lists(share | by_sack, max_size=3).map(tuple)


def materials() -> st.SearchStrategy[tuple[OwnMaterial, ...]]:
    one = st.builds(
        OwnMaterial,
        name=texts(),
        kind=st.sampled_from(("solid", "liquid")),
        specific_gravity=st.sampled_from(("0.70", "2.65", "4.2")),
        origin=st.sampled_from(ORIGINS),
        source=texts(),
        note=texts(0),
    )
    lists = st.lists(one, max_size=2, unique_by=lambda each: each.name.casefold())
    return lists.map(tuple)


def dials(fluids: list[str]) -> st.SearchStrategy[tuple[Dial, ...]]:
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


def centralizer_kinds() -> st.SearchStrategy[tuple[CentralizerKind, ...]]:
    kind = st.builds(
        CentralizerKind,
        what=texts(),
        kind=st.sampled_from(CENTRALIZER_KINDS),
        outer_diameter=measures("diameter", 9, 13, "in"),
        restoring_force=optional(measures("force", 100, 3000, "lbf")),
        starting_force=optional(measures("force", 100, 3000, "lbf")),
    )
    return st.lists(kind, max_size=2, unique_by=lambda each: each.what).map(tuple)


def loads(kinds: list[str]) -> st.SearchStrategy[tuple[CentralizerLoad, ...]]:
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
