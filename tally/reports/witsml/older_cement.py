"""A cementing as cementJobs of 1.4.1.1.

That version takes one fluid to a stage and one step of the pump to a fluid. So each fluid is a
`cementStage` of its own under the same number, and what is told of the whole stage stands on the
last one.
"""

from __future__ import annotations

from xml.etree.ElementTree import Element

from tally.job.cement_job import SlurryWanted
from tally.reports.witsml.building import Content
from tally.reports.witsml.cement_facts import (
    BOTTOM_PLUG,
    STAGE,
    TOP_PLUG,
    CementFacts,
    movement,
    mud,
    rates,
)
from tally.reports.witsml.cement_fluids import FluidFacts
from tally.reports.witsml.cement_job import CEMENT
from tally.reports.witsml.cement_steps import bumped, floats_held, measured, moment, was_done
from tally.reports.witsml.extra import extra_1411
from tally.reports.witsml.heading import Given, heading_1411
from tally.reports.witsml.layout import OLDER
from tally.reports.witsml.uom import Amount, amount, worth

ONE_BY_ONE = (
    "A cementStage holds one fluid: each fluid is one of number 1, and what is told of the stage",
    "stands on the last. cementPumpSchedule is the programme, volPumped what was read.",
)


def cement_jobs_1411(given: Given, facts: CementFacts) -> Element:
    """Return the cementing, fluid by fluid."""
    setup = given.tally.setup
    content = {
        **heading_1411(given, CEMENT),
        "jobType": "primary",
        "nameCementedString": setup.well.string,
        "cementEngr": facts.cementer,
        "mdHole": amount(setup.hole.depth),
        "mdShoe": amount(setup.previous.shoe) if setup.previous else None,
        "mdStringSet": given.shoe,
        "cementStage": _stages(facts),
        **_older(movement(facts.tally.job.moved)),
    }
    return given.builder(OLDER).root("cementJobs", {"@version": OLDER, "cementJob": [content]})


def _older(names: dict[str, Amount | bool | None]) -> dict[str, Amount | bool | None]:
    """Return the same by the names of 1.4.1.1, which begin with a small letter."""
    return {name[0].lower() + name[1:]: value for name, value in names.items()}


def _stages(facts: CementFacts) -> list[Content]:
    stages: list[dict[str, object]] = [
        {
            "@uid": f"stage-{one.order}",
            "numStage": 1,
            "typeStage": f"{STAGE}, {one.kind}",
            "cementingFluid": _fluid(one),
        }
        for one in facts.fluids
    ] or [{"@uid": "stage-1", "numStage": 1, "typeStage": STAGE}]
    stages[-1] |= _whole(facts)
    return list(stages)


def _whole(facts: CementFacts) -> dict[str, object]:
    job, displaced, behind = facts.tally.job, facts.displaced, facts.behind
    told = [facts.top, *(facts.seen if facts.begun else [])]
    return {
        **_older({**mud(facts, as_measured=facts.begun), **rates(displaced)}),
        "dTimPumpStart": moment(job, "first-slurry"),
        "dTimPumpEnd": moment(job, "slurry-away"),
        "dTimDisplaceStart": moment(job, "displacement-started"),
        "volReturns": displaced.returned,
        "flowrateMudCirc": measured(job, "rate-raised"),
        "presMudCirc": measured(job, "circulating-pressure"),
        "volCircPrior": measured(job, "volume-circulated"),
        "topPlug": was_done(job, TOP_PLUG),
        "botPlug": was_done(job, BOTTOM_PLUG),
        "plugBumped": bumped(job),
        "presPriorBump": measured(job, "pressure-before-bump"),
        "presBump": measured(job, "bump-pressure"),
        "floatHeld": floats_held(job),
        "fluidDisplace": behind.name if behind else None,
        "densDisplaceFluid": behind.density if behind else None,
        "volDisplaceFluid": worth(displaced.volume, "volume"),
        "extensionNameValue": extra_1411(told),
    }


def _fluid(fluid: FluidFacts) -> Content:
    made, around = fluid.made, fluid.around
    return {
        "typeFluid": fluid.kind,
        "fluidIndex": fluid.order,
        "descFluid": fluid.name,
        "classSlurryDryBlend": fluid.cement,
        "mdFluidTop": around and Amount(around.top, "length"),
        "mdFluidBottom": around and Amount(around.bottom, "length"),
        "volWater": made and Amount(made.needed.water, "volume"),
        "ratioMixWater": made and Amount(made.recipe.water / made.recipe.sack, "mix water"),
        "volFluid": fluid.planned,
        "cementPumpSchedule": {
            "ratePump": fluid.rate,
            "volPump": fluid.planned,
            "comments": fluid.weighed and f"density {fluid.weighed}",
        },
        "volYield": made and Amount(made.recipe.makes / made.recipe.sack, "slurry yield"),
        "density": fluid.density,
        "volPumped": fluid.pumped,
        "vis": fluid.viscosity,
        "yp": fluid.yield_point,
        "massSackDryBlend": made and Amount(made.recipe.sack, "mass"),
        "cementAdditive": _additives(fluid.made),
        "eTimThickening": fluid.thickening,
    }


def _additives(made: SlurryWanted | None) -> list[Content]:
    """Return what is mixed in: this version also asks for the mass in a sack."""
    if made is None:
        return []
    by_sack = dict(made.recipe.additives)
    return [
        {
            "@uid": f"additive-{place}",
            "nameAdd": name,
            "wtSack": Amount(by_sack[name], "mass"),
            "additive": Amount(mass, "mass"),
        }
        for place, (name, mass) in enumerate(made.needed.additives, start=1)
    ]
