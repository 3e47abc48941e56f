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
        LimitKind("density_band", "density", "mud density out against in, and against the plan"),
        LimitKind("line_test", "pressure", "line test pressure"),
        LimitKind("count_difference", "volume", "tank count against stroke count"),
        LimitKind("volume_agreement", "volume", "two people's figures for the same volume"),
        LimitKind("over_displacement", "volume", "pumped past the calculated bump"),
        LimitKind("bump_band", "volume", "bump seen against the calculated bump"),
        LimitKind("bump_margin", "pressure", "bump pressure over the pressure before it"),
        LimitKind("bleed_back", "volume", "volume back when the pressure is bled off"),
        LimitKind("waiting_time", "time", "waiting on cement"),
    )
}
