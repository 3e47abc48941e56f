"""The cementing programme: its fluids in pumping order, placed in the hole and the pipe as run.

The last slurry fills the pocket, the shoe track and the annulus from the shoe up; each fluid that
was pumped before it stands on top of it. What is pumped behind it stays inside, above the collar.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.errors import DomainError
from tally.fluids.root import bracketed_root
from tally.hole.sections import Hole
from tally.pipe.interval import PipeInterval, inside_volume

SLURRY = "slurry"
_NOTHING = 1e-9
"""[m3] or [m]; less is nothing."""


@dataclass(frozen=True, slots=True)
class Room:
    """Where the fluids go: the hole, the pipe in it from the top down, and its depths, [m].

    `collar` is where the plugs land; `bottom` is that of the hole, or the shoe where the pocket is
    not to be filled.
    """

    hole: Hole
    pipe: tuple[PipeInterval, ...]
    collar: float
    shoe: float
    bottom: float

    def __post_init__(self) -> None:
        if not self.hole.top <= self.collar <= self.shoe <= self.bottom:
            raise DomainError(
                f"Collar {self.collar:.6g} m, shoe {self.shoe:.6g} m and bottom of the hole "
                f"{self.bottom:.6g} m do not follow one another; check the depths."
            )

    @property
    def track(self) -> float:
        """Volume inside from the collar to the shoe, [m^3]."""
        return inside_volume(self.pipe, self.collar, self.shoe)

    @property
    def pocket(self) -> float:
        """Volume of the hole below the shoe, [m^3]."""
        return self.hole.volume(self.shoe, self.bottom)

    def annulus(self, top: float, bottom: float) -> float:
        """Return the volume around the pipe between two measured depths, [m^3]."""
        return self.hole.annulus(self.pipe, top, bottom)

    @property
    def volume(self) -> float:
        """Everything that fluids of the programme can fill: pocket, shoe track, annulus, [m^3]."""
        return self.pocket + self.track + self.annulus(self.hole.top, self.shoe)

    def top_of(self, volume: float, bottom: float) -> float:
        """Return the measured depth to which a volume reaches up from a depth, [m].

        Raises DomainError where it is more than the annulus holds.
        """
        room = self.annulus(self.hole.top, bottom)
        if volume > room + _NOTHING:
            raise DomainError(
                f"{volume:.4g} m3 is more than the annulus above {bottom:.6g} m holds, "
                f"{room:.4g} m3; check volume and hole."
            )
        if volume <= _NOTHING:
            return bottom
        if volume >= room:
            return self.hole.top
        return bracketed_root(lambda top: self.annulus(top, bottom) - volume, self.hole.top, bottom)


@dataclass(frozen=True, slots=True)
class Wanted:
    """A fluid as the programme asks for it, in one way of four.

    By volume [m^3], by the length of annulus that it fills [m], by the measured depth of its top
    [m], or by how long it passes a point [s] at a rate [m^3/s].
    """

    name: str
    kind: str
    volume: float | None = None
    length: float | None = None
    top: float | None = None
    contact: float | None = None
    rate: float | None = None

    @property
    def by_volume(self) -> float | None:
        """The volume where it follows without the hole, [m^3]."""
        if self.contact is None:
            return self.volume
        if self.rate is None:
            raise DomainError(f"The {self.name} has a contact time but no rate; give its rate.")
        return self.contact * self.rate


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a fluid is when the top plug has seated: volumes [m^3] and measured depths [m]."""

    name: str
    kind: str
    volume: float
    top: float
    bottom: float
    within: float = 0.0
    """Of the volume, what stays in the shoe track and the pocket."""
    out: float = 0.0
    """Of the volume, what has come out at the top of the annulus."""

    @property
    def length(self) -> float:
        """Length of annulus that it fills, [m]."""
        return self.bottom - self.top


@dataclass(frozen=True, slots=True)
class Programme:
    """The fluids in pumping order, and what of the mud is left in the annulus above them."""

    placed: tuple[Placed, ...]
    above: float
    """Volume of the annulus that keeps its mud, [m^3]."""
    top: float
    """Measured depth down to which it stands, [m]."""

    @property
    def slurry(self) -> float:
        """Volume of all slurries, [m^3]."""
        return sum(each.volume for each in self.placed if each.kind == SLURRY)

    @property
    def ahead(self) -> float:
        """Volume of all that is pumped ahead of the first slurry, [m^3]."""
        return sum(each.volume for each in self.placed if each.kind != SLURRY)

    @property
    def cement_top(self) -> float:
        """Measured depth of the top of the uppermost slurry, [m]."""
        return min(each.top for each in self.placed if each.kind == SLURRY)


