"""The standoff of the string where it will lie, at the worst moment of the job.

That moment is when the heaviest slurry stands inside and mud outside, just before the slurry
comes round the shoe: the pipe is never heavier. The shoe is taken at the casing point until the
string is on depth, so an item keeps its place while others are run over it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import takewhile

from tally.errors import Missing
from tally.job.centralizing import centralizer_of, kind_of, places
from tally.job.fittings import due_by
from tally.job.geometry import Last, hole_of, path_of, piece_of
from tally.job.job import Fitting, Job, Made
from tally.job.programme import programme
from tally.job.running_list import planned_shoe
from tally.job.setup import Fluid, Pipe, Setup
from tally.string.centralizer import Centralizer
from tally.string.standoff import Centring, Standoff

_TOUCHING = 1e-6
"""[m]; what shares no more than this only touches."""

Fitted = tuple[Made, tuple[Fitting, ...]]
"""An item of the string and what is on it."""


@dataclass(frozen=True, slots=True)
class Profile:
    """The standoff along the string, from the shoe up, and the string it was worked out on."""

    rows: tuple[Standoff, ...]
    centralizers: int
    top: float
    """Measured depth of the top of the string, [m]."""
    tension: float
    """Effective tension there, [N]."""


def heaviest_slurry(setup: Setup) -> Fluid | None:
    """Return the slurry of the programme with the greatest density over the mud's, if any."""
    mud = setup.pumping.mud_weight.value
    slurries = [each for each in setup.fluids if each.kind == "slurry" and _density(each) > mud]
    return max(slurries, key=_density, default=None)


def _density(fluid: Fluid) -> float:
    return fluid.density.value if fluid.density else 0.0


def density_inside(setup: Setup) -> float:
    """Return the density inside at the worst moment, [kg/m^3]."""
    slurry = heaviest_slurry(setup)
    return _density(slurry) if slurry else setup.pumping.mud_weight.value


class Growing:
    """The centring of the job that was looked at last: what is run over it is only added."""

    def __init__(self, fitted: Callable[[Job], Sequence[Fitted]]) -> None:
        self._fitted = fitted
        self._setup: Setup | None = None
        self._shoe = -1
        self._items: list[Fitted] = []
        self._kinds: dict[tuple[str, str], Centralizer | None] = {}
        self._centring: Centring | None = None

    def of(self, job: Job) -> Profile:
        """Return the standoff of a job, or raise Missing with what it lacks."""
        items = self._fitted(job)
        string = self._string(job)
        alike = takewhile(lambda pair: _same(*pair), zip(self._items, items, strict=False))
        common = min(sum(1 for _ in alike), string.items)
        string.keep(common)
        self._items = list(items[:common])
        for item in items[common:]:
            self._add(job.known, string, item)
        return Profile(string.rows(), len(string.supports), string.top, string.tension)

    def _string(self, job: Job) -> Centring:
        """Return the string kept, or a new one where set-up or shoe have changed."""
        setup, shoe = job.known, planned_shoe(job)
        if self._centring is None or setup is not self._setup or shoe != self._shoe:
            self._setup, self._shoe, self._items, self._kinds = setup, shoe, [], {}
            self._centring = Centring(
                path_of(setup),
                hole_of(setup),
                setup.step.si(shoe),
                density_inside(setup),
                setup.pumping.mud_weight.value,
            )
        return self._centring

    def _add(self, setup: Setup, string: Centring, item: Fitted) -> None:
        made, fittings = item
        pipe = setup.pipe(made.pipe)
        held = [(each, self._centralizer(setup, each.what, pipe)) for each in fittings]
        length = setup.step.si(made.length)
        string.add(piece_of(pipe, length), places(held, length))
        self._items.append(item)

    def _centralizer(self, setup: Setup, what: str, pipe: Pipe) -> Centralizer | None:
        key = what, pipe.name
        if key not in self._kinds:
            kind = kind_of(setup, what)
            self._kinds[key] = None if kind is None else centralizer_of(setup, kind, pipe)
        return self._kinds[key]


def _same(one: Fitted, other: Fitted) -> bool:
    return one[0] is other[0] and one[1] == other[1]


def _installed(job: Job) -> Sequence[Fitted]:
    return [(made, made.fittings) for made in job.string]


def _programmed(job: Job) -> Sequence[Fitted]:
    rules = programme(job)
    return [(made, due_by(rules, made.joint) if made.joint else ()) for made in job.string]


INSTALLED, PROGRAMMED = Growing(_installed), Growing(_programmed)


def _profile(job: Job) -> Profile:
    return _worked_out(job, INSTALLED, "installed")


def _as_programmed(job: Job) -> Profile:
    return _worked_out(job, PROGRAMMED, "programmed on what is run")


def _worked_out(job: Job, growing: Growing, how: str) -> Profile:
    setup = job.known
    if not job.string:
        raise Missing("Nothing is run yet.")
    if not setup.survey:
        raise Missing("No survey is in the job set-up; in a vertical hole nothing leans sideways.")
    if not setup.centralizers:
        raise Missing(
            "No centralizer data is in the job set-up; type kind, outside diameter and restoring "
            "force of each."
        )
    made = growing.of(job)
    if not made.rows:
        raise Missing(
            f"Fewer than two centralizers are {how}; standoff is worked out from one to the next."
        )
    return made


standoff_profile = Last(_profile)
"""The standoff along the string of a job, by the centralizers as installed."""

programmed_profile = Last(_as_programmed)
"""The standoff along what is run, if everything were installed as programmed."""


def open_rows(job: Job, profile: Profile) -> list[Standoff]:
    """Return the lengths between centralizers whose middle will lie in open hole."""
    shoe = hole_of(job.known).previous_shoe
    rows = [row for row in profile.rows if (row.top + row.bottom) / 2 > shoe]
    if not rows:
        raise Missing("No two centralizers will lie in open hole yet.")
    return rows


def joint_standoffs(job: Job, profile: Profile) -> list[float]:
    """Return the least standoff of every joint between centralizers in open hole, from the shoe.

    A joint counts by the lengths that it is part of.
    """
    step, shoe, rows = job.known.step, planned_shoe(job), open_rows(job, profile)
    tops, feet = [-row.top for row in rows], [-row.bottom for row in rows]
    found = []
    for made in job.string:
        top, bottom = step.si(shoe - made.top), step.si(shoe - made.top + made.length)
        first, past = bisect_right(tops, _TOUCHING - bottom), bisect_left(feet, -_TOUCHING - top)
        if made.joint and first < past:
            found.append(min(row.least for row in rows[first:past]))
    return found
