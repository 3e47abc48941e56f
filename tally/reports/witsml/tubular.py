"""The string as run: a Tubular of 2.1, and tubulars of 1.4.1.1; the shoe is the first component."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from tally.reports.tally_lines import Row
from tally.reports.witsml.building import Content
from tally.reports.witsml.extra import Extra, extra_21, extra_1411
from tally.reports.witsml.heading import Given, heading, heading_1411, wellbore
from tally.reports.witsml.layout import NEWER, OLDER
from tally.reports.witsml.pieces import component_of, said_of
from tally.reports.witsml.uom import amount

TUBULAR = "tubular"


def tubular_21(given: Given) -> Element:
    """Return the string as a Tubular."""
    content = {
        **heading(given, TUBULAR),
        "ExtensionNameValue": extra_21(whole_string(given)),
        "TypeTubularAssy": "casing",
        "TubularComponent": [_component_21(given, row) for row in given.tally.rows],
        "Wellbore": wellbore(given),
    }
    return given.builder(NEWER).root("Tubular", content)


def tubulars_1411(given: Given) -> Element:
    """Return the string as tubulars; what is said of the whole string stands on the shoe."""
    rows = given.tally.rows
    whole = whole_string(given)
    content = {
        **heading_1411(given, TUBULAR),
        "typeTubularAssy": "casing",
        "tubularComponent": [
            _component_1411(given, row, whole if row is rows[0] else []) for row in rows
        ],
    }
    return given.builder(OLDER).root("tubulars", {"@version": OLDER, "tubular": [content]})


def whole_string(given: Given) -> list[Extra]:
    """Return what is known of the string as a whole."""
    tally, hung = given.tally, given.tally.job.hung_off
    final = tally.final
    return [
        Extra("length of string", given.depth(tally.depths.string)),
        Extra("joints run", tally.balance.run.count),
        Extra("depth of shoe", given.shoe),
        Extra("stick-up", given.depth(tally.depths.stick_up) if final else None),
        Extra("load hung off", amount(hung.load) if hung else None, hung.at if hung else ""),
        Extra("hung off with", hung.how if hung else None),
    ]


def of_row(given: Given, row: Row) -> list[Extra]:
    """Return what the standard has no element for of one item."""
    final = given.tally.final
    pieces = [
        Extra(one.what, one.count, note=one.position and f"pieces, {one.position}")
        for one in row.fittings
    ]
    return [
        Extra("number in the tally", row.number),
        Extra("joint from the shoe", row.joint or None),
        Extra("made up", row.by, row.at),
        Extra("top", given.depth(row.top) if final else None),
        Extra("bottom", given.depth(row.bottom) if final else None),
        *pieces,
    ]


def _component_21(given: Given, row: Row) -> Content:
    item = given.tally.job.items[row.number]
    made = given.tally.job.made(row.number)
    torque = amount(made.torque) if made else None
    return {
        "@uid": f"item-{row.order}",
        "TypeTubularComponent": component_of(row, newer=True),
        "Sequence": row.order,
        "Description": said_of(row),
        "Id": amount(row.pipe.inner_diameter),
        "Od": amount(row.pipe.outer_diameter),
        "Len": given.depth(row.length),
        "WtPerLen": amount(row.pipe.weight),
        "Grade": row.pipe.grade,
        "PresCollapse": amount(row.pipe.collapse_rating),
        "NameTag": _serial(item.serial),
        "ExtensionNameValue": extra_21(of_row(given, row)),
        "Connection": [
            {"@uid": "connection", "TypeThread": row.pipe.connection, "TqMakeup": torque}
        ],
    }


def _serial(serial: str) -> list[Content]:
    if not serial:
        return []
    return [{"@uid": "serial", "Name": serial, "NumberingScheme": "serial number"}]


def _component_1411(given: Given, row: Row, whole: list[Extra]) -> Content:
    item, made = given.tally.job.items[row.number], given.tally.job.made(row.number)
    further = [*of_row(given, row), Extra("serial number", item.serial), *whole]
    return {
        "@uid": f"item-{row.order}",
        "typeTubularComp": component_of(row, newer=False),
        "sequence": row.order,
        "description": said_of(row),
        "id": amount(row.pipe.inner_diameter),
        "od": amount(row.pipe.outer_diameter),
        "len": given.depth(row.length),
        "wtPerLen": amount(row.pipe.weight),
        "grade": row.pipe.grade,
        "presCollapse": amount(row.pipe.collapse_rating),
        "connection": [
            {
                "@uid": "connection",
                "typeThread": row.pipe.connection,
                "tqMakeup": amount(made.torque) if made else None,
            }
        ],
        "extensionNameValue": extra_1411(further),
    }
