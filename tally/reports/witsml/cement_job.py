"""A cementing as a CementJob of 2.1: the design and the report side by side."""

from __future__ import annotations

from xml.etree.ElementTree import Element

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
from tally.reports.witsml.cement_steps import bumped, floats_held, measured, moment, was_done
from tally.reports.witsml.extra import extra_21
from tally.reports.witsml.heading import Given, component, heading, wellbore
from tally.reports.witsml.layout import NEWER
from tally.reports.witsml.uom import Amount, amount, worth

CEMENT = "cement job"
_CALCULATED = "calculated from the programme; nobody has looked for it"


def cement_job_21(given: Given, facts: CementFacts) -> Element:
    """Return the cementing; the design where fluids are set up, the report once it has begun."""
    setup = given.tally.setup
    content = {
        **heading(given, CEMENT, _so_far(facts)),
        "ExtensionNameValue": extra_21([facts.top]),
        "JobType": "primary",
        "NameCementedString": setup.well.string,
        "MdPrevShoe": _depth(amount(setup.previous.shoe)) if setup.previous else None,
        "MdHole": _depth(amount(setup.hole.depth)),
        "MdStringSet": _depth(given.shoe),
        "JobReport": _report(facts) if facts.begun else None,
        "Wellbore": wellbore(given),
        "Design": _design(facts) if facts.planned else None,
        "CementingFluid": [_fluid(one) for one in facts.fluids],
    }
    return given.builder(NEWER).root("CementJob", content)


def _so_far(facts: CementFacts) -> str:
    if not facts.begun:
        return "Design alone: nothing has been pumped."
    return "" if facts.planned else "Report alone: no fluid is set up."


def _depth(depth: Amount | None) -> Content | None:
    return {"MeasuredDepth": depth} if depth else None


def _report(facts: CementFacts) -> Content:
    return {
        "CementEngr": facts.cementer,
        **movement(facts.tally.job.moved),
        "CementReportStage": [_report_stage(facts)],
    }


def _report_stage(facts: CementFacts) -> Content:
    job, displaced = facts.tally.job, facts.displaced
    return {
        "@uid": "report-1",
        "BotPlug": was_done(job, BOTTOM_PLUG),
        "DisplacementFluid": _behind(facts),
        "ExtensionNameValue": extra_21(facts.seen),
        "FlowrateMudCirc": measured(job, "rate-raised"),
        "NumStage": 1,
        "PresBump": measured(job, "bump-pressure"),
        "PresMudCirc": measured(job, "circulating-pressure"),
        "TopPlug": was_done(job, TOP_PLUG),
        "TypeStage": STAGE,
        "VolCircPrior": measured(job, "volume-circulated"),
        "VolDisplaceFluid": worth(displaced.volume, "volume"),
        "VolReturns": displaced.returned,
        **mud(facts, as_measured=True),
        "Step": [step for one in facts.fluids if (step := _pumped(facts, one))],
        "DTimPumpStart": moment(job, "first-slurry"),
        "DTimPumpEnd": moment(job, "slurry-away"),
        "DTimDisplaceStart": moment(job, "displacement-started"),
        **rates(displaced),
        "PlugBumped": bumped(job),
        "PresPriorBump": measured(job, "pressure-before-bump"),
        "FloatHeld": floats_held(job),
    }


def _pumped(facts: CementFacts, fluid: FluidFacts) -> Content | None:
    """Return a fluid as pumped; nothing where nothing of it was read by itself."""
    behind = fluid is facts.behind
    if fluid.pumped is None and not fluid.weighed:
        return None
    return {
        "@uid": f"pumped-{fluid.order}",
        "Fluid": _reference(fluid),
        "RatePump": worth(facts.displaced.mean, "flow rate") if behind else None,
        "VolPump": fluid.pumped,
        "StrokePump": facts.displaced.strokes if behind else None,
        "Comments": fluid.weighed and f"density {fluid.weighed}",
    }


def _design(facts: CementFacts) -> Content:
    return {
        "CementEngr": facts.cementer,
        "ETimWaitingOnCement": amount(facts.tally.setup.limit("waiting_time")),
        "CementDesignStage": [_design_stage(facts)],
    }


def _design_stage(facts: CementFacts) -> Content:
    plugs = facts.tally.setup.pumping.bottom_plugs
    return {
        "BotPlug": plugs > 0,
        "BotPlugNumber": plugs,
        "DisplacementFluid": _behind(facts),
        "NumStage": 1,
        "TypeStage": STAGE,
        "VolDisplaceFluid": facts.to_pump,
        **mud(facts, as_measured=False),
        "Step": [
            {
                "@uid": f"planned-{one.order}",
                "Fluid": _reference(one),
                "RatePump": one.rate,
                "VolPump": one.planned,
            }
            for one in facts.fluids
        ],
        "EndingFluidLocation": [
            {
                "@uid": f"end-{one.order}-{place}",
                "Fluid": _reference(one),
                "MDFluidBase": Amount(lies.bottom, "length"),
                "MDFluidTop": Amount(lies.top, "length"),
                "Volume": Amount(lies.volume, "volume"),
                "LocationType": lies.within,
            }
            for one in facts.fluids
            for place, lies in enumerate(one.lies, start=1)
        ],
    }


def _reference(fluid: FluidFacts) -> Content:
    return component("CementingFluid", fluid.uid, fluid.name)


def _behind(facts: CementFacts) -> Content | None:
    return _reference(facts.behind) if facts.behind else None


def _fluid(fluid: FluidFacts) -> Content:
    made, around = fluid.made, fluid.around
    return {
        "@uid": fluid.uid,
        "TypeFluid": fluid.kind,
        "FluidIndex": fluid.order,
        "DescFluid": fluid.name,
        "ClassSlurryDryBlend": fluid.cement,
        "SlurryPlacementInterval": around
        and {
            "Comment": _CALCULATED,
            "MdMin": Amount(around.top, "length"),
            "MdMax": Amount(around.bottom, "length"),
            "Uom": Amount(around.bottom, "length"),
        },
        "VolWater": made and Amount(made.needed.water, "volume"),
        "RatioMixWater": made and Amount(made.recipe.water / made.recipe.sack, "mix water"),
        "VolFluid": fluid.planned,
        "VolYield": made and Amount(made.recipe.makes / made.recipe.sack, "slurry yield"),
        "Density": fluid.density,
        "VolPumped": fluid.pumped,
        "Viscosity": fluid.viscosity,
        "Yp": fluid.yield_point,
        "MassSackDryBlend": made and Amount(made.recipe.sack, "mass"),
        "ETimThickening": fluid.thickening,
        "CementAdditive": [
            {"@uid": f"additive-{place}", "NameAdd": name, "Additive": Amount(mass, "mass")}
            for place, (name, mass) in enumerate(made.needed.additives if made else (), start=1)
        ],
    }
