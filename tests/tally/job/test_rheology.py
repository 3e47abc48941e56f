"""How the fluids of a job flow: readings made from a known curve give that curve back."""

import pytest

from tally.errors import DomainError, Missing
from tally.job.figures import figure
from tally.job.rheology import curve_of, fit_of
from tally.job.setup import Dial, Fluid
from tally.units import Measure, read
from tests.tally.job.invented import pumping, running, setup

SPEEDS = (600, 300, 200, 100, 6, 3)
TWO = pumping(
    plastic_viscosity=read("18 cP", "viscosity"), yield_point=read("12 lbf/100ft2", "yield point")
)


def degrees(rpm: float) -> float:
    """Return the dial of a fluid of 2.5 Pa, 0.3 Pa s^n and n 0.7, by the constants of the bob."""
    stress: float = 2.5 + 0.3 * (1.703 * rpm) ** 0.7
    return stress / 0.511


def dials(*speeds: int, fluid: str = "mud", more: float = 0.0) -> tuple[Dial, ...]:
    return tuple(
        Dial(
            fluid=fluid,
            speed=read(f"{rpm} rpm", "rotary speed"),
            dial=Measure(degrees(rpm) + more, "number", ""),
        )
        for rpm in speeds
    )


def test_readings_made_from_a_curve_give_it_back() -> None:
    plan = setup(dials=dials(*SPEEDS), pumping=TWO)
    curve = curve_of(plan, "mud")
    assert curve.yield_stress == pytest.approx(2.5, rel=1e-5)
    assert curve.consistency == pytest.approx(0.3, rel=1e-5)
    assert curve.index == pytest.approx(0.7, rel=1e-6)
    fit = fit_of(plan, "Mud")
    assert fit is not None
    assert fit.misfit == pytest.approx(0.0, abs=1e-6)


def test_fewer_readings_than_three_leave_it_to_the_two_numbers() -> None:
    for speeds in ((), (600, 300)):
        curve = curve_of(setup(dials=dials(*speeds), pumping=TWO), "mud")
        assert curve.consistency == pytest.approx(0.018)
        assert curve.index == 1.0
        assert curve.yield_stress == pytest.approx(12 * 0.4788026, rel=1e-6)  # Pa of a lbf/100ft2


def test_a_speed_read_twice_counts_with_its_mean() -> None:
    both = (*dials(600, 300, 100), *dials(6, more=0.5), *dials(6, more=-0.5))
    assert curve_of(setup(dials=both), "mud").index == pytest.approx(0.7, rel=1e-5)


def test_a_fluid_of_the_programme_has_its_own_readings() -> None:
    spacer = Fluid(name="Spacer 1", kind="spacer", plastic_viscosity=read("25 cP", "viscosity"))
    plan = setup(dials=dials(*SPEEDS, fluid="spacer 1"), fluids=(spacer,), pumping=TWO)
    assert curve_of(plan, "Spacer 1").index == pytest.approx(0.7, rel=1e-6)
    assert curve_of(plan, "mud").index == 1.0
    with pytest.raises(Missing, match="Yield point of Spacer 1 is not in the job set-up"):
        curve_of(setup(fluids=(spacer,)), "Spacer 1")
    with pytest.raises(Missing, match="no fluid 'tail'"):
        curve_of(plan, "tail")


def test_readings_that_fall_with_the_speed_are_refused_not_replaced() -> None:
    falling = tuple(
        Dial(speed=read(f"{rpm} rpm", "rotary speed"), dial=Measure(100.0 - rpm / 10, "number", ""))
        for rpm in (600, 300, 100)
    )
    with pytest.raises(DomainError, match="read the viscometer again"):
        curve_of(setup(dials=falling, pumping=TWO), "mud")


def test_the_figures_say_that_it_was_read_off_the_viscometer() -> None:
    job = running("S1", plan=setup(dials=dials(*SPEEDS))).job
    made = figure(job, "mud_index")
    assert made.value == pytest.approx(0.7, rel=1e-6)
    assert [one.name for one in made.inputs] == [f"viscometer at {rpm} rpm" for rpm in SPEEDS]
    assert {one.origin for one in made.inputs} == {"read"}
    typed = figure(running("S1", plan=setup(pumping=TWO)).job, "mud_index")
    assert (typed.value, typed.inputs[0].origin) == (1.0, "typed")
    lacking = figure(running("S1", plan=setup()).job, "mud_yield")
    assert lacking.missing == "Plastic viscosity is not in the job set-up."