def programme(room: Room, fluids: Sequence[Wanted]) -> Programme:
    """Return where the fluids stand, and how much of each it takes.

    Parameters
    ----------
    room : Room
        Hole and pipe
    fluids : sequence of Wanted
        In pumping order, up to the last slurry

    Returns
    -------
    programme : Programme
        Volumes and depths; pocket, shoe track and annulus are shared among fluids and mud to the
        last drop

    Raises
    ------
    DomainError
        If there is no slurry at the end, a top lies below the shoe or above the datum, or a
        slurry does not fit.

    Notes
    -----
    Nothing mixes and nothing is lost. A spacer of a given volume that finds no room comes out at
    the top; a slurry that finds none is refused, since nobody wants it there unsaid.

    Examples
    --------
    >>> from tally.hole.sections import HoleSection
    >>> hole = Hole([HoleSection(0.0, 1010.0, 0.311)])
    >>> room = Room(hole, (PipeInterval(0.0, 1000.0, 0.2445, 0.2205, 70.0),), 975.0, 1000.0, 1010.0)
    >>> made = programme(room, [Wanted("spacer", "spacer", volume=5.0),
    ...                         Wanted("tail", "slurry", top=600.0)])
    >>> [(each.name, round(each.volume, 2), round(each.top, 1)) for each in made.placed]
    [('spacer', 5.0, 427.7), ('tail', 13.32, 600.0)]
    """
    if not fluids or fluids[-1].kind != SLURRY:
        raise DomainError("The programme has no slurry to end with; add one.")
    placed: list[Placed] = []
    bottom, within = room.shoe, room.pocket + room.track
    for fluid in reversed(fluids):
        placed.append(_place(room, fluid, bottom, within))
        bottom, within = placed[-1].top, 0.0
    return Programme(tuple(reversed(placed)), room.annulus(room.hole.top, bottom), bottom)


def _place(room: Room, fluid: Wanted, bottom: float, within: float) -> Placed:
    """Return a fluid that stands on a depth and fills so much below it besides."""
    volume = fluid.by_volume
    if volume is not None:
        return _by_volume(room, fluid, volume, bottom, within)
    top = _top(fluid, bottom)
    if top < room.hole.top - _NOTHING:
        raise DomainError(
            f"The {fluid.name} would reach {room.hole.top - top:.4g} m above the datum; give it "
            "less length."
        )
    around = room.annulus(top, bottom)
    return Placed(fluid.name, fluid.kind, around + within, top, bottom, within)


def _top(fluid: Wanted, bottom: float) -> float:
    if fluid.length is not None:
        return bottom - fluid.length
    if fluid.top is None:
        raise DomainError(f"How much {fluid.name} is wanted is not said; give a volume or a top.")
    if fluid.top > bottom:
        raise DomainError(
            f"The top of the {fluid.name}, {fluid.top:.6g} m, lies below {bottom:.6g} m, where it "
            "begins; check both."
        )
    return fluid.top


def _by_volume(room: Room, fluid: Wanted, volume: float, bottom: float, within: float) -> Placed:
    if volume < within - _NOTHING:
        raise DomainError(
            f"{volume:.4g} m3 of {fluid.name} does not fill the shoe track and the pocket, "
            f"{within:.4g} m3; none would stand around the pipe. Give more."
        )
    around = max(0.0, volume - within)
    holds = room.annulus(room.hole.top, bottom)
    out = max(0.0, around - holds)
    if out > _NOTHING and fluid.kind == SLURRY:
        raise DomainError(
            f"{volume:.4g} m3 of {fluid.name} is {out:.4g} m3 more than there is room for; check "
            "volume and hole."
        )
    top = room.top_of(min(around, holds), bottom)
    return Placed(fluid.name, fluid.kind, volume, top, bottom, within, out)


def behind_plug(displacement: float, fluids: Sequence[Wanted]) -> tuple[tuple[str, float], ...]:
    """Return the fluids pumped behind the last slurry with their volumes, [m^3].

    One of them may leave its volume open: it is what is left of the displacement.

    >>> behind_plug(50.0, [Wanted("water", "displacement", volume=2.0), Wanted("mud", "mud")])
    (('water', 2.0), ('mud', 48.0))

    Raises DomainError where they are more than the displacement, or two leave it open.
    """
    given = [fluid.by_volume for fluid in fluids]
    left = displacement - sum(volume for volume in given if volume is not None)
    if given.count(None) > 1:
        raise DomainError("Two fluids behind the plug have no volume; give all but one of them.")
    if left < -_NOTHING:
        raise DomainError(
            f"The fluids behind the plug are {-left:.4g} m3 more than the displacement, "
            f"{displacement:.4g} m3; check their volumes."
        )
    volumes = [left if volume is None else volume for volume in given]
    return tuple((fluid.name, volume) for fluid, volume in zip(fluids, volumes, strict=True))
