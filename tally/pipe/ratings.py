"""What a pipe body and its coupling are rated for: internal yield and body yield.

The ratings are those of the historical set (API Bulletin 5C3): published tables carry them
rounded, so each rating is given unrounded and as published.
"""

from __future__ import annotations

from math import floor

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, INNER_RANGE, OUTER_DIAMETER, OUTER_RANGE
from tally.pipe.weight import STANDARD_GRAVITY, steel_area

POUND_FORCE = 0.45359237 * STANDARD_GRAVITY
"""[N]"""

PSI = POUND_FORCE / 0.0254**2
"""[Pa]"""

WALL = Term("wall", "nominal wall thickness", "diameter", "in")
YIELD = Term("yield", "specified minimum yield strength of the grade", "pressure", "psi")
PRESSURE = Term("pressure", "pressure, not rounded", "pressure", "psi")
RATED = Term("rated", "as published, to the nearest 10 psi", "pressure", "psi")

WALL_RANGE = "wall 0.003 to 0.1 m and less than half the outside"
YIELD_RANGE = "yield strength 200 to 950 MPa"
HANDBOOK = "Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, Casing Design"


@formula(
    "internal-yield",
    "Internal yield pressure (burst) of the pipe body",
    inputs=[
        OUTER_DIAMETER,
        WALL,
        YIELD,
        Term("share", "least wall allowed, as a share of the nominal", "ratio", "%", "87.5 %"),
    ],
    outputs=[PRESSURE, RATED],
    source=f"{HANDBOOK}, eq. 7.1 (API Bulletin 5C3)",
    range=f"{OUTER_RANGE}; {WALL_RANGE}; {YIELD_RANGE}; share 0.5 to 1",
)
def internal_yield(
    outer_diameter: float, wall: float, yield_strength: float, wall_share: float = 0.875
) -> tuple[float, float]:
    """Return the internal yield pressure of the pipe body, not rounded and as published.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    wall : float
        Nominal wall, [m]
    yield_strength : float
        Specified minimum yield strength, [Pa]
    wall_share : float
        Least wall allowed as a share of the nominal wall, [-]

    Returns
    -------
    pressure : float
        Internal yield pressure, [Pa]
    rated : float
        The same to the nearest 10 psi, as tables print it, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the wall leaves no bore.

    Notes
    -----
    0.875 * 2 * Yp * t / D [1]_. The 0.875 allows for a wall 12.5 % under nominal; it belongs
    here and nowhere else: collapse and body yield use the whole nominal wall. The lower of pipe
    body and coupling governs a threaded and coupled joint.

    Examples
    --------
    9-5/8 in of 0.472 in wall, 80,000 psi.

    >>> [round(value / PSI, 1) for value in internal_yield(0.244475, 0.0119888, 80_000 * PSI)]
    [6865.5, 6870.0]

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, eq. 7.1, p. II-290.
    """
    require_body(outer_diameter, wall, yield_strength)
    require_range("Share of the wall", wall_share, 0.5, 1.0, "")
    pressure = wall_share * 2 * yield_strength * wall / outer_diameter
    return pressure, to_nearest(pressure, 10 * PSI)


