"""How far the level falls in a casing that a heavy slug has entered, with nothing moving."""

from __future__ import annotations

from tally.formula import Term, formula, require_range


@formula(
    "free-fall-level",
    "Empty casing above a slug heavier than the mud, with nothing moving and all of it inside",
    inputs=[
        Term("height", "true vertical height of the slug in the casing", "length", "ft"),
        Term("slug", "density of the slug", "density", "lb/gal"),
        Term("mud", "density of the mud above, below and outside", "density", "lb/gal"),
    ],
    outputs=[Term("empty", "true vertical length of empty casing", "length", "ft")],
    source="balance of both sides: height x (slug - mud) / mud",
    range="height 0 to 15,000 m; mud 100 to 3,000 kg/m3; slug 100 to 3,000 kg/m3",
)
def free_fall_level(height: float, slug_density: float, mud_density: float) -> float:
    """Return how much of the casing a slug heavier than the mud empties by its weight alone.

    Parameters
    ----------
    height : float
        True vertical height of the slug, all of it in the casing, [m]
    slug_density : float
        Density of the slug, [kg/m^3]
    mud_density : float
        Density of the mud above it, below it and outside, [kg/m^3]

    Returns
    -------
    empty : float
        True vertical length of empty casing; 0 where the slug is no heavier than the mud, [m]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The columns balance when the mud missing at the top weighs what the slug weighs too much. The
    returns are then ahead of the pump by the volume of the empty casing. Friction makes it less
    while it flows; open to the air at the head.

    Examples
    --------
    >>> round(free_fall_level(400.0, 1900.0, 1200.0), 1)
    233.3
    """
    require_range("Height of the slug", height, 0.0, 15_000.0, "m")
    require_range("Density of the slug", slug_density, 100.0, 3000.0, "kg/m3")
    require_range("Density of the mud", mud_density, 100.0, 3000.0, "kg/m3")
    return max(0.0, height * (slug_density - mud_density) / mud_density)
