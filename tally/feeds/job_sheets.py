"""What a form of the set-up has to know, made from the description that job files are read by.

A sheet is a table of a job file as somebody fills it in: its cells with labels, examples and
choices. Nothing here says what a value may be; that is asked of the tables themselves.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import UnionType
from typing import Any, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from tally.feeds import job_catalogue
from tally.feeds.job_faults import LIMITS_TABLE, Spot
from tally.feeds.job_tables import LimitTable, Table
from tally.feeds.job_values import Means
from tally.feeds.job_words import TOP, typed_like
from tally.job.limits import LIMITS
from tally.units import QUANTITIES

TEXT, WHOLE, YES_OR_NO, NAMES = "text", "whole number", "yes or no", "names"
YES, NO = "yes", "no"
UNIT_SETS = ("field", "metric")
FILES, QUANTITY_SHEET = "files", "quantities"

TITLES = {
    "hole": "hole and casing point",
    "hole_section": "hole sections",
    "previous_casing": "previous casing",
    "other_casing": "other casings",
    "zone": "zones",
    "tally": "tally and lengths",
    "units": "units shown",
    QUANTITY_SHEET: "units one by one",
    "pump": "displacement pump",
    "head": "cementing head",
    "programme": "cementing programme",
    "weights": "weights and pull",
    "item": "floats and other items",
    "centralizer": "centralizers",
    "fitting": "scratchers and stops",
    "centralizer_kind": "centralizer data",
    "centralizer_load": "centralizer loads",
    "viscometer": "viscometer readings",
    "fluid": "fluids to pump",
    "additive": "additives",
    "material": "own materials",
    "equipment": "equipment list",
    "rack": "rack rules",
    "space_out": "space-out",
    "keep_clear": "clear of couplings",
    "waiting": "waiting on cement",
    "strength": "laboratory strength",
    "waiting_rule": "own waiting rules",
    FILES: "pipe list and checklists",
    "running_order": "running order",
}
"""What a sheet is called where that is not the name of its table."""

LABELS = {
    ("tally", "unit"): "Tally unit",
    ("tally", "lengths"): "Joints measured as",
    ("hole", "depth"): "Depth of the hole",
    ("filling", "closed_end"): "Closed end",
    ("filling", "interval"): "Joints from fill to fill",
    ("filling", "design_factor"): "Design factor, collapse",
    ("weights", "tension_share"): "Share of the yield",
    ("rack", "drift_records"): "Drift record wanted",
    ("programme", "bottom_plugs"): "Bottom plugs",
    ("programme", "excess_applies_to"): "Excess is on the",
    ("programme", "pocket_filled"): "Slurry for the pocket",
    ("programme", "line_volume"): "Surface line, volume",
    ("programme", "line_full_at_zero"): "Line full at the zero",
    ("programme", "wash_up_volume"): "Wash-up behind the plug",
    ("programme", "dead_volume"): "Dead volume, mix fluid",
    ("programme", "reserve"): "Reserve, mix fluid",
    ("programme", "plug_time"): "Time to release the plug",
    ("programme", "plug_rating"): "Plugs rated to",
    ("programme", "collar_rating"): "Float collar rated to",
    ("head", "rating"): "Rated to",
    ("pump", "relief"): "Relief opens at",
    ("units", "set"): "Unit set",
    ("zone", "weak_at"): "Takes fluid at",
    ("zone", "pore"): "Pore pressure as density",
    ("previous_casing", "weak_at"): "Its shoe takes fluid at",
    ("other_casing", "weak_at"): "Its shoe takes fluid at",
    ("filling", "auto_fill"): "Auto-fill, share",
    ("filling", "converts_at_rate"): "Auto-fill converts at a flow of",
    ("filling", "converts_at_pressure"): "Auto-fill converts at",
    ("fluid", "length"): "Length of annulus",
    ("fluid", "top"): "Top in the annulus",
    ("fluid", "contact"): "Contact time",
    ("centralizer_kind", "restoring_force"): "Restoring force at 67 %",
    ("space_out", "pocket_band"): "Pocket, more or less",
    ("space_out", "stick_up_band"): "Stick-up, more or less",
    ("space_out", "hang_off"): "Hang-off depth",
    ("space_out", "marker"): "Bottom of the marker",
    ("space_out", "marker_band"): "Marker, more or less",
    ("space_out", "coupling"): "Length of a coupling",
    ("keep_clear", "above"): "Begins above the datum",
    ("waiting", "coldest"): "Coldest point that matters",
    ("strength", "time"): "Time since mixing",
    ("strength", "temperature"): "Cured at",
    ("waiting_rule", "where"): "Where the strength is wanted",
    ("waiting_rule", "need"): "Time and strength",
    ("waiting_rule", "meanwhile"): "Not allowed until then",
    (FILES, "pipe_list"): "Pipe list",
    (FILES, "checklists"): "Own checklists",
}
EMPTY_MEANS = {
    ("pipe", "inner_diameter"): "empty: from the size table",
    ("pipe", "range"): "or shortest and longest",
    ("pipe", "collapse_rating"): "empty: by the grade",
    ("weights", "tension_share"): "empty: all of it",
    ("centralizer", "joints"): "or depths, or a zone",
    ("fitting", "joints"): "or depths, or a zone",
    ("filling", "auto_fill"): "empty: no auto-fill",
    ("filling", "converts_at_rate"): "by its data sheet",
    ("filling", "converts_at_pressure"): "by its data sheet",
    ("programme", "excess_applies_to"): "wanted with an excess",
    ("fluid", "volume"): "or length, or top, or contact",
    ("fluid", "density"): "empty: from the recipe",
    ("additive", "share"): "or by the sack",
    ("material", "also"): "other names, with ; between",
    ("material", "specific_gravity"): "or the absolute volume",
    ("material", "water"): "what it asks for",
    ("space_out", "pocket"): "empty: as the casing point leaves",
    ("space_out", "pocket_band"): "empty: up to a joint more",
    ("space_out", "stick_up_band"): "empty: as it is wanted",
    ("space_out", "hang_off"): "top of the hanger; or the stick-up",
    ("space_out", "marker_band"): "empty: any depth",
    ("space_out", "coupling"): "empty: the top of the joint only",
    ("keep_clear", "top"): "depth; or above",
    ("keep_clear", "above"): "or the top as a depth",
    ("waiting_rule", "time"): "or a strength, or both",
    ("waiting_rule", "need"): "empty: both, where both are typed",
    (FILES, "pipe_list"): "a file beside the book; empty: received later",
    (FILES, "checklists"): "files with commas between; empty: the shipped ones",
    ("running_order", "running_order"): "empty: built later",
}
ORDER = (
    "well", "hole", "hole_section", "previous_casing", "other_casing", "zone", "survey", "tally",
    "units", QUANTITY_SHEET, "pipe", "mud", "viscometer", "pump", "head", "programme", "fluid",
    "additive", "material", "filling", "weights", "item", "centralizer", "centralizer_kind",
    "centralizer_load", "fitting", "equipment", "rack", "space_out", "keep_clear",
    "waiting", "strength", "waiting_rule", FILES,
    "running_order", "people", LIMITS_TABLE,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Cell:
    """One thing to type."""

    key: str
    label: str
    example: str
    kind: str = TEXT
    wanted: bool = False
    """Whether it may not be left out."""
    default: str = ""
    """What an empty field means."""
    choices: tuple[str, ...] = ()
    quantity: str = ""
    tally: bool = False
    hint: str = ""
    """What an empty field means, in words."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table, or a list of tables, as a form shows it."""

    name: str
    title: str
    cells: tuple[Cell, ...]
    many: bool = False
    """Whether rows are added to it."""
    needed: bool = False
    rows: Mapping[str, tuple[Cell, ...]] = field(default_factory=dict)
    """The rows that are always there, each with its cells."""
    table: str = ""
    """The table of the job file; nothing for the keys above the first table."""

    def cells_of(self, place: int) -> tuple[Cell, ...]:
        """Return the cells of a row, from 0."""
        return list(self.rows.values())[place] if self.rows else self.cells

    def called(self, place: int) -> str:
        """Return the name of a row that is always there."""
        return list(self.rows)[place]


