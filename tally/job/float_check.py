"""What came back at the float check, held against what fluid and pipe give."""

from __future__ import annotations

from tally.cement.floats import BackFlow, back_flow
from tally.job.figures import figure
from tally.job.job import Job
from tally.units import read

RELEASE = "plug-release"
FLOWS_ON = "flow goes on"


def float_check(job: Job) -> BackFlow | None:
    """Return what the float check means; nothing before something was bled back, or with no band."""
    bled = job.steps.get((RELEASE, "bled-back"))
    held = job.steps.get((RELEASE, "floats-held"))
    expected, band = figure(job, "expected_back"), job.known.limit("back_flow_band")
    if bled is None or not bled.value or expected.value is None or band is None:
        return None
    flows_on = held is not None and held.state == FLOWS_ON
    back = read(bled.value, "volume").value
    return back_flow(back, float(expected.value), band.value, flows_on=flows_on)
