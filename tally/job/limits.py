"""The limits a job can be given: settings with an owner, none of them a constant in code."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LimitKind:
    """What one limit is about."""

    key: str
    quantity: str
    meaning: str


LIMITS = {
    kind.key: kind
    for kind in (
        LimitKind("least_joint_time", "time", "least plausible time from one joint to the next"),
        LimitKind("length_difference", "length", "largest difference of a joint from its listing"),
        LimitKind("tank_difference", "volume", "trip tank against expected, one reading"),
        LimitKind("tank_total", "volume", "trip tank against expected, since the mark"),
        LimitKind("circulation_target", "ratio", "circulated before cementing, times the casing"),
        LimitKind("start_rate", "flow rate", "highest rate at the start of circulation"),
        LimitKind("plastic_viscosity", "viscosity", "highest plastic viscosity before cementing"),
        LimitKind("yield_point", "yield point", "highest yield point before cementing"),
        LimitKind("gel_10s", "yield point", "highest gel after 10 s before cementing"),
        LimitKind("gel_10min", "yield point", "highest gel after 10 min before cementing"),
        LimitKind("circulation_losses", "volume", "most lost while circulating"),
        LimitKind("density_band", "density", "mud density out against in, and against the plan"),
        LimitKind("line_test", "pressure", "line test pressure"),
        LimitKind("count_difference", "volume", "tank count against stroke count"),
        LimitKind("volume_agreement", "volume", "two people's figures for the same volume"),
        LimitKind("stroke_agreement", "strokes", "two people's figures for the same strokes"),
        LimitKind("diaphragm_pressure", "pressure", "the bottom plug's diaphragm gives way"),
        LimitKind("diaphragm_band", "pressure", "band around the diaphragm's pressure"),
        LimitKind("slow_rate", "flow rate", "highest rate ahead of the bump"),
        LimitKind("slow_volume", "volume", "pumped slowly ahead of the bump"),
        LimitKind("pump_pressure", "pressure", "pump pressure against what is worked out"),
        LimitKind("over_displacement", "volume", "pumped past the calculated bump"),
        LimitKind("bump_band", "volume", "bump seen against the calculated bump"),
        LimitKind("bump_margin", "pressure", "bump pressure over the pressure before it"),
        LimitKind("bleed_back", "volume", "volume back when the pressure is bled off"),
        LimitKind("waiting_time", "time", "waiting on cement"),
        LimitKind("slip_load", "force", "least weight that holds the slips, without blocks"),
        LimitKind("weight_difference", "force", "weight going down against expected, either way"),
        LimitKind("least_slack_off", "force", "least weight on the indicator going down"),
        LimitKind("least_standoff", "ratio", "least standoff of the pipe in open hole"),
        LimitKind("surge_margin", "density", "kept below the density at which a zone takes fluid"),
        LimitKind("peak_factor", "number", "greatest over mean speed while a joint is lowered"),
        LimitKind(
            "lowering_time", "lowering time", "shortest lowering of a joint, slips out to slips set"
        ),
        LimitKind("trip_margin", "density", "kept above the pore pressure when pulling"),
        LimitKind("sack_agreement", "count", "two people's figures for the same sacks"),
        LimitKind("pressure_agreement", "pressure", "two people's figures for the same pressure"),
        LimitKind("efficiency_tolerance", "ratio", "efficiency of the pump is known to +/-"),
        LimitKind("bore_tolerance", "ratio", "volume that the casing holds is known to +/-"),
        LimitKind("thickening_margin", "time", "thickening time kept in hand over the job"),
        LimitKind("back_flow_band", "volume", "back at the float check against expected"),
        LimitKind("burst_share", "ratio", "share of the internal yield that may be used"),
        LimitKind("heat_pressure", "pressure", "highest pressure kept on while cement heats"),
        LimitKind("relief_pressure", "pressure", "the pump relief is set to at most"),
        LimitKind("line_test_fall", "pressure", "lost over the hold of the line test"),
        LimitKind("casing_test", "pressure", "test of the casing on the bump"),
        LimitKind("casing_test_fall", "pressure", "lost over the hold of the casing test"),
        LimitKind("bleed_watch", "time", "no flow seen after the bleed-off, at least"),
        LimitKind("slurry_density_band", "density", "slurry or spacer against its programme"),
        LimitKind("annulus_fall", "pressure", "lost by the annulus if the float lets go"),
    )
}
