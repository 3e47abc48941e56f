"""The running of the string as the casing and cementing report tells it."""

from __future__ import annotations

from tally.errors import ShoedownError
from tally.job.entry import seconds_between
from tally.job.equipment import equipment_list
from tally.job.figures import show
from tally.job.running_records import WeightReading
from tally.job.weight_band import expected_then
from tally.reports.cement_fields import tested_told
from tally.reports.fields import Fields, fields, reckoned, step_told
from tally.reports.final_tally import FinalTally
from tally.reports.item_cells import block_label, block_pieces
from tally.reports.tally_lines import Block
from tally.reports.text_parts import stamp, who

INTERVALS = ("interval", "items", "from", "to", "joints an hour")
WHILE = "see While running"
WEIGHTS = ("shoe at", "going down", "expected", "coming up", "expected", "at rest", "time")


def running_fields(tally: FinalTally) -> Fields:
    """Return what was entered of the running, and what no entry is for."""
    job, landing, hung = tally.job, tally.job.landing, tally.job.hung_off
    first = tally.rows[0].at if tally.rows else ""
    fills = sum(fill.volume for fill in job.fills)
    return fields(
        "Running the string",
        (
            ("first item run", stamp(first) if first else ""),
            ("last item run", stamp(tally.rows[-1].at) if tally.rows else ""),
            ("on depth", who(landing.by, landing.at) if landing else ""),
            ("hours, first item to on depth", _hours(first, landing.at if landing else "")),
            ("hung off", f"{hung.load.text}; {who(hung.by, hung.at)}" if hung else ""),
            ("hanger or slips", hung.how if hung else ""),
            ("fills", _counted(len(job.fills), show(job, fills, "volume"))),
            ("source of the fill", ", ".join(dict.fromkeys(fill.source for fill in job.fills))),
            ("trip tank, in all, expected", reckoned(tally, "tank_total_expected")),
            ("trip tank, in all, seen", reckoned(tally, "tank_total_seen")),
            ("trip tank, in all, difference", reckoned(tally, "tank_total_difference")),
            ("joints pulled out again", _pulled(tally)),
            ("thread-locked connections", step_told(job, "locked-connections")),
            ("back-flow at the floats", step_told(job, "back-flow-seen")),
            ("equipment", _equipment(tally)),
            ("thread compound", ""),
            ("make-up torque", WHILE if any(made.torque for made in job.string) else ""),
            ("flow checks", WHILE if job.flow_checks else ""),
            ("trouble on the way", WHILE if job.happened else ""),
            ("tight spots, weather", _notes(tally)),
            ("wellhead seal test, lock-down", tested_told(tally, "seal")),
        ),
    )


def _hours(start: str, end: str) -> str:
    if not start or not end:
        return ""
    return f"{seconds_between(start, end) / 3600:.1f} h"


def _counted(times: int, volume: str) -> str:
    return f"{_many(times, 'fill')}, {volume} in all" if times else ""


def _pulled(tally: FinalTally) -> str:
    numbers = [row.number for row in tally.rows if "pulled out before" in row.remarks]
    return ", ".join(numbers) or "none"


def _equipment(tally: FinalTally) -> str:
    things = equipment_list(tally.job)
    ready = sum(1 for thing in things if thing.ready)
    return f"{ready} of {len(things)} here and checked" if things else ""


def _notes(tally: FinalTally) -> str:
    said = tally.job.notes
    return f"{_many(len(said), 'note')}, in full below" if said else ""


def _many(count: int, what: str) -> str:
    return f"{count} {what}{'s' * (count != 1)}"


def intervals(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return when each ten joints were run, and how fast."""
    return tuple(
        (
            block_label(block),
            block_pieces(block),
            stamp(block.rows[0].at),
            stamp(block.rows[-1].at),
            _pace(block),
        )
        for block in tally.blocks
    )


def _pace(block: Block) -> str:
    """Return joints an hour, from the first of the block to the last."""
    joints = [row for row in block.rows if row.joint]
    took = seconds_between(joints[0].at, joints[-1].at) if len(joints) > 1 else 0.0
    return f"{(len(joints) - 1) / took * 3600:.1f}" if took > 0 else "-"


def weights(tally: FinalTally) -> tuple[tuple[str, ...], ...]:
    """Return every reading of the indicator beside what was to be expected then."""
    return tuple(_weight(tally, one) for one in tally.job.weighed)


def _weight(tally: FinalTally, one: WeightReading) -> tuple[str, ...]:
    job = tally.job
    try:
        then = expected_then(job, one)
        down, up = (show(job, each, "force") for each in (then.slack_off, then.pick_up))
    except ShoedownError:
        down = up = "-"
    shoe = tally.setup.step.with_unit(one.shoe)
    read = [
        show(job, each.value, "force") if each else "-"
        for each in (one.slack_off, one.pick_up, one.hanging)
    ]
    return shoe, read[0], down, read[1], up, read[2], stamp(one.at)


def notes(tally: FinalTally) -> tuple[tuple[str, str], ...]:
    """Return the notes with the entries that hold them."""
    return tuple((f"entry {seq}", text) for seq, text in tally.job.notes)
