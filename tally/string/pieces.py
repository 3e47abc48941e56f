"""The string as it is made up: pieces from the shoe up, and where they hang."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from tally.errors import DomainError
from tally.formula import require_range
from tally.pipe.interval import PipeInterval


@dataclass(frozen=True, slots=True)
class StringPiece:
    """A length of one kind of pipe, [m]; weight in air with couplings, [kg/m].

    `coupling_area` is the room of the couplings beyond the body, shared out by length, [m^2].
    `yield_strength` [Pa] is that of a standard grade; `collapse_rating` [Pa] is typed from the data
    sheet of pipe that has no standard one.
    """

    length: float
    outer_diameter: float
    inner_diameter: float
    weight: float
    coupling_area: float = 0.0
    yield_strength: float | None = None
    collapse_rating: float | None = None

    def __post_init__(self) -> None:
        require_range("Length of the piece", self.length, 0.0, 30_000.0, "m")
        self.hung(0.0, 0.0)

    def hung(self, top: float, bottom: float) -> PipeInterval:
        """Return this kind of pipe between two measured depths."""
        return PipeInterval(
            top,
            bottom,
            self.outer_diameter,
            self.inner_diameter,
            self.weight,
            self.coupling_area,
            self.yield_strength,
            self.collapse_rating,
        )


def merged(pieces: Iterable[StringPiece]) -> tuple[StringPiece, ...]:
    """Return the pieces with like neighbours put together, so that 2,000 joints are a few pieces.

    >>> joint = StringPiece(12.0, 0.2445, 0.2205, 70.0)
    >>> [piece.length for piece in merged([joint, joint, joint])]
    [36.0]
    """
    whole: list[StringPiece] = []
    for _, alike in groupby(pieces, key=_kind):
        first, *others = alike
        length = first.length + sum(each.length for each in others)
        whole.append(replace(first, length=length) if others else first)
    return tuple(whole)


def hung_at(
    pieces: Sequence[StringPiece], shoe_depth: float, top: float = 0.0
) -> tuple[PipeInterval, ...]:
    """Return the string with its shoe at a measured depth, from the top down.

    Parameters
    ----------
    pieces : sequence of StringPiece
        From the shoe up
    shoe_depth : float
        Measured depth of the shoe, [m]
    top : float
        Measured depth at which the string is cut off, below zero for a stick-up, [m]

    Returns
    -------
    pipe : tuple of PipeInterval
        The pieces where they hang, from the top down

    Raises
    ------
    DomainError
        If the pieces together are too short to reach from the shoe to the top.

    Examples
    --------
    >>> heavy = StringPiece(100.0, 0.2445, 0.2168, 80.0)
    >>> light = StringPiece(900.0, 0.2445, 0.2205, 70.0)
    >>> [(each.top, each.bottom) for each in hung_at([heavy, light], 500.0)]
    [(0.0, 400.0), (400.0, 500.0)]
    """
    require_range("Shoe depth", shoe_depth, top, 30_000.0, "m")
    hung: list[PipeInterval] = []
    bottom = shoe_depth
    for piece in pieces:
        if bottom <= top:
            break
        upper = max(top, bottom - piece.length)
        hung.append(piece.hung(upper, bottom))
        bottom = upper
    if bottom > top + 1e-6:
        raise DomainError(
            f"The string of {shoe_depth - bottom:.6g} m does not reach from the shoe at "
            f"{shoe_depth:.6g} m up to {top:.6g} m; add the pipe still to be run."
        )
    return tuple(reversed(hung))


def _kind(piece: StringPiece) -> tuple[float | None, ...]:
    """Return everything of a piece but its length."""
    return (
        piece.outer_diameter,
        piece.inner_diameter,
        piece.weight,
        piece.coupling_area,
        piece.yield_strength,
        piece.collapse_rating,
    )
