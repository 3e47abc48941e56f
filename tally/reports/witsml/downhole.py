"""The string in the well, a DownholeComponent of 2.1: its items by depth, and what is on them."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element

from tally.job.job import Fitting
from tally.reports.tally_lines import Row
from tally.reports.witsml.building import Content
from tally.reports.witsml.extra import extra_21
from tally.reports.witsml.heading import Given, component, heading, well, wellbore
from tally.reports.witsml.layout import NEWER
from tally.reports.witsml.pieces import (
    accessory_type,
    centralizers,
    equipment_of,
    grade_of,
    said_of,
    scratchers,
    string_of,
)
from tally.reports.witsml.tubular import of_row, whole_string
from tally.reports.witsml.uom import amount

DOWNHOLE = "downhole component"
Key = tuple[str, str, str]
"""What makes two items one kind: what they are, their description, their pipe."""


def downhole_21(given: Given) -> Element:
    """Return the string as equipment of the well."""
    tally = given.tally
    landed, kinds = tally.job.landing, _kinds(given)
    content = {
        **heading(given, DOWNHOLE),
        "StartDate": tally.rows[0].at,
        "EndDate": landed.at if landed else None,
        "DownholeStringSet": {"DownholeString": [_string(given, list(kinds))]},
        "EquipmentSet": {"Equipment": [*_specs(kinds), *_accessory_specs(given)]},
        "Well": well(given),
    }
    return given.builder(NEWER).root("DownholeComponent", content)


def _string(given: Given, kinds: list[Key]) -> Content:
    tally, landed = given.tally, given.tally.job.landing
    pieces = list(_accessories(given))
    name = tally.setup.well.string
    return {
        "@uid": "string",
        "StringType": "casing",
        "SubStringType": string_of(name),
        "Name": name,
        "StringInstallDate": landed.at if landed else None,
        "StringMdInterval": between(given, tally.rows[-1].top, tally.rows[0].bottom),
        "ExtensionNameValue": extra_21(whole_string(given)),
        "StringEquipmentSet": {"StringEquipment": [_item(given, kinds, row) for row in tally.rows]},
        "Accessories": {"Accessory": pieces} if pieces else None,
        "ReferenceWellbore": wellbore(given),
    }


def between(given: Given, top: int, bottom: int) -> Content | None:
    """Return an interval by depth in steps, once the string is on depth."""
    if not given.tally.final:
        return None
    low = given.depth(top)
    return {"MdMin": low, "MdMax": given.depth(bottom), "Uom": low}


def _item(given: Given, kinds: list[Key], row: Row) -> Content:
    spec = f"spec-{kinds.index(_key(row)) + 1}"
    return {
        "@uid": f"item-{row.order}",
        "Equipment": component("Equipment", spec, said_of(row)),
        "EquipmentType": equipment_of(row),
        "Name": row.number,
        "Count": 1,
        "Length": given.depth(row.length),
        "MdInterval": between(given, row.top, row.bottom),
        "IsCentralized": centralizers(given.tally.setup, row),
        "HasScratchers": scratchers(row),
        "UsageComment": row.remarks,
        "ExtensionNameValue": extra_21(of_row(given, row)),
    }


def _accessories(given: Given) -> Iterator[Content]:
    """Yield the pieces on the joints; each lies somewhere on its joint, in words where."""
    kinds = _accessory_kinds(given)
    for row in given.tally.rows:
        for place, one in enumerate(row.fittings, start=1):
            yield {
                "@uid": f"item-{row.order}-piece-{place}",
                "Equipment": component("Equipment", _piece_uid(kinds, one), one.what),
                "EquipmentType": accessory_type(given.tally.setup, one.what),
                "Name": one.what,
                "Count": one.count,
                "MdInterval": between(given, row.top, row.bottom),
                "OutsideString": True,
                "UsageComment": f"on {row.number}" + (f", {one.position}" * bool(one.position)),
            }


def _kinds(given: Given) -> dict[Key, Row]:
    """Return each kind of item once, with the first of it."""
    found: dict[Key, Row] = {}
    for row in given.tally.rows:
        found.setdefault(_key(row), row)
    return found


def _key(row: Row) -> Key:
    return row.kind, row.description, row.pipe.name


def _specs(kinds: dict[Key, Row]) -> Iterator[Content]:
    """Yield each kind of item with its size, weight and grade."""
    for place, row in enumerate(kinds.values(), start=1):
        pipe = row.pipe
        said = ", ".join(part for part in (said_of(row), pipe.grade, pipe.connection) if part)
        yield {
            "@uid": f"spec-{place}",
            "EquipmentName": pipe.name,
            "EquipmentType": equipment_of(row),
            "Grade": grade_of(pipe),
            "UnitWeight": amount(pipe.weight),
            "Od": amount(pipe.outer_diameter),
            "Id": amount(pipe.inner_diameter),
            "Description": said,
        }


def _accessory_kinds(given: Given) -> list[str]:
    return list(dict.fromkeys(one.what for row in given.tally.rows for one in row.fittings))


def _piece_uid(kinds: list[str], one: Fitting) -> str:
    return f"piece-{kinds.index(one.what) + 1}"


def _accessory_specs(given: Given) -> Iterator[Content]:
    for place, what in enumerate(_accessory_kinds(given), start=1):
        yield {
            "@uid": f"piece-{place}",
            "EquipmentName": what,
            "EquipmentType": accessory_type(given.tally.setup, what),
            "Description": what,
        }
