"""Gathers what the rooms registered, finds a formula by name, and sets it out as a table."""

from __future__ import annotations

from typing import NamedTuple

import tally.cement.bump_band
import tally.cement.columns_on_paper
import tally.cement.displacement
import tally.cement.floats
import tally.cement.free_fall
import tally.cement.pressuring
import tally.cement.slurry_volume
import tally.cement.times
import tally.fluids.bulletin
import tally.fluids.clinging
import tally.fluids.eccentric
import tally.fluids.equivalent
import tally.fluids.flow
import tally.fluids.friction
import tally.fluids.hydrostatic
import tally.fluids.laminar
import tally.fluids.pump
import tally.fluids.rheology
import tally.fluids.rheology_fit
import tally.fluids.slurry_amounts
import tally.fluids.slurry_check
import tally.fluids.slurry_recipe
import tally.fluids.surge
import tally.fluids.surge_handbook
import tally.fluids.surge_speed
import tally.fluids.surge_start
import tally.fluids.surge_velocity
import tally.fluids.textbook
import tally.fluids.textbook_annulus
import tally.fluids.textbook_herschel
import tally.fluids.textbook_power_law
import tally.hole.annulus
import tally.hole.excess
import tally.hole.survey_leg
import tally.hole.survey_methods
import tally.pipe.capacity
import tally.pipe.collapse
import tally.pipe.couplings
import tally.pipe.gauging
import tally.pipe.ratings
import tally.pipe.stresses
import tally.pipe.weight
import tally.string.centralizer
import tally.string.drag
import tally.string.empty_pipe
import tally.string.fill_limit
import tally.string.pull
import tally.string.sag
import tally.string.side_force
import tally.string.spacing
import tally.string.stretch
import tally.string.weights  # noqa: F401 - each import fills the register
from tally.errors import InputError
from tally.formula import REGISTER, Formula, Term
from tally.units import shown


class Line(NamedTuple):
    """One line of the table that sets out a formula."""

    part: str
    name: str
    meaning: str
    unit: str


def all_formulas() -> dict[str, Formula]:
    """Return every registered formula by name, in the order of the names.

    >>> "annulus" in all_formulas()
    True
    """
    return dict(sorted(REGISTER.items()))


def find(name: str) -> Formula:
    """Return the formula of that name; spaces and capitals do not matter.

    >>> find("Pipe volume").name
    'pipe-volume'
    """
    wanted = "-".join(name.casefold().replace("_", " ").replace("-", " ").split())
    if wanted in REGISTER:
        return REGISTER[wanted]
    near = _near(wanted)
    hint = f"; near it: {', '.join(near)}" if near else ""
    raise InputError(f'There is no formula "{shown(name)}"{hint}. Give no name to list them all.')


def table(formula: Formula) -> tuple[Line, ...]:
    """Return the formula set out line by line, as the command line and the documents print it.

    >>> [line.part for line in table(find("capacity"))]
    ['name', 'purpose', 'input', 'output', 'source', 'range']
    >>> table(find("closed-end-displacement"))[2][1:]
    ('od', 'outside diameter of the pipe body', 'in')
    """
    return (
        Line("name", formula.name, "", ""),
        Line("purpose", "", formula.purpose, ""),
        *(_line("input", term) for term in formula.inputs),
        *(_line("output", term) for term in formula.outputs),
        Line("source", "", formula.source, ""),
        Line("range", "", formula.range, ""),
    )


def _line(part: str, term: Term) -> Line:
    assumed = f" ({term.default} unless given)" if term.default is not None else ""
    return Line(part, term.name, term.meaning + assumed, term.unit)


def _near(wanted: str) -> list[str]:
    from difflib import get_close_matches

    names = list(all_formulas())
    sharing = [name for name in names if set(name.split("-")) & set(wanted.split("-"))]
    return list(dict.fromkeys([*get_close_matches(wanted, names), *sharing]))[:4]
