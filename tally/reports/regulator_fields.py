"""The smallest set of fields that regulators ask for, to be copied into the form of the place."""

from __future__ import annotations

from tally.job.cement_job import SlurryWanted
from tally.job.figures import show
from tally.reports.cement_fields import (
    additives_told,
    displaced,
    doubts_told,
    sacks_told,
    shoe_test_told,
    slurry_of,
    tested_told,
    yield_told,
)
from tally.reports.fields import Fields, fields, reckoned, step_at, step_record, step_told
from tally.reports.final_tally import FinalTally
from tally.reports.mixing_fields import surface_told
from tally.reports.text_parts import stamp


def regulator_fields(tally: FinalTally) -> tuple[Fields, ...]:
    """Return the fields, group by group."""
    return (_well(tally), _string(tally), _cement(tally), _events(tally), _people(tally))


def _well(tally: FinalTally) -> Fields:
    well = tally.setup.well
    return fields(
        "Well",
        (
            ("operator", well.operator),
            ("well", well.name),
            ("location", well.location),
            ("rig", well.rig),
            ("contractor", ""),
            ("permit or well number", ""),
            ("casing run", _dates(tally)),
            ("cemented", _cemented(tally)),
        ),
    )


def _dates(tally: FinalTally) -> str:
    if not tally.rows:
        return ""
    return f"{stamp(tally.rows[0].at)} to {stamp(tally.rows[-1].at)}"


def _cemented(tally: FinalTally) -> str:
    times = [step_at(tally.job, each) for each in ("first-slurry", "bumped")]
    return " to ".join(each for each in times if each)


def _string(tally: FinalTally) -> Fields:
    setup, step = tally.setup, tally.setup.step
    used = {row.pipe.name for row in tally.rows}
    pipes = [pipe for pipe in setup.pipes if pipe.name in used]
    said = (
        ", ".join(
            part for part in (p.outer_diameter.text, p.weight.text, p.grade, p.connection) if part
        )
        for p in pipes
    )
    return fields(
        "String",
        (
            ("string", setup.well.string),
            ("hole size", setup.hole.diameter.text),
            ("hole depth", setup.hole.depth.text),
            ("casing size, weight, grade", "; ".join(said)),
            ("setting depth", step.with_unit(tally.depths.shoe) if tally.final else ""),
            ("datum of depths", setup.well.datum),
            ("joints run", f"{tally.balance.run.count:,}"),
            ("centralizers and scratchers", _pieces(tally)),
        ),
    )


def _pieces(tally: FinalTally) -> str:
    return ", ".join(f"{one.installed} {one.what}" for one in tally.fittings)


def _cement(tally: FinalTally) -> Fields:
    told: list[tuple[str, str | None]] = []
    job = tally.job
    for fluid in tally.setup.fluids:
        if fluid.kind != "slurry":
            continue
        made = slurry_of(tally, fluid)
        volumes = _amounts(tally, made) if made else ""
        told.append((f"{fluid.name}: cement", fluid.cement))
        told.append((f"{fluid.name}: additives", additives_told(tally, fluid)))
        told.append((f"{fluid.name}: amounts", volumes))
        if made and made.recipe.doubts:
            told.append((f"{fluid.name}: in doubt", doubts_told(made)))
    told.append(("slurry pumped", step_told(job, "slurry-away")))
    told.append(("returns", step_told(job, "displacement-started")))
    told.append(("cement returned to surface", surface_told(tally, "cement")))
    told.append(("top of cement by the programme", reckoned(tally, "cement_top")))
    told.append(("top of cement as found, method", ""))
    return fields("Cement", told)


def _amounts(tally: FinalTally, made: SlurryWanted) -> str:
    return (
        f"{show(tally.job, made.volume, 'volume')}; {sacks_told(tally, made)}; "
        f"yield of a sack {yield_told(tally, made)}; "
        f"density {show(tally.job, made.recipe.density, 'density')}"
    )


def _events(tally: FinalTally) -> Fields:
    job = tally.job
    return fields(
        "Pressures, rates, times and events",
        (
            *(
                (label, step_told(job, step))
                for label, step in (
                    ("line test", "line-test"),
                    ("first slurry", "first-slurry"),
                    ("top plug released", "top-plug-released"),
                )
            ),
            *displaced(tally),
            ("pressure before the bump", step_told(job, "pressure-before-bump")),
            ("plug bumped", step_told(job, "bumped")),
            ("bump pressure", _value(tally, "bump-pressure")),
            ("floats", step_told(job, "floats-held")),
            ("waiting began", step_at(job, "waiting-started")),
            ("test of the shoe", shoe_test_told(tally)),
            ("casing test, pressure, time, result", tested_told(tally, "casing")),
        ),
    )


def _value(tally: FinalTally, step_id: str) -> str:
    record = step_record(tally.job, step_id)
    return record.value if record else ""


def _notices(tally: FinalTally) -> str:
    return "; ".join(
        f"{one.about} to {one.to}, {one.means}, {one.when or stamp(one.at)}, by {one.given}"
        for one in tally.job.notices
    )


def _people(tally: FinalTally) -> Fields:
    names = "; ".join(f"{person.name}, {person.role}" for person in tally.people)
    open_ = len(tally.open_exceptions)
    return fields(
        "People and notices",
        (
            ("people", names),
            ("notices given", _notices(tally)),
            ("exceptions", f"{len(tally.exceptions)}, of them open {open_}; see the report"),
        ),
    )
