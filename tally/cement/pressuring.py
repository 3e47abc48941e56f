"""Volume that pressures up a closed space, and what comes back when it is bled off."""

from __future__ import annotations

from tally.formula import Term, formula, require_range
from tally.pipe.capacity import VOLUME

COMPRESSIBILITY = Term("compressibility", "share of its volume that it gives by pressure",
                       "compressibility", "%/1000psi")  # fmt: skip
COMPRESSIBILITY_RANGE = "compressibility 0 to 5 1/GPa"
MOST_COMPRESSIBLE = 5e-9
"""[1/Pa]; ten times that of water, so no gas."""

TURRI = "Turri, Drilling fluid compressibility, 2003 (web copy)"


def _compressible(name: str, default: str) -> Term:
    return Term(f"{name}-compressibility", f"compressibility of the {name}", "compressibility",
                "%/1000psi", default)  # fmt: skip


def _part(name: str) -> Term:
    return Term(name, f"{name}, share of the mud by volume", "ratio", "%")


@formula(
    "mud-compressibility",
    "Compressibility of a mud from its parts",
    inputs=[
        _part("water"),
        _part("oil"),
        _part("solids"),
        _compressible("water", "0.3 %/1000psi"),
        _compressible("oil", "0.5 %/1000psi"),
        _compressible("solids", "0.02 %/1000psi"),
    ],
    outputs=[COMPRESSIBILITY],
    source=f"sum of shares x compressibilities; {TURRI}",
    range=f"shares 0 to 100 %, together 100 %; {COMPRESSIBILITY_RANGE}",
)
def mud_compressibility(
    water: float,
    oil: float,
    solids: float,
    of_water: float,
    of_oil: float,
    of_solids: float,
) -> float:
    """Return the compressibility of a mud.

    Parameters
    ----------
    water, oil, solids : float
        Shares of the mud's volume, together 1, [-]
    of_water, of_oil, of_solids : float
        Compressibility of each, [1/Pa]

    Returns
    -------
    compressibility : float
        Share of its volume that the mud gives by pressure, [1/Pa]

    Raises
    ------
    DomainError
        If a share is not from 0 to 1, they are not 1 together, or a compressibility is out of
        range.

    Examples
    --------
    >>> round(mud_compressibility(0.2, 0.7, 0.1, 4.4e-10, 7.3e-10, 2.9e-11) * 1e9, 4)
    0.6019
    """
    for name, share in (("Water", water), ("Oil", oil), ("Solids", solids)):
        require_range(name, share, 0.0, 1.0, "of the volume")
    require_range("Water, oil and solids together", water + oil + solids, 0.999, 1.001, "")
    for one in (of_water, of_oil, of_solids):
        _require_compressibility(one)
    return water * of_water + oil * of_oil + solids * of_solids


@formula(
    "volume-to-pressure-up",
    "Volume that brings a closed space full of fluid to a pressure, or comes back from it",
    inputs=[VOLUME, Term("pressure", "rise of the pressure", "pressure", "psi"), COMPRESSIBILITY],
    outputs=[Term("added", "volume pumped in, or bled back", "volume", "bbl")],
    source=f"compressibility x volume x pressure; {TURRI}",
    range=f"volume 0 to 10,000 m3; pressure 0 to 200 MPa; {COMPRESSIBILITY_RANGE}",
)
def volume_to_pressure_up(volume: float, pressure: float, compressibility: float) -> float:
    """Return the volume that brings a closed space full of fluid to a pressure.

    Parameters
    ----------
    volume : float
        Volume of the closed space, [m^3]
    pressure : float
        Rise of the pressure, [Pa]
    compressibility : float
        Share of its volume that the fluid gives by pressure, [1/Pa]

    Returns
    -------
    added : float
        Volume pumped in, and bled back on the way down, [m^3]

    Raises
    ------
    DomainError
        If the volume is not from 0 to 10,000 m^3, the pressure from 0 to 200 MPa or the
        compressibility from 0 to 5e-9 1/Pa.

    Notes
    -----
    The pipe's own stretch and the hole's give are not in it; air in the line is not either, and
    is often the larger part.

    Examples
    --------
    >>> round(volume_to_pressure_up(40.0, 10e6, 4.4e-10), 3)
    0.176
    """
    require_range("Volume", volume, 0.0, 10_000.0, "m3")
    require_range("Pressure", pressure, 0.0, 200e6, "Pa")
    _require_compressibility(compressibility)
    return volume * pressure * compressibility


def _require_compressibility(compressibility: float) -> None:
    require_range("Compressibility", compressibility, 0.0, MOST_COMPRESSIBLE, "1/Pa")
