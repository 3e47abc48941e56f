"""What came back at the float check, held against what fluid and pipe give."""

from __future__ import annotations

from tally.cement.floats import BackFlow, back_flow
from tally.job.figures import figure
from tally.job.job import Job
from tally.units import read

RELEASE = "plug-release"
STOPPED = "flow stopped and stayed stopped"


def float_check(job: Job) -> BackFlow | None:
    """Return what the float check means; nothing until something was bled back, or with no band."""
    bled = job.steps.get((RELEASE, "bled-back"))
    held = job.steps.get((RELEASE, "floats-held"))
    expected, band = figure(job, "expected_back"), job.known.limit("back_flow_band")
    if bled is None or not bled.value or expected.value is None or band is None:
        return None
    flows_on = held.state != STOPPED if held and held.state else None
    back = read(bled.value, "volume").value
    return back_flow(back, float(expected.value), band.value, flows_on=flows_on)
