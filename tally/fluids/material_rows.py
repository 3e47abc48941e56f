"""Reading a list of materials: materials.csv, or one of the same shape that a user brings.

A list is CSV with these columns, in any order; only `name`, `kind`, one of `specific_gravity`
and `absolute_volume`, `origin` and `source` must be filled in:

name             what it is called; a salt has a row for each strength in the table of its volume
also             other names, parted by semicolons
kind             cement, solid, liquid, salt (dissolves in the mix water) or water
share_of_water   of a salt, the mass of salt by mass of water that the row is for ("15 %")
specific_gravity absolute, times 8.33 lb/gal
absolute_volume  "0.0382 gal/lb"; goes before the specific gravity where both are given
water            what it asks for: of a cement "5.2 gal/sk" (94 lb) or "44 %" by its mass, of the
                 rest "0.65 gal/sk" for each 1 % by weight of cement, or by its own mass
water_per        sack (of cement), percent (by weight of cement) or mass (its own)
sack             what a sack of it weighs ("94 lb")
origin           read, from memory, measured or data sheet: how the volume is known
source           where
water_origin, water_source   the same for the water
note             anything else
"""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
from dataclasses import replace
from io import StringIO
from typing import NamedTuple

from tally.errors import InputError, JobFileError
from tally.fluids.material import FRESH_WATER, Material
from tally.units import clean, read, shown

KINDS = ("cement", "solid", "liquid", "salt", "water")
ORIGINS = ("read", "from memory", "measured", "data sheet")
WATER_PER = ("sack", "percent", "mass")
MUST = ("name", "kind", "origin", "source")
COLUMNS = (
    "name", "also", "kind", "share_of_water", "specific_gravity", "absolute_volume", "water",
    "water_per", "sack", "origin", "source", "water_origin", "water_source", "note",
)  # fmt: skip

LIGHTEST, HEAVIEST = 100.0, 10_000.0
"""[kg/m3]; hollow spheres are heavier than the one, iron is lighter than the other."""

MOST_FAULTS, LONGEST = 100, 2000

Row = Mapping[str, str]


class _Read(NamedTuple):
    """A material as a row has it, and of a salt the share of the water that the row is for."""

    line: int
    material: Material
    share: float | None


def parse_materials(text: str) -> tuple[Material, ...]:
    """Return the materials of the text of a list.

    Raises
    ------
    JobFileError
        If a column or any row is doubtful; `faults` names every line and column.
    """
    faults: list[str] = []
    parsed = [each for line, row in _rows(text) for each in _parsed(line, row, faults)]
    found = _joined(parsed, faults)
    if not faults and not found:
        faults.append("The list of materials has no material in it, only names of columns.")
    if len(faults) > 1:
        raise JobFileError(f"The list of materials has {len(faults)} faults. {faults[0]}",
                           tuple(faults[:MOST_FAULTS]))  # fmt: skip
    if faults:
        raise JobFileError(faults[0], tuple(faults))
    return found


def _rows(text: str) -> list[tuple[int, Row]]:
    """Return the rows that are not blank, each with the line of the file on which it ends."""
    reader = csv.DictReader(StringIO(text, newline=""))
    try:
        titles = [name.strip() for name in reader.fieldnames or ()]
        _refuse_columns(titles)
        reader.fieldnames = titles
        rows = [(reader.line_num, _stripped(row)) for row in reader]
    except csv.Error as error:
        fault = f"The list of materials is no CSV at line {reader.line_num}: {error}."
        raise JobFileError(fault, (fault,)) from None
    return [(line, row) for line, row in rows if any(row.values())]


def _refuse_columns(found: Sequence[str]) -> None:
    strange = [name for name in found if name not in COLUMNS]
    missing = [name for name in MUST if name not in found]
    if missing or strange or len(set(found)) != len(found):
        parts = [f"it lacks {', '.join(missing)}"] if missing else []
        parts += [f"{', '.join(shown(n) or 'a blank' for n in strange)} is none"] if strange else []
        said = "; ".join(parts or ["one stands there twice"])
        fault = f"Line 1 of the list of materials names its columns: {said}."
        raise JobFileError(f"{fault} The columns are {', '.join(COLUMNS)}.", (fault,))


def _stripped(row: Mapping[str | None, str | list[str] | None]) -> dict[str, str]:
    cells = {name: row[name] for name in COLUMNS if name in row}
    plain = {name: cell.strip() for name, cell in cells.items() if isinstance(cell, str)}
    beyond = row.get(None)
    return plain | ({"beyond": ", ".join(beyond).strip()} if beyond else {})


