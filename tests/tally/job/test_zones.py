"""What stands about a zone: done and in doubt, by the job as run."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from demo_db.play import entries
from tally.job.entries.conditioning import PipeMoved
from tally.job.entries.running import ItemRun
from tally.job.fold import fold
from tally.job.job import Fitting
from tally.job.setup import Rule, Zone
from tally.job.zones import Told, ZoneRecord, how_far, zone_records
from tally.units import read
from tests.tally.job.centred import centred
from tests.tally.job.invented import REP, Telling, limits, pumping_down, running
from tests.tally.job.invented_programme import TOLERANCES, WASH, cemented, cementing

SAND = Zone(
    name="sand",
    top=read("400 ft", "length"),
    bottom=read("440 ft", "length"),
    fluid="oil",
    pore=read("9 lb/gal", "density"),
    weak_at=read("15 lb/gal", "density"),
)


def record(told: Telling) -> ZoneRecord:
    (found,) = zone_records(told.job)
    return found


def pumped(zone: Zone = SAND, **changed: Any) -> Telling:
    return pumping_down(cemented(zones=(zone,), **changed))


def said(told: Telling) -> str:
    found = record(told)
    return " ".join((*found.done, "| DOUBT", *found.doubts))


def test_the_slurry_over_it_and_how_far_it_goes_on() -> None:
    found = record(pumped())
    assert "Tail over 40.00 ft of 40.00 ft." in found.done
    assert any(one.startswith("Cement goes on 150.00 ft above it and") for one in found.done)


def test_where_cement_ends_inside_it_the_bare_length_is_a_doubt() -> None:
    high = replace(SAND, top=read("150 ft", "length"), bottom=read("300 ft", "length"))
    text = said(pumped(high)).split("| DOUBT")
    assert "Lead over 50.00 ft of 150.00 ft." in text[0]
    assert "No cement over 100.00 ft of it by the programme." in text[1]
    bare = replace(SAND, top=read("130 ft", "length"), bottom=read("150 ft", "length"))
    assert "No cement over it by the programme." in record(pumped(bare)).doubts


def test_a_preflush_that_passes_it_tells_its_contact_time() -> None:
    assert "Wash passes it for 5 min." in record(pumped()).done


def test_a_preflush_left_on_it_is_a_doubt() -> None:
    high = replace(SAND, top=read("200 ft", "length"), bottom=read("245 ft", "length"))
    short = replace(WASH, contact=read("1 min", "time"))
    fluids = (short, *cemented().fluids[1:])
    assert "Wash passes it for 1 min." in record(pumped(fluids=fluids)).done
    above = replace(SAND, top=read("230 ft", "length"), bottom=read("248 ft", "length"))
    told = record(pumped(replace(above, name="high"), fluids=fluids))
    assert "Wash is left standing on it." in told.doubts
    assert "No preflush or spacer passes all of it." in told.doubts
    assert high.top.value < above.top.value


@pytest.mark.parametrize(
    ("changed", "doubt"),
    [
        ({"pore": read("16 lb/gal", "density")}, "stands under its pore pressure, 16 lb/gal"),
        ({"weak_at": read("10 lb/gal", "density")}, "reaches what it takes fluid at, 10 lb/gal"),
        ({"pore": None}, "Its pore pressure is not in the set-up."),
        ({"weak_at": None}, "at which it takes fluid is not in the set-up"),
    ],
)
def test_the_standing_column_against_its_limits(changed: dict[str, Any], doubt: str) -> None:
    assert doubt not in said(pumped())
    assert doubt in " ".join(record(pumped(replace(SAND, **changed))).doubts)


def flowing(zone: Zone) -> Telling:
    """Return a job whose fluids all have what their friction is worked out from."""
    numbers: dict[str, Any] = {
        "plastic_viscosity": read("18 cP", "viscosity"),
        "yield_point": read("9 lbf/100ft2", "yield point"),
    }
    plan = cemented(pumping=cementing(**numbers))
    fluids = tuple(replace(each, **numbers) for each in plan.fluids)
    rated = limits(**TOLERANCES, diaphragm_pressure="600 psi")
    return pumping_down(replace(plan, fluids=fluids, zones=(zone,), limits=rated))


def test_what_pressed_on_it_while_pumping_against_its_limits() -> None:
    found = record(flowing(SAND))
    assert any(
        one.startswith("While pumping ") and one.endswith("by calculation.") for one in found.done
    )
    assert not any(one.startswith("While pumping") for one in found.doubts)
    tender = replace(
        SAND, weak_at=read("11 lb/gal", "density"), pore=read("10.1 lb/gal", "density")
    )
    doubts = record(flowing(tender)).doubts
    assert "While pumping it reaches 11 lb/gal, at which the zone takes fluid." in doubts
    assert "While pumping it falls under the pore pressure, 10.1 lb/gal." in doubts


def test_below_the_shoe_pumping_is_not_worked_out() -> None:
    deep = replace(SAND, top=read("490 ft", "length"), bottom=read("500 ft", "length"))
    doubts = record(flowing(deep)).doubts
    assert "What presses on it while pumping is not worked out below the shoe." in doubts


def fitted(*pieces: Fitting, **changed: Any) -> Telling:
    """Return a job with pieces on the joints of the zone, 40 to 41 ft apart."""
    told = Telling().starts(cemented(zones=(SAND,), **changed))
    for number in told.job.order:
        on_it = pieces if number in ("1", "2", "3") else ()
        told.says(ItemRun, number=number, fittings=on_it)
    return told.lands()


def test_scratchers_count_only_with_a_stroke_of_their_spacing() -> None:
    told = fitted(Fitting("scratcher", "mid-joint", 4), Fitting("bow centralizer"))
    found = record(told)
    # The shoe is at 485.71 ft, so joint 2 lies from 403.55 to 443.69 ft: its four and its one.
    assert "Centralizers on it: 1." in found.done
    assert "Scratchers on it: 4, none counted: stroke not known." in found.doubts
    told.says(PipeMoved, stroke=read("15 ft", "length"))
    assert any("with a stroke of 15 ft" in one and "reach" in one for one in record(told).done)
    told.says(PipeMoved, stroke=read("5 ft", "length"))
    assert any("with a stroke of 5 ft 0 reach" in one for one in record(told).doubts)


def test_what_stands_among_the_centralizers_is_one_whatever_its_name() -> None:
    line = Rule(what="bow", joints=(1, 2, 3), centralizer=True)
    found = record(fitted(Fitting("bow"), programme=(line,)))
    assert "Centralizers on it: 1." in found.done
    assert "No centralizer is on it." not in found.doubts
    fitting = replace(line, centralizer=False)
    assert "No centralizer is on it." in record(fitted(Fitting("bow"), programme=(fitting,))).doubts


def test_without_centralizers_it_says_so() -> None:
    found = record(pumped())
    assert "No centralizer is on it." in found.doubts
    assert "No scratcher is on it." in found.done


def test_standoff_over_it_or_why_it_is_not_known() -> None:
    assert any("survey" in one for one in record(pumped()).doubts)
    told = pumping_down(centred(zones=(SAND,), fluids=cemented().fluids))
    assert "Standoff over it" in said(told) or "The pipe lies on the wall" in said(told)


def test_losses_and_partial_returns_are_doubts() -> None:
    told = pumped()
    assert "1 bbl lost while circulating." in record(told).doubts
    assert "Returns while circulating: full." in record(told).done
    told.does("plug-release", "displacement-started", state="partial returns", despite="seen")
    assert "Returns while displacing: partial returns." in record(told).doubts


def test_less_slurry_than_planned_lowers_the_top() -> None:
    told = pumped()
    told.witnessed("plug-release", "slurry-away", value="5 bbl", despite="ran short")
    assert any("of slurry less than planned" in one for one in record(told).doubts)


def test_it_says_what_it_rests_on_and_never_that_the_zone_is_shut_off() -> None:
    told = pumped()
    assert how_far(told.job).startswith("No cement is in place yet: by the programme")
    told.does("plug-release", "displacement-started", state="full returns")
    told.does("plug-release", "bumped", state="rose sharply and stands", witness=REP)
    assert how_far(told.job).startswith("Cement in place by bump;")
    for word in ("isolat", "sealed", "safe", "shut off"):
        assert word not in said(told).lower()


def test_without_a_programme_each_thing_lacks_in_a_sentence() -> None:
    told = running("S1", "1", plan=replace(cemented(zones=(SAND,)), fluids=(), additives=()))
    doubts = record(told).doubts
    assert any("No fluid to pump is in the job set-up" in one for one in doubts)
    assert len(doubts) == len(set(doubts))


def _returns_told(seen_at_first: str) -> Told:
    """Return what is told of the returns of the demonstration, its first reading seen so."""
    told = [each for each in entries("end") if each.at <= "2026-03-12T17:41:30-06:00"]
    first = next(place for place, each in enumerate(told) if each.KIND == "pumped")
    told[first] = replace(told[first], returns_seen=seen_at_first)
    record = zone_records(fold(replace(each, seq=n) for n, each in enumerate(told, 1)))[0]
    return next(each for each in record.told if each.text.startswith("Returns read at"))


def test_returns_after_a_free_fall_are_not_told_as_lost_and_lost_ones_are() -> None:
    due = _returns_told("full")
    assert (
        due.text == "Returns read at 283.1 bbl: none, as is due after a free fall by calculation."
    )
    assert not due.doubt
    lost = _returns_told("none")
    assert lost.text == "Returns read at 37.0 bbl: none; a free fall does not explain it."
    assert lost.doubt
