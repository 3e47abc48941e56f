"""What slurries are mixed from: materials.csv, and lists of the same shape that a user brings.

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
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

from tally.errors import InputError, JobFileError
from tally.units import from_unit, read, shown

KINDS = ("cement", "solid", "liquid", "salt", "water")
ORIGINS = ("read", "from memory", "measured", "data sheet")
WATER_PER = ("sack", "percent", "mass")
MUST = ("name", "kind", "origin", "source")
COLUMNS = (
    "name", "also", "kind", "share_of_water", "specific_gravity", "absolute_volume", "water",
    "water_per", "sack", "origin", "source", "water_origin", "water_source", "note",
)  # fmt: skip

FRESH_WATER = from_unit(8.33, "lb/gal")
"""[kg/m3]; the handbook value at 68 degF, and what a specific gravity in the list is times."""

LIGHTEST, HEAVIEST = 100.0, 10_000.0
"""[kg/m3]; hollow spheres are heavier than the one, iron is lighter than the other."""

Row = Mapping[str, str]
Dissolved = tuple[tuple[float, float], ...]
"""Mass of salt by mass of water, and the volume that each mass of it adds, [m3/kg]."""


@dataclass(frozen=True, slots=True)
class Material:
    """One material in SI; `water` is by mass of itself, [m3/kg], None where nothing was found."""

    name: str
    kind: str
    absolute_volume: float
    origin: str
    source: str
    also: tuple[str, ...] = ()
    dissolved: Dissolved = ()
    water: float | None = None
    water_origin: str = ""
    water_source: str = ""
    sack: float | None = None
    note: str = ""

    @property
    def density(self) -> float:
        """Mass by absolute volume, [kg/m3]."""
        return 1 / self.absolute_volume

    @property
    def strongest(self) -> float:
        """The most salt by mass of water that the table goes to, [-]; 0 where there is no table."""
        return self.dissolved[-1][0] if self.dissolved else 0.0

    def volume_by_mass(self, share_of_water: float = 0.0) -> float:
        """Return the volume that each mass of it adds, [m3/kg]; of a salt, in water so strong.

        Between the rows of the table it runs straight; beyond its ends the end is taken.
        """
        if not self.dissolved or share_of_water <= self.dissolved[0][0]:
            return self.dissolved[0][1] if self.dissolved else self.absolute_volume
        for (weak, low), (strong, high) in zip(self.dissolved, self.dissolved[1:], strict=False):
            if share_of_water <= strong:
                return low + (high - low) * (share_of_water - weak) / (strong - weak)
        return self.dissolved[-1][1]


@lru_cache(maxsize=1)
def materials() -> tuple[Material, ...]:
    """Return the materials that come with the program.

    >>> len(materials()) > 20
    True
    """
    text = (files("tally.fluids") / "materials.csv").read_text("utf-8")
    return parse_materials(text)


def find_material(name: str, more: Sequence[Material] = ()) -> Material:
    """Return a material by one of its names; those of `more` go before the program's own.

    Raises InputError, with the names near it, where there is none.

    >>> find_material("Class G").name
    'API cement class G'
    """
    wanted = _folded(name)
    known = (*more, *materials())
    for each in known:
        if wanted in (_folded(other) for other in (each.name, *each.also)):
            return each
    raise InputError(
        f'There is no material "{shown(name)}"{_near(wanted, known)}. Use one of the list, or '
        "bring it in a list of materials."
    )


def parse_materials(text: str) -> tuple[Material, ...]:
    """Return the materials of the text of a list.

    Raises
    ------
    JobFileError
        If a column or any row is doubtful; `faults` names every line and column.
    """
    reader = csv.DictReader(text.splitlines())
    found = [name.strip() for name in reader.fieldnames or ()]
    _refuse_columns(found)
    reader.fieldnames = found
    faults: list[str] = []
    rows = [(reader.line_num, _stripped(row)) for row in reader]
    parsed = [each for line, row in rows if any(row.values())
              for each in _parsed(line, row, faults)]  # fmt: skip
    if not faults and not parsed:
        faults.append("The list of materials has no material in it, only names of columns.")
    if faults:
        told = faults[0] if len(faults) == 1 else f"The list of materials has {len(faults)} faults."
        raise JobFileError(told if len(faults) == 1 else f"{told} {faults[0]}", tuple(faults))
    return _joined(parsed)


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
    return plain | ({"beyond": ", ".join(beyond)} if beyond else {})


def _parsed(line: int, row: Row, faults: list[str]) -> list[tuple[Material, float | None]]:
    """Return the material of a row and its share of the water; nothing where it has a fault."""
    said: list[str] = []
    material = _material(row, said)
    share = _number(row, "share_of_water", "ratio", said)
    if share is not None and row.get("kind") != "salt":
        said.append("share_of_water: only a salt has one.")
    faults += [f"Line {line}, {each}" for each in said]
    return [(material, share)] if material is not None and not said else []


def _material(row: Row, said: list[str]) -> Material | None:
    said += [f"{name}: fill it in." for name in MUST if not row.get(name)]
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
    return Material(
        row["name"], row["kind"], volume, row["origin"], row["source"],
        also=tuple(part.strip() for part in row.get("also", "").split(";") if part.strip()),
        water=water, water_origin=row.get("water_origin", "") or (row["origin"] if water else ""),
        water_source=row.get("water_source", "") or (row["source"] if water else ""),
        sack=sack, note=row.get("note", ""),
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


def _joined(parsed: Sequence[tuple[Material, float | None]]) -> tuple[Material, ...]:
    """Return the materials with the rows of each salt gathered into its table."""
    from dataclasses import replace

    joined: dict[str, Material] = {}
    for material, share in parsed:
        key = _folded(material.name)
        known = joined.get(key, material)
        table = known.dissolved
        if share is not None:
            table = tuple(sorted({*table, (share, material.absolute_volume)}))
        elif key in joined:
            fault = f'The list of materials has "{shown(material.name)}" twice; strike one.'
            raise JobFileError(fault, (fault,))
        joined[key] = replace(known, dissolved=table)
    return tuple(joined.values())


def _folded(name: str) -> str:
    return " ".join(name.casefold().split())


def _near(wanted: str, known: Sequence[Material]) -> str:
    from difflib import get_close_matches

    names = {_folded(other): each.name for each in known for other in (each.name, *each.also)}
    near = dict.fromkeys(names[key] for key in get_close_matches(wanted, names, 4, 0.5))
    return f"; near it: {', '.join(near)}" if near else ""
