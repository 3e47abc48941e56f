"""Drafts: what is half typed is kept as it is, and what is wrong is found in its field."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.feeds import job_catalogue
from tally.feeds.job_draft import Draft, document_of, draft_of
from tally.feeds.job_faults import Spot
from tally.feeds.job_file import look_through
from tally.feeds.job_sheets import Where, sheets, where
from tally.feeds.job_words import TOP
from tally.job.limits import LIMITS

TABLES = {**job_catalogue.TABLES, **job_catalogue.LISTS}


def test_every_table_and_key_of_a_job_file_has_a_field() -> None:
    for name, kind in TABLES.items():
        keys = [info.alias or field for field, info in kind.model_fields.items()]
        assert [cell.key for cell in sheets()[name].cells] == keys
    assert {name for name, sheet in sheets().items() if sheet.many} == set(job_catalogue.LISTS)
    assert {name for name, sheet in sheets().items() if sheet.needed} == set(job_catalogue.NEEDED)
    tops = [cell.key for sheet in sheets().values() if not sheet.table for cell in sheet.cells]
    assert set(tops) == set(TOP)
    assert list(sheets()["limits"].rows) == list(LIMITS)
    assert set(sheets()) == {*TABLES, "units", "quantities", "files", "running_order", "limits"}


def test_the_words_and_choices_of_a_field_come_from_the_tables() -> None:
    cells = {cell.key: cell for cell in sheets()["pipe"].cells}
    assert (cells["range"].kind, cells["range"].wanted) == ("whole number", False)
    assert (cells["weight"].example, cells["weight"].quantity) == ("47 lb/ft", "mass per length")
    assert cells["inner_diameter"].hint == "empty: from the size table"
    filling = {cell.key: cell for cell in sheets()["filling"].cells}
    assert (filling["closed_end"].choices, filling["closed_end"].default) == (("yes", "no"), "yes")
    assert "joint" not in sheets()["item"].cells[1].choices
    assert sheets()["centralizer"].cells[1].kind == "text"


FLOW_RATE = list(sheets()["quantities"].rows).index("flow rate")
HALF = {
    ("programme", "bottom_plugs"): "two",
    ("pipe", "range"): "03",
    ("filling", "closed_end"): "perhaps",
    ("well", "name"): "[/]\x1b[31m",
    ("hole", "depth"): "82",
    ("people", "role"): "9",
    ("survey", "azimuth"): "\u202e41",
    ("limits", "value"): "9**9**9",
    ("files", "checklists"): "gone.toml, x",
    ("running_order", "running_order"): "shoe A1-B9",
}


def half_typed() -> Draft:
    draft = Draft()
    for (sheet, key), text in HALF.items():
        draft = draft.with_row(sheet, 0, {**draft.row(sheet, 0), key: text})
    return draft


def test_what_is_half_typed_comes_back_as_it_was() -> None:
    again = draft_of(document_of(half_typed()))
    for (sheet, key), text in HALF.items():
        assert again.row(sheet, 0)[key] == text


def test_each_fault_is_found_in_its_field(tmp_path: Path) -> None:
    looked = look_through(document_of(half_typed()), tmp_path)
    found = {where(fault.spot) for fault in looked.faults}
    assert looked.job is None
    for sheet, key in HALF:
        assert Where(sheet, 0, key) in found, (sheet, key)


@pytest.mark.parametrize(
    ("spot", "place"),
    [
        (Spot("hole", "depth"), Where("hole", 0, "depth")),
        (Spot("pipe", many=True), Where("pipe")),
        (Spot("pipe", "range", place=2, many=True), Where("pipe", 1, "range")),
        (Spot("limits", "owner", called="tank_total"), Where("limits", 3, "owner")),
        (Spot("units", "set"), Where("units", 0, "set")),
        (Spot("units", "flow_rate"), Where("quantities", FLOW_RATE, "unit")),
        (Spot(key="pipe_list"), Where("files", 0, "pipe_list")),
        (Spot(key="running_order"), Where("running_order", 0, "running_order")),
    ],
)  # fmt: skip
def test_a_spot_of_a_file_is_a_field_of_a_form(spot: Spot, place: Where) -> None:
    assert where(spot) == place


def test_words_beside_a_field_speak_of_typing_and_those_of_a_file_of_writing(
    tmp_path: Path,
) -> None:
    draft = Draft().with_row("programme", 0, {"bottom_plugs": "two"})
    faults = look_through(document_of(draft, asked="hole"), tmp_path).faults
    depth = next(one for one in faults if where(one.spot) == Where("hole", 0, "depth"))
    assert depth.beside == "is missing; type it like 8260 ft."
    assert str(depth) == '[hole] depth: is missing; write it like depth = "8260 ft".'
    plugs = next(one for one in faults if where(one.spot).sheet == "programme")
    assert plugs.beside == "two is not a whole number; type it like 1."


def test_rows_are_added_changed_and_taken_out() -> None:
    draft = Draft().with_row("survey", 1, {"azimuth": "5 deg", "inclination": ""})
    assert draft.of("survey") == ({}, {"azimuth": "5 deg"})
    assert draft.without_row("survey", 0).of("survey") == ({"azimuth": "5 deg"},)
    assert draft.with_row("survey", 1, {}).empty
    assert Draft().with_row("hole", 0, {}).empty
