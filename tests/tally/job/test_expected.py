"""What a step expects, and how what was seen stands to it."""

import pytest

from tally.job.expected import AGREES, OUTSIDE, UNKNOWN, expected, verdict
from tally.job.figures import figure, show
from tally.job.setup import Limit
from tally.steps.model import Checklist, Step
from tests.tally.job.invented import REP, landed, limits, setup
from tests.tally.reports.pdf.jobs import demonstration


def own(expect, compare="agrees", within="", quantity="length", **told):
    """Return a list of one step that expects something."""
    step = Step(
        id="s",
        text="S",
        who="driller",
        want="value",
        quantity=quantity,
        expect=expect,
        compare=compare,
        within=within,
        **told,
    )
    plan = Checklist(
        id="own", title="Own", page="mud", purpose="", caution="", steps=(step,), source=""
    )
    return plan, step


@pytest.fixture
def job():
    """Return a job on depth."""
    return landed(setup(limits=limits(length_difference="0.5 ft"))).job


def test_a_depth_counted_in_steps_is_compared_as_a_length(job):
    place = own("figure:shoe_depth", within="limit:length_difference")
    want = expected(job, *place)
    assert want.text == "485.71 ft"
    assert want.value == pytest.approx(485.71 * 0.3048)
    assert verdict(job, *place, "", "485.21 ft") == AGREES
    assert verdict(job, *place, "", "486.21 ft") == AGREES
    assert verdict(job, *place, "", "486.22 ft") == OUTSIDE
    assert verdict(job, *place, "", "148.05 m") == AGREES


def test_a_count_of_strokes_is_compared_as_a_count(job):
    place = own("figure:strokes_to_collar", within="limit:stroke_agreement", quantity="strokes")
    wanted = int(expected(job, *place).value)
    assert verdict(job, *place, "", str(wanted + 5)) == AGREES
    assert verdict(job, *place, "", str(wanted - 6)) == OUTSIDE


@pytest.mark.parametrize(
    "expect",
    ["figure:mud_weight", "limit:line_test", "figure:nothing_like_it", "limit:luck", "step:x"],
)
def test_another_quantity_or_none_is_nothing_to_hold_a_value_against(job, expect):
    place = own(expect, "at most")
    assert expected(job, *place) is None
    assert verdict(job, *place, "", "5 ft") == UNKNOWN


def test_a_band_of_another_quantity_is_no_band(job):
    place = own("figure:shoe_depth", within="limit:line_test")
    assert expected(job, *place).band is None
    assert verdict(job, *place, "", "1 ft") == UNKNOWN


def test_a_figure_without_a_value_yet_expects_nothing():
    job = landed(setup(limits={})).job
    assert expected(job, *own("figure:circulation_target", "at least", quantity="volume")) is None


@pytest.mark.parametrize(
    ("compare", "value", "stands"),
    [
        ("at least", "3500 psi", AGREES),
        ("at least", "3600 psi", AGREES),
        ("at least", "3499 psi", OUTSIDE),
        ("at most", "3500 psi", AGREES),
        ("at most", "3501 psi", OUTSIDE),
        ("", "1 psi", UNKNOWN),
        ("at least", "", UNKNOWN),
    ],
)
def test_at_least_and_at_most_with_their_edges(job, compare, value, stands):
    assert verdict(job, *own("limit:line_test", compare, quantity="pressure"), "", value) == stands


def test_an_edge_in_other_units_is_still_the_edge():
    job = landed(setup(limits={"line_test": Limit(text="241.3165 bar", owner=REP)})).job
    place = own("limit:line_test", "at least", quantity="pressure")
    assert verdict(job, *place, "", "24131.65 kPa") == AGREES


def test_a_state_agrees_when_it_is_a_good_one():
    step = Step(id="s", text="S", who="x", want="state", states=("up", "down"), good=("up",))
    plan = own("limit:line_test")[0]
    job = landed().job
    assert verdict(job, plan, step, "up", "") == AGREES
    assert verdict(job, plan, step, "down", "") == OUTSIDE
    assert verdict(job, plan, step, "", "") == UNKNOWN
    bare = Step(id="s", text="S", who="x")
    assert verdict(job, plan, bare, "", "") == UNKNOWN


def test_at_the_comparing_of_the_lift_its_figures_stand_beside_it(job):
    """Weight less lift, and the pressure that would lift the string, as `figures` has them."""
    played = demonstration().job
    plan = played.lists["mud-conditioning"]
    step = plan.step("lift-compared")
    found = expected(played, plan, step)
    shown = {
        key: show(played, figure(played, key).value, figure(played, key).quantity)
        for key in ("lift_conditioning", "lifting_pressure")
    }
    assert found.text == (
        f"weight less lift while conditioning {shown['lift_conditioning']}; "
        f"pressure below the shoe that lifts the string {shown['lifting_pressure']}"
    )
    assert (verdict(played, plan, step, "string is held down", ""), found.origin) == (
        AGREES,
        "calculated",
    )
    assert expected(played, plan, plan.step("pipe-full")) is None
    lacks = expected(job, job.lists["mud-conditioning"], step)
    assert lacks.text.count("not worked out: ") == 1
