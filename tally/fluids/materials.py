"""The materials that slurries are mixed from, by their names: ours, and a user's before them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from importlib.resources import files

from tally.errors import InputError
from tally.fluids.material import Material
from tally.fluids.material_rows import folded, parse_materials
from tally.units import shown


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
    wanted = folded(name)
    known = (*more, *materials())
    for each in known:
        if wanted in (folded(other) for other in (each.name, *each.also)):
            return each
    raise InputError(
        f'There is no material "{shown(name)}"{_near(wanted, known)}. Use one of the list, or '
        "bring it as a material of the job's own, [[material]]."
    )


def _near(wanted: str, known: Sequence[Material]) -> str:
    from difflib import get_close_matches

    names = {folded(other): each.name for each in known for other in (each.name, *each.also)}
    near = dict.fromkeys(names[key] for key in get_close_matches(wanted, names, 4, 0.5))
    return f"; near it: {', '.join(near)}" if near else ""