def _parsed(line: int, row: Row, faults: list[str]) -> list[_Read]:
    """Return the material of a row; nothing where it has a fault."""
    said: list[str] = []
    material = _material(row, said)
    share = _number(row, "share_of_water", "ratio", said)
    if share is not None and row.get("kind") != "salt":
        said.append("share_of_water: only a salt has one.")
    faults += [f"Line {line}, {each}" for each in said]
    return [_Read(line, material, share)] if material is not None and not said else []


def _material(row: Row, said: list[str]) -> Material | None:
    said += [f"{name}: fill it in." for name in MUST if not row.get(name)]
    _refuse_unprintable(row, said)
    if "beyond" in row:
        said.append(f'after the last column: "{shown(row["beyond"])}" belongs to none; put a '
                    "text with commas between double quotes.")  # fmt: skip
    _refuse_word(row, "kind", KINDS, said)
    _refuse_word(row, "origin", ORIGINS, said)
    _refuse_word(row, "water_origin", ORIGINS, said)
    volume = _absolute_volume(row, said)
    water, sack = _water(row, said), _number(row, "sack", "mass", said)
    if said or volume is None:
        return None
    origin, source = ("", "") if water is None else (row["origin"], row["source"])
    return Material(
        row["name"], row["kind"], volume, row["origin"], row["source"],
        also=tuple(part.strip() for part in row.get("also", "").split(";") if part.strip()),
        water=water, water_origin=row.get("water_origin") or origin,
        water_source=row.get("water_source") or source, sack=sack, note=row.get("note", ""),
    )  # fmt: skip


def _absolute_volume(row: Row, said: list[str]) -> float | None:
    by_mass = _number(row, "absolute_volume", "specific volume", said)
    gravity = _number(row, "specific_gravity", "number", said)
    name = "absolute_volume" if by_mass is not None else "specific_gravity"
    if by_mass is None and gravity is None:
        if not (row.get("absolute_volume") or row.get("specific_gravity")):
            said.append("specific_gravity: fill it in, or absolute_volume.")
        return None
    volume = by_mass if by_mass is not None else 1 / max(FRESH_WATER * (gravity or 0.0), 1e-9)
    if not 1 / HEAVIEST <= volume <= 1 / LIGHTEST:
        density = 1 / max(volume, 1e-9)
        said.append(f"{name}: {shown(row[name])} makes {density:,.6g} kg/m3, outside "
                    f"{LIGHTEST:,.0f} to {HEAVIEST:,.0f} kg/m3; check the number.")  # fmt: skip
    return volume


def _water(row: Row, said: list[str]) -> float | None:
    """Return the water that the material asks for by its own mass, [m3/kg]."""
    text, per = row.get("water", ""), row.get("water_per", "")
    if not text:
        return None
    _refuse_word(row, "water_per", WATER_PER, said)
    if not per:
        said.append(f"water_per: say what {shown(text)} is for: {', '.join(WATER_PER)}.")
    if "%" in text and per == "sack":
        share = _number(row, "water", "ratio", said)
        return None if share is None else share / FRESH_WATER
    volume = _number(row, "water", "mix water" if per != "mass" else "specific volume", said)
    if volume is None:
        return None
    return volume * 100 if per == "percent" else volume


def _number(row: Row, column: str, quantity: str, said: list[str]) -> float | None:
    text = row.get(column, "")
    if not text:
        return None
    try:
        return read(text, quantity, "" if quantity == "number" else None).value
    except InputError as error:
        said.append(f"{column}: {error}")
        return None


def _refuse_word(row: Row, column: str, words: Sequence[str], said: list[str]) -> None:
    word = row.get(column, "")
    if word and word not in words:
        said.append(f'{column}: "{shown(word)}" is none of {", ".join(words)}.')


def _refuse_unprintable(row: Row, said: list[str]) -> None:
    for column, text in row.items():
        try:
            clean(text, LONGEST)
        except InputError as error:
            said.append(f"{column}: {error}")


def _joined(parsed: Sequence[_Read], faults: list[str]) -> tuple[Material, ...]:
    """Return the materials with the rows of each salt gathered into its table."""
    joined: dict[str, Material] = {}
    for line, material, share in parsed:
        key = folded(material.name)
        known = joined.get(key)
        table = known.dissolved if known is not None else ()
        if known is not None and not (share is not None and table):
            faults.append(f'Line {line}, name: "{shown(material.name)}" stands there twice.')
        elif share in [strength for strength, _ in table]:
            faults.append(f"Line {line}, share_of_water: {shown(material.name)} has it twice.")
        elif share is not None:
            table = tuple(sorted((*table, (share, material.absolute_volume))))
        joined[key] = replace(known or material, dissolved=table)
    return tuple(joined.values())


def folded(name: str) -> str:
    """Return a name as it is looked up: capitals and spaces do not matter."""
    return " ".join(name.casefold().split())