@lru_cache(maxsize=1)
def sheets() -> Mapping[str, Sheet]:
    """Return every sheet by its name, in the order in which a job is set up.

    >>> list(sheets())[:2], [cell.label for cell in sheets()["head"].cells]
    (['well', 'hole'], ['Volume', 'Rated to'])
    """
    made = {each.name: each for each in _all()}
    return {name: made[name] for name in (*ORDER, *(name for name in made if name not in ORDER))}


def _all() -> Iterator[Sheet]:
    for name, kind in job_catalogue.TABLES.items():
        yield _of_table(name, kind, many=False)
    for name, kind in job_catalogue.LISTS.items():
        yield _of_table(name, kind, many=True)
    yield _limits()
    yield Sheet("units", _title("units"), (_unit_set(),), table="units")
    yield Sheet(QUANTITY_SHEET, _title(QUANTITY_SHEET), (), rows=_quantities(), table="units")
    rest = tuple(key for key in TOP if key != "running_order")
    for sheet, keys in ((FILES, rest), ("running_order", ("running_order",))):
        yield Sheet(sheet, _title(sheet), tuple(_top_cell(sheet, key) for key in keys))


def _title(name: str) -> str:
    return TITLES.get(name, name.replace("_", " "))


def _of_table(name: str, kind: type[Table], many: bool) -> Sheet:
    cells = tuple(_cell(name, key, info, many) for key, info in kind.model_fields.items())
    return Sheet(name, _title(name), cells, many, name in job_catalogue.NEEDED, table=name)


