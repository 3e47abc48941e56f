"""The weights to expect against depth, as the string goes in."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tally.string.columns import FluidColumn
from tally.string.drag import DragPath, Weights
from tally.string.pieces import StringPiece, hung_at, merged
from tally.string.weights import weighed


def expected_band(
    path: DragPath,
    pieces: Sequence[StringPiece],
    shoe_depths: Sequence[float],
    inside: FluidColumn | Callable[[float], FluidColumn],
    outside: FluidColumn,
    block: float = 0.0,
    top: float = 0.0,
) -> tuple[Weights, ...]:
    """Return the weights that the indicator should show at each depth of the shoe.

    Parameters
    ----------
    path : DragPath
        The hole with its friction factors, down to the deepest shoe depth or further
    pieces : sequence of StringPiece
        The string from the shoe up, with the pipe still to be run
    shoe_depths : sequence of float
        Measured depths of the shoe, [m]
    inside : FluidColumn or function
        What stands inside; a function gives it by the depth of the shoe, for a string that is
        filled now and then
    outside : FluidColumn
        What stands outside
    block : float
        Weight of blocks and tools, [N]
    top : float
        Measured depth of the top of the string, below zero for a stick-up, [m]

    Returns
    -------
    band : tuple of Weights
        Hanging, slack-off and pick-up weight with blocks, at each depth, [N]

    Raises
    ------
    DomainError
        If the pieces do not reach from a depth to the top, or a depth lies below the path.

    Notes
    -----
    The hole is cut into arcs once; at each depth the pull is carried up through the arcs that
    the string lies in, a few operations each.

    Examples
    --------
    >>> from tally.hole.survey import Survey
    >>> from tally.string.columns import column
    >>> path = DragPath(Survey(), 1000.0, 400.0, 0.2, 0.3)
    >>> pieces = [StringPiece(1000.0, 0.2445, 0.2205, 70.0)]
    >>> mud = column(1200.0)
    >>> band = expected_band(path, pieces, [500.0, 1000.0], mud, mud)
    >>> [round(each.hanging / 1000) for each in band]
    [292, 583]
    """
    whole = merged(pieces)
    found: list[Weights] = []
    for depth in shoe_depths:
        contents = inside if isinstance(inside, FluidColumn) else inside(depth)
        spans = weighed(hung_at(whole, depth, top), contents, outside)
        found.append(path.weights(spans).with_block(block))
    return tuple(found)
