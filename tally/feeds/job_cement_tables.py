"""The tables of a job file for mud, pump, cementing programme and waiting on cement.

This module is imported where a job file is read and nowhere else, so that pydantic costs nothing
at a start.
"""

from __future__ import annotations

from tally.feeds.job_tables import Table
from tally.feeds.job_values import (
    Compressibility,
    Degrees,
    Density,
    ExcessOn,
    FlowRate,
    FluidKind,
    Length,
    Mass,
    MaterialKind,
    MaterialOrigin,
    MixWater,
    Name,
    Plugs,
    Pressure,
    Share,
    ShareOf,
    SlurryYield,
    StrokeVolume,
    Temperature,
    Text,
    Time,
    Turns,
    Viscosity,
    Volume,
    WaitingNeed,
    WaterPer,
    YieldPoint,
)
from tally.job.setup import MUD


class MudTable(Table):
    """[mud]"""

    weight: Density
    plastic_viscosity: Viscosity | None = None
    yield_point: YieldPoint | None = None
    conditioning_rate: FlowRate | None = None
    gel_strength: YieldPoint | None = None


class PumpTable(Table):
    """[pump]"""

    volume_per_stroke: StrokeVolume | None = None
    efficiency: Share | None = None
    rate: FlowRate | None = None
    relief: Pressure | None = None


class HeadTable(Table):
    """[head]"""

    volume: Volume
    rating: Pressure | None = None


class ProgrammeTable(Table):
    """[programme]"""

    bottom_plugs: Plugs
    spacer_volume: Volume | None = None
    slurry_volume: Volume | None = None
    final_pressure: Pressure | None = None
    excess_applies_to: ExcessOn = ""
    pocket_filled: bool = True
    line_volume: Volume | None = None
    line_full_at_zero: bool = True
    wash_up_volume: Volume | None = None
    dead_volume: Volume | None = None
    reserve: Share | None = None
    batch_mixed: bool = False
    mixing_rate: FlowRate | None = None
    plug_time: Time | None = None
    compressibility: Compressibility | None = None
    plug_rating: Pressure | None = None
    collar_rating: Pressure | None = None


class ViscometerTable(Table):
    """[[viscometer]]"""

    fluid: Name = MUD
    speed: Turns
    dial: Degrees


class FluidTable(Table):
    """[[fluid]]"""

    name: Name
    kind: FluidKind
    density: Density | None = None
    plastic_viscosity: Viscosity | None = None
    yield_point: YieldPoint | None = None
    volume: Volume | None = None
    length: Length | None = None
    top: Length | None = None
    contact: Time | None = None
    rate: FlowRate | None = None
    cement: Text = ""
    sack: Mass | None = None
    slurry_yield: SlurryYield | None = None
    mix_water: MixWater | None = None
    thickening_time: Time | None = None


class AdditiveTable(Table):
    """[[additive]]"""

    fluid: Name
    material: Name
    share: Share | None = None
    of: ShareOf = "cement"
    per_sack: MixWater | None = None


class MaterialTable(Table):
    """[[material]]"""

    name: Name
    kind: MaterialKind
    also: Text = ""
    specific_gravity: Text = ""
    absolute_volume: Text = ""
    water: Text = ""
    water_per: WaterPer = ""
    sack: Text = ""
    origin: MaterialOrigin
    source: Name
    note: Text = ""


class StrengthTable(Table):
    """[[strength]]"""

    fluid: Text = ""
    time: Time
    strength: Pressure
    temperature: Temperature | None = None


class WaitingRuleTable(Table):
    """[[waiting_rule]]"""

    name: Name
    place: Name
    clause: Text = ""
    strings: Text = ""
    time: Time | None = None
    strength: Pressure | None = None
    where: Text = ""
    need: WaitingNeed = "all"
    says: Text = ""
    meanwhile: Text = ""
    edition: Text = ""


class WaitingTable(Table):
    """[waiting]"""

    coldest: Temperature | None = None