def _cell(table: str, name: str, info: FieldInfo, many: bool) -> Cell:
    key = info.alias or name
    means = _means(info)
    default = "" if info.is_required() or info.default is None else _default(info.default)
    kind = _kind(info.annotation)
    hint = f"empty: {default}" if default else "may be left out"
    return Cell(
        key,
        _label(table, key),
        typed_like(f"[[{table}]]" if many else f"[{table}]", key),
        kind,
        info.is_required(),
        default,
        (YES, NO) if kind == YES_OR_NO else means.choices,
        means.quantity,
        means.tally,
        "" if info.is_required() else EMPTY_MEANS.get((table, key), hint),
    )


def _default(value: Any) -> str:
    if isinstance(value, bool):
        return YES if value else NO
    return "" if value == () else str(value)


def _label(table: str, key: str) -> str:
    words = key.replace("_", " ")
    return LABELS.get((table, key), f"{words[0].upper()}{words[1:]}")


def _kind(annotation: Any) -> str:
    types = set(_alternatives(annotation))
    if bool in types:
        return YES_OR_NO
    return WHOLE if int in types else TEXT


def _alternatives(annotation: Any) -> Iterator[Any]:
    """Yield the plain types of an annotation: int of `Annotated[int, ...] | None`."""
    if get_origin(annotation) in (Union, UnionType):
        for each in get_args(annotation):
            yield from _alternatives(each)
    else:
        yield getattr(annotation, "__origin__", annotation)


def _means(info: FieldInfo) -> Means:
    inside = [meta for each in get_args(info.annotation) for meta in _metadata(each)]
    return next((each for each in (*info.metadata, *inside) if isinstance(each, Means)), Means())


def _metadata(annotation: Any) -> tuple[Any, ...]:
    return tuple(getattr(annotation, "__metadata__", ()))


def _limits() -> Sheet:
    shape = _of_table(LIMITS_TABLE, LimitTable, many=False)
    value, *others = shape.cells
    rows = {
        key: (
            Cell(
                value.key,
                value.label,
                QUANTITIES[kind.quantity].example,
                wanted=True,
                quantity=kind.quantity,
                hint=kind.meaning,
            ),
            *others,
        )
        for key, kind in LIMITS.items()
    }
    return Sheet(LIMITS_TABLE, _title(LIMITS_TABLE), shape.cells, rows=rows, table=LIMITS_TABLE)


def _unit_set() -> Cell:
    return Cell("set", _label("units", "set"), "field", default="field", choices=UNIT_SETS,
                hint="empty: field")  # fmt: skip


def _quantities() -> Mapping[str, tuple[Cell, ...]]:
    """Return a row for each quantity that can be shown in one unit or another."""
    rows = {}
    for quantity in QUANTITIES.values():
        units = tuple(unit for unit in quantity.units if unit)
        if units:
            hint = "empty: as the unit set has it"
            cell = Cell("unit", "Shown in", units[0], choices=units, hint=hint)
            rows[quantity.name] = (cell,)
    return rows


def _top_cell(sheet: str, key: str) -> Cell:
    kind = NAMES if TOP[key].startswith("[") else TEXT
    return Cell(key, _label(sheet, key), typed_like("", key), kind, hint=EMPTY_MEANS[sheet, key])


@dataclass(frozen=True, slots=True)
class Where:
    """A field of the forms: its sheet, its row from 0, its key; no key for the sheet itself."""

    sheet: str
    row: int = 0
    key: str = ""


def where(spot: Spot) -> Where:
    """Return the field that a spot of a job file is.

    >>> where(Spot("survey", "azimuth", place=3))
    Where(sheet='survey', row=2, key='azimuth')
    """
    known = sheets()
    if not spot.table:
        sheet = "running_order" if spot.key == "running_order" else FILES
        return Where(sheet, 0, spot.key)
    if spot.table == LIMITS_TABLE:
        return Where(LIMITS_TABLE, _row(known[LIMITS_TABLE], spot.called), spot.key)
    if spot.table == "units" and spot.key not in ("", "set"):
        name = spot.key.replace("_", " ")
        return Where(QUANTITY_SHEET, _row(known[QUANTITY_SHEET], name), "unit")
    return Where(spot.table, max(0, spot.place - 1), spot.key)


def _row(sheet: Sheet, name: str) -> int:
    names = list(sheet.rows)
    return names.index(name) if name in names else 0
