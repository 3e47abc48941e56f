"""The set-up of a job as it stands: every value as it was typed."""

from __future__ import annotations

from collections.abc import Iterable

from textual.content import Content

from screens.ink import ATTENTION, INK, QUIET, Line, line, wrap
from tally.job.job import Job
from tally.job.limits import LIMITS
from tally.job.programme import programme
from tally.job.recipes import slurry_doubts
from tally.job.setup import Fluid, HoleSection, Pipe, PreviousCasing, Setup
from tally.units import Measure

LABEL, VALUE = 17, 14


def setup_lines(job: Job, width: int) -> list[Content]:
    """Return well, hole, casing, pipe, float equipment, programme, mud, pump and fill."""
    pairs = [*_well(job.known), *_string(job), *_pumping(job.known)]
    return [each for label, text in pairs if text for each in told(label, text, width)]


def told(label: str, text: str, width: int) -> list[Content]:
    """Return a label and its text, in as many lines as it takes."""
    broken = _broken(text, width - LABEL - 1)
    first = Line(width).put(0, label, QUIET).put(LABEL, broken[0], INK).content()
    return [first, *(Line(width).put(LABEL, each, INK).content() for each in broken[1:])]


def _well(setup: Setup) -> Iterable[tuple[str, str]]:
    well, hole = setup.well, setup.hole
    elevation = f"{well.datum_elevation.text} up" if well.datum_elevation else ""
    yield "well", _listed(well.name, well.string, well.rig, well.operator, well.location)
    yield "depths from", _listed(well.datum, elevation)
    yield "hole", f"{hole.diameter.text} to {hole.depth.text}"
    yield "casing point", hole.casing_point.text
    for section in setup.sections:
        yield "hole section", _section(section)
    if setup.previous is not None:
        yield "previous casing", _casing(setup.previous)
    for casing in setup.other_casings:
        yield "other casing", _casing(casing)
    for zone in setup.zones:
        weak = f"takes fluid at {zone.weak_at.text}" if zone.weak_at else ""
        yield "zone", _listed(zone.name, f"{zone.top.text} to {zone.bottom.text}", weak)


def _section(section: HoleSection) -> str:
    more = f"{section.excess.text} excess" if section.excess else ""
    caliper = f"{section.caliper.text} by the caliper" if section.caliper else ""
    return _listed(
        f"{section.top.text} to {section.bottom.text}", section.diameter.text, more, caliper
    )


def _casing(casing: PreviousCasing) -> str:
    top = f"top at {casing.top.text}" if casing.top else ""
    bore = f"inside {casing.inner_diameter.text}"
    return _listed(casing.name, top, f"shoe at {casing.shoe.text}", bore)


def _string(job: Job) -> Iterable[tuple[str, str]]:
    setup, lengths = job.known, job.known.lengths
    for pipe in setup.pipes:
        yield "pipe", _pipe(pipe)
    for item in setup.items:
        length = setup.step.with_unit(item.length)
        yield item.kind, _listed(item.number, length, item.description, item.pipe)
    loss = f"{lengths.make_up_loss} make-up loss taken off" if lengths.make_up_loss else ""
    yield "lengths", _listed(f"{lengths.measured_as} length in {setup.step.step_text} steps", loss)
    yield "usual stick-up", lengths.stick_up_typed
    yield "running order", f"{len(job.order)} items" if job.order else "as received"
    for rule in programme(job):
        times = f"{rule.count} x " if rule.count != 1 else ""
        on = f"on {len(rule.joints)} joints, {_joints(rule.joints)}"
        yield "programme", _listed(f"{times}{rule.what} {rule.position}", on)


def _pipe(pipe: Pipe) -> str:
    length = (
        f"{pipe.shortest.text} to {pipe.longest.text}" if pipe.shortest and pipe.longest else ""
    )
    sizes = (f"outside {pipe.outer_diameter.text}", f"inside {pipe.inner_diameter.text}")
    return _listed(pipe.name, *sizes, pipe.weight.text, pipe.grade, pipe.connection, length)


def _joints(joints: tuple[int, ...]) -> str:
    shown = ", ".join(str(joint) for joint in joints[:6])
    return shown if len(joints) <= 6 else f"{shown} .. {joints[-1]}"


