"""The tables of a job file as pydantic models: strict, and nothing in them that is not known.

This module is imported where a job file is read and nowhere else, so that pydantic costs nothing
at a start.
"""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from tally.feeds.job_values import (
    Azimuth,
    CentralizerSort,
    Count,
    Density,
    DesignFactor,
    Diameter,
    Every,
    Excess,
    FlowRate,
    Force,
    Friction,
    Inclination,
    Interval,
    Joints,
    Kind,
    Length,
    Measured,
    Name,
    Number,
    Pressure,
    Range,
    Role,
    Share,
    Source,
    TallyLength,
    TallyUnit,
    Text,
    Torque,
    Weight,
    ZoneFluid,
)


class Table(BaseModel):
    """A table of the file."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


class WellTable(Table):
    """[well]"""

    name: Name
    string: Name
    rig: Text = ""
    operator: Text = ""
    location: Text = ""
    datum: Name = "rotary table"
    datum_elevation: Length | None = None


class HoleTable(Table):
    """[hole]"""

    diameter: Diameter
    depth: Length
    casing_point: Length


class HoleSectionTable(Table):
    """[[hole_section]]"""

    top: Length
    bottom: Length
    diameter: Diameter
    excess: Excess | None = None
    caliper: Diameter | None = None


class PreviousTable(Table):
    """[previous_casing]"""

    name: Name
    shoe: Length
    inner_diameter: Diameter
    top: Length | None = None
    weak_at: Density | None = None


class OtherCasingTable(PreviousTable):
    """[[other_casing]]"""


class ZoneTable(Table):
    """[[zone]]"""

    name: Name
    top: Length
    bottom: Length
    weak_at: Density | None = None
    fluid: ZoneFluid = ""
    pore: Density | None = None


class SurveyTable(Table):
    """[[survey]]"""

    measured_depth: Length
    inclination: Inclination
    azimuth: Azimuth


class TallyTable(Table):
    """[tally]"""

    unit: TallyUnit
    lengths: Measured = "running"
    make_up_loss: TallyLength = ""
    stick_up: TallyLength = ""


class PipeTable(Table):
    """[[pipe]]"""

    name: Name
    outer_diameter: Diameter
    inner_diameter: Diameter | None = None
    weight: Weight
    grade: Text = ""
    connection: Text = ""
    length_range: Range | None = Field(default=None, alias="range")
    shortest: Length | None = None
    longest: Length | None = None
    collapse_rating: Pressure | None = None
    connection_strength: Force | None = None
    torque_minimum: Torque | None = None
    torque_optimum: Torque | None = None
    torque_maximum: Torque | None = None


class FillingTable(Table):
    """[filling]"""

    closed_end: bool = True
    source: Source = "active pit"
    interval: Interval | None = None
    design_factor: DesignFactor | None = None
    float_rating: Pressure | None = None
    auto_fill: Share | None = None
    converts_at_rate: FlowRate | None = None
    converts_at_pressure: Pressure | None = None


class WeightsTable(Table):
    """[weights]"""

    block_weight: Force | None = None
    friction_cased: Friction | None = None
    friction_open: Friction | None = None
    elevator_rating: Force | None = None
    hoisting_rating: Force | None = None
    tension_share: Share | None = None


class ItemTable(Table):
    """[[item]]"""

    number: Number
    kind: Kind
    length: TallyLength
    pipe: Text = ""
    description: Text = ""


class FittingTable(Table):
    """[[centralizer]] and [[fitting]]"""

    what: Name
    joints: Joints = ()
    top: Length | None = None
    bottom: Length | None = None
    zone: Text = ""
    every: Every = 1
    position: Name = "mid-joint"
    count: Count = 1


class CentralizerKindTable(Table):
    """[[centralizer_kind]]"""

    what: Name
    kind: CentralizerSort
    outer_diameter: Diameter
    restoring_force: Force | None = None
    starting_force: Force | None = None


class CentralizerLoadTable(Table):
    """[[centralizer_load]]"""

    what: Name
    deflection: Length
    load: Force


class EquipmentTable(Table):
    """[[equipment]]"""

    name: Name
    supplier: Text = ""


class RackTable(Table):
    """[rack]"""

    drift_records: bool = False


class SpaceOutTable(Table):
    """[space_out]"""

    pocket: Length | None = None
    pocket_band: Length | None = None
    stick_up_band: Length | None = None
    hang_off: Length | None = None
    marker: Length | None = None
    marker_band: Length | None = None
    coupling: Length | None = None


class KeepClearTable(Table):
    """[[keep_clear]]"""

    name: Name
    top: Length | None = None
    above: Length | None = None
    bottom: Length


class PersonTable(Table):
    """[[people]]"""

    name: Name
    role: Role


class LimitTable(Table):
    """One line of [limits]"""

    value: Text
    owner: Name
    source: Text = ""