@formula(
    "coupling-internal-yield",
    "Internal yield pressure of a coupling",
    inputs=[
        Term("coupling", "outside diameter of the coupling", "diameter", "in"),
        Term("root", "diameter at the thread root, at the end of the made-up pin", "diameter",
             "in"),
        Term("yield", "specified minimum yield strength of the coupling", "pressure", "psi"),
    ],
    outputs=[PRESSURE, RATED],
    source=f"{HANDBOOK}, eq. 7.15",
    range=f"coupling 0.05 to 1.2 m; root less than coupling, 0.05 m or more; {YIELD_RANGE}",
)  # fmt: skip
def coupling_internal_yield(
    coupling_diameter: float, root_diameter: float, yield_strength: float
) -> tuple[float, float]:
    """Return the internal yield pressure of a coupling, not rounded and as published.

    Parameters
    ----------
    coupling_diameter : float
        Outside diameter of the coupling, [m]
    root_diameter : float
        Diameter at the thread root in the coupling at the end of the made-up pin, [m]
    yield_strength : float
        Specified minimum yield strength of the coupling, [Pa]

    Returns
    -------
    pressure : float
        Internal yield pressure, [Pa]
    rated : float
        The same to the nearest 10 psi, [Pa]

    Raises
    ------
    DomainError
        If a number is out of range, or the root is not less than the coupling.

    Notes
    -----
    Yc * (W - d1) / W [1]_.

    Examples
    --------
    >>> round(coupling_internal_yield(0.27, 0.245, 80_000 * PSI)[0] / PSI)
    7407

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, eq. 7.15.
    """
    require_range("Coupling diameter", coupling_diameter, 0.05, 1.2, "m")
    require_range("Thread root diameter", root_diameter, 0.05, coupling_diameter, "m")
    require_yield(yield_strength)
    if root_diameter == coupling_diameter:
        raise DomainError("The thread root is as wide as the coupling; check which is which.")
    pressure = yield_strength * (coupling_diameter - root_diameter) / coupling_diameter
    return pressure, to_nearest(pressure, 10 * PSI)


@formula(
    "body-yield",
    "Pipe body yield strength: the pull that yields the whole cross-section",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER, YIELD],
    outputs=[
        Term("strength", "pull, not rounded", "force", "klbf"),
        Term("rated", "as published, to the nearest 1,000 lbf", "force", "klbf"),
    ],
    source=f"{HANDBOOK}, eq. 7.8 (API Bulletin 5C3)",
    range=f"{OUTER_RANGE}; {INNER_RANGE}; inside less than outside; {YIELD_RANGE}",
)
def body_yield(
    outer_diameter: float, inner_diameter: float, yield_strength: float
) -> tuple[float, float]:
    """Return the pipe body yield strength, not rounded and as published.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter, [m]
    inner_diameter : float
        Nominal inside diameter, [m]
    yield_strength : float
        Specified minimum yield strength, [Pa]

    Returns
    -------
    strength : float
        Pull at yield, [N]
    rated : float
        The same to the nearest 1,000 lbf, as tables print it, [N]

    Raises
    ------
    DomainError
        If a number is out of range, or the inside is not less than the outside.

    Notes
    -----
    pi/4 * (D**2 - d**2) * Yp with the whole nominal wall [1]_. It rates the body alone: the
    strength of the connection is typed from its data sheet and is often the lower one.

    Examples
    --------
    >>> round(body_yield(0.1143, 0.1016, 80_000 * PSI)[1] / POUND_FORCE)
    267000

    References
    ----------
    .. [1] Petroleum Engineering Handbook, Vol. II (SPE), ch. 7, eq. 7.8, p. II-291.
    """
    require_yield(yield_strength)
    strength = steel_area(outer_diameter, inner_diameter) * yield_strength
    return strength, to_nearest(strength, 1000 * POUND_FORCE)


def to_nearest(value: float, step: float) -> float:
    """Return a rating rounded to whole steps, half up, as the published tables are.

    >>> to_nearest(165_500.0, 1000.0)
    166000.0
    """
    return floor(value / step + 0.5) * step


def require_body(outer_diameter: float, wall: float, yield_strength: float) -> None:
    """Refuse a pipe body that cannot be."""
    require_range("Outside diameter", outer_diameter, 0.05, 1.1, "m")
    require_range("Wall", wall, 0.003, 0.1, "m")
    if 2 * wall >= outer_diameter:
        raise DomainError(
            f"Wall {wall:.6g} m leaves no bore in an outside diameter of {outer_diameter:.6g} m; "
            "check which is which."
        )
    require_yield(yield_strength)


def require_yield(yield_strength: float) -> None:
    """Refuse what is no yield strength of steel pipe."""
    require_range("Yield strength", yield_strength, 200e6, 950e6, "Pa")