def _fluid(fluid: Fluid) -> str:
    """Return a fluid of the programme: its density, and in which way how much of it is wanted."""
    amounts = (
        _text(fluid.volume),
        f"{fluid.length.text} of annulus" if fluid.length else "",
        f"top at {fluid.top.text}" if fluid.top else "",
        f"{fluid.contact.text} of contact" if fluid.contact else "",
    )
    rate = f"at {fluid.rate.text}" if fluid.rate else ""
    return _listed(_text(fluid.density), *amounts, rate, fluid.cement)


def _pumping(setup: Setup) -> Iterable[tuple[str, str]]:
    pump = setup.pumping
    thick = (_text(pump.plastic_viscosity), _text(pump.yield_point))
    rate = f"conditioned at {pump.conditioning_rate.text}" if pump.conditioning_rate else ""
    yield "mud", _listed(pump.mud_weight.text, *thick, rate)
    stroke, efficiency = _text(pump.volume_per_stroke), _text(pump.efficiency)
    yield "pump", _listed(stroke, f"at {efficiency}" if efficiency else "", _text(pump.rate))
    yield "head volume", _text(pump.head_volume)
    yield "bottom plugs", str(pump.bottom_plugs)
    if setup.fluids:
        for fluid in setup.fluids:
            yield fluid.name, _fluid(fluid)
        for doubt in slurry_doubts(setup):
            yield "in doubt", doubt.text
    else:
        yield "spacer", _text(pump.spacer_volume)
        yield "slurry", _text(pump.slurry_volume)
    yield "final pressure", _text(pump.final_pressure)
    filling = setup.filling
    ends = "closed end, filled" if filling.closed_end else "fills itself; topped up"
    yield "fill", f"{ends} from the {filling.source}"
    every = f"every {filling.interval} joints" if filling.interval else ""
    factor = f"design factor {filling.design_factor.text}" if filling.design_factor else ""
    float_rated = f"float {filling.float_rating.text}" if filling.float_rating else ""
    wants = " and ".join(
        each.text for each in (filling.converts_at_pressure, filling.converts_at_rate) if each
    )
    if wants:
        yield "auto-fill converts at", wants
    if every or factor or float_rated:
        yield "fill limits", _listed(every, factor, float_rated)
    weights = setup.weights
    if weights.block_weight:
        yield "block weight", weights.block_weight.text
    if weights.friction_cased and weights.friction_open:
        friction = f"{weights.friction_cased.text} cased, {weights.friction_open.text} open hole"
        yield "friction factor", friction
    gear = _listed(_text(weights.elevator_rating), _text(weights.hoisting_rating))
    if gear:
        yield "pull ratings", gear


def limit_lines(setup: Setup, width: int) -> list[Content]:
    """Return each limit with its value, who set it and where it comes from."""
    if not setup.limits:
        return [line("no limit is set", ATTENTION)]
    lines: list[Content] = []
    for key, limit in setup.limits.items():
        who = _broken(_listed(limit.owner, limit.source), width - VALUE)
        first, *more = [(each, INK) for each in who]
        meaning = LIMITS[key].meaning if key in LIMITS else key
        more += [(each, QUIET) for each in _broken(meaning, width - VALUE)]
        value = limit.text.rjust(VALUE - 2)
        lines.append(Line(width).put(0, value, INK).put(VALUE, *first).content())
        lines += [Line(width).put(VALUE, *each).content() for each in more]
    return lines


def people_lines(job: Job, width: int) -> list[Content]:
    """Return the people with their roles."""
    people = tuple(job.people.values())
    if not people:
        return [line("nobody is named: a add a person", ATTENTION)]
    role = min(max(len(one.name) for one in people) + 2, width - 22)
    return [
        Line(width).put(0, one.name[: role - 1]).put(role, one.role, QUIET).content()
        for one in people
    ]


def _broken(text: str, room: int) -> list[str]:
    return [each.plain for each in wrap(text, room)] or [""]


def _text(measure: Measure | None) -> str:
    return measure.text if measure else ""


def _listed(*parts: str) -> str:
    return ", ".join(part for part in parts if part)
