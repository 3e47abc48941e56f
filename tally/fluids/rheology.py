"""From readings of the viscometer to the parameters of a fluid, by two points."""

from __future__ import annotations

from math import log, log2

from tally.errors import DomainError
from tally.fluids.flow_curve import RATE_PER_RPM, STRESS_PER_DEGREE
from tally.formula import Term, formula, require_range

POUND_PER_100_FT2 = 0.45359237 * 9.80665 / (100 * 0.3048**2)
"""[Pa]"""

R600 = Term("r600", "reading at 600 rpm, degrees of the dial", "number", "")
R300 = Term("r300", "reading at 300 rpm, degrees of the dial", "number", "")
R200 = Term("r200", "reading at 200 rpm, degrees of the dial", "number", "")
R100 = Term("r100", "reading at 100 rpm, degrees of the dial", "number", "")
R6 = Term("r6", "reading at 6 rpm, degrees of the dial", "number", "")
R3 = Term("r3", "reading at 3 rpm, degrees of the dial", "number", "")
READING_RANGE = "readings 0 to 500 degrees"
N = Term("n", "flow index", "number", "")
K = Term("k", "consistency in equivalent cP (0.001 Pa s^n)", "viscosity", "cP")
YIELD = Term("yield", "yield stress", "yield point", "lbf/100ft2")
GUO = (
    "Guo and Liu, Applied Drilling Circulation Systems, 2011, ch. 2, after Bourgoyne et al., "
    "Applied Drilling Engineering, SPE 1986, ch. 4"
)


@formula(
    "bingham-from-readings",
    "Plastic viscosity and yield point from the readings at 600 and 300 rpm",
    inputs=[R600, R300],
    outputs=[
        Term("pv", "plastic viscosity", "viscosity", "cP"),
        Term("yp", "yield point", "yield point", "lbf/100ft2"),
    ],
    source=f"PV = R600 - R300, YP = R300 - PV; {GUO}",
    range=f"{READING_RANGE}; the reading at 300 rpm from half to all of that at 600",
)
def bingham_from_readings(reading_600: float, reading_300: float) -> tuple[float, float]:
    """Return plastic viscosity and yield point.

    Parameters
    ----------
    reading_600, reading_300 : float
        Readings at 600 and 300 rpm, degrees of the dial, [-]

    Returns
    -------
    plastic_viscosity : float
        Plastic viscosity, [Pa s]
    yield_point : float
        Yield point, [Pa]

    Raises
    ------
    DomainError
        If a reading is out of range, or the two give a viscosity or a yield point below 0.

    Notes
    -----
    By convention one degree is 1 lbf/100ft2 of yield point, as every mud report has it; the
    viscometer's own degree is 1.067 of them. The least-squares fits use the latter.

    Examples
    --------
    >>> pv, yp = bingham_from_readings(60.0, 38.0)
    >>> round(pv, 3), round(yp, 2)
    (0.022, 7.66)
    """
    _require_falling(reading_600, reading_300)
    plastic = reading_600 - reading_300
    if reading_300 < plastic:
        raise DomainError(
            f"Reading {reading_300:g} at 300 rpm is less than half of {reading_600:g} at 600 rpm, "
            "which leaves no yield point; read the viscometer again."
        )
    return plastic * 0.001, (reading_300 - plastic) * POUND_PER_100_FT2


@formula(
    "power-law-from-readings",
    "Flow index and consistency of a power-law fluid from the readings at 600 and 300 rpm",
    inputs=[R600, R300],
    outputs=[N, K],
    source=f"n = log2(R600/R300), k from the reading at 300 rpm; {GUO}, eq. 2.11 (printed with "
    "3.32 for 3.3219 and 510 for 511)",
    range=f"{READING_RANGE}; the reading at 600 rpm above that at 300",
)
def power_law_from_readings(reading_600: float, reading_300: float) -> tuple[float, float]:
    """Return flow index and consistency of a power-law fluid.

    Parameters
    ----------
    reading_600, reading_300 : float
        Readings at 600 and 300 rpm, degrees of the dial, [-]

    Returns
    -------
    index : float
        Flow index n, [-]
    consistency : float
        Consistency k, [Pa s^n]

    Raises
    ------
    DomainError
        If a reading is out of range, or that at 600 rpm is not above that at 300.

    Notes
    -----
    The line through both readings on double logarithmic paper; k in equivalent cP is 1,000
    times the SI figure.

    Examples
    --------
    >>> [round(value, 4) for value in power_law_from_readings(60.0, 40.0)]
    [0.585, 0.5324]
    """
    _require_rising(reading_600, reading_300)
    index = log2(reading_600 / reading_300)
    return index, _consistency(reading_300, 300.0, index)


@formula(
    "power-law-two-regions",
    "Power-law parameters for pipe (600 and 300 rpm) and for the annulus (100 and 3 rpm)",
    inputs=[R600, R300, R100, R3],
    outputs=[
        Term("n-pipe", "flow index for the pipe", "number", ""),
        Term("k-pipe", "consistency for the pipe in equivalent cP", "viscosity", "cP"),
        Term("n-annulus", "flow index for the annulus", "number", ""),
        Term("k-annulus", "consistency for the annulus in equivalent cP", "viscosity", "cP"),
    ],
    source="API RP 13D before 2006, as on a one-page hydraulics sheet of 2002 (scribd.com/doc/"
    "190209218)",
    range=f"{READING_RANGE}; each reading above the slower one",
)
def power_law_two_regions(
    reading_600: float, reading_300: float, reading_100: float, reading_3: float
) -> tuple[float, float, float, float]:
    """Return power-law parameters for pipe and for the annulus, each from its own two readings.

    Parameters
    ----------
    reading_600, reading_300, reading_100, reading_3 : float
        Readings, degrees of the dial, [-]

    Returns
    -------
    pipe_index, pipe_consistency : float
        From 600 and 300 rpm, [-] and [Pa s^n]
    annulus_index, annulus_consistency : float
        From 100 and 3 rpm, [-] and [Pa s^n]

    Raises
    ------
    DomainError
        If a reading is out of range or not above the slower one.

    Examples
    --------
    >>> [round(value, 3) for value in power_law_two_regions(65.0, 39.0, 20.0, 3.0)]
    [0.737, 0.201, 0.541, 0.634]
    """
    _require_rising(reading_600, reading_300)
    _require_reading(3, reading_3)
    if not 0 < reading_3 < reading_100 < reading_600:
        raise DomainError(
            f"Readings {reading_3:g} at 3 rpm and {reading_100:g} at 100 rpm must rise and lie "
            "below that at 600 rpm; read the viscometer again."
        )
    pipe = log2(reading_600 / reading_300)
    annulus = log(reading_100 / reading_3) / log(100 / 3)
    return (
        pipe,
        _consistency(reading_300, 300.0, pipe),
        annulus,
        _consistency(reading_100, 100.0, annulus),
    )


@formula(
    "herschel-bulkley-from-readings",
    "Yield stress, flow index and consistency from the readings at 600, 300, 6 and 3 rpm",
    inputs=[R600, R300, R6, R3],
    outputs=[YIELD, N, K],
    source=f"yield = 2 x R3 - R6, then two points; {GUO}, eq. 2.14 (printed with 500 for 511)",
    range=f"{READING_RANGE}; the reading at 600 rpm above that at 300, that above the yield",
)
def herschel_bulkley_from_readings(
    reading_600: float, reading_300: float, reading_6: float, reading_3: float
) -> tuple[float, float, float]:
    """Return yield stress, flow index and consistency by two points above a yield stress.

    Parameters
    ----------
    reading_600, reading_300, reading_6, reading_3 : float
        Readings, degrees of the dial, [-]

    Returns
    -------
    yield_stress : float
        Yield stress, from 0 to the stress of the reading at 3 rpm, [Pa]
    index : float
        Flow index n, [-]
    consistency : float
        Consistency k, [Pa s^n]

    Raises
    ------
    DomainError
        If a reading is out of range, or the readings do not rise above the yield stress.

    Notes
    -----
    The yield stress is where the line through 6 and 3 rpm meets no shear, kept from 0 to the
    reading at 3 rpm. Only three numbers come out of four readings: `herschel-bulkley-fit` weighs
    all of them.

    Examples
    --------
    >>> [round(value, 3) for value in herschel_bulkley_from_readings(60.0, 38.0, 6.0, 5.0)]
    [2.044, 0.72, 0.195]
    """
    _require_rising(reading_600, reading_300)
    _require_reading(6, reading_6)
    _require_reading(3, reading_3)
    at_rest = min(max(2 * reading_3 - reading_6, 0.0), reading_3)
    if at_rest >= reading_300:
        raise DomainError(
            f"Yield reading {at_rest:g} is not below the reading {reading_300:g} at 300 rpm; read "
            "the viscometer again."
        )
    index = log2((reading_600 - at_rest) / (reading_300 - at_rest))
    consistency = _consistency(reading_300 - at_rest, 300.0, index)
    return at_rest * STRESS_PER_DEGREE, index, consistency


def _consistency(reading: float, rpm: float, index: float) -> float:
    stress: float = reading * STRESS_PER_DEGREE / (rpm * RATE_PER_RPM) ** index
    return stress


def _require_reading(rpm: int, reading: float) -> None:
    require_range(f"Reading at {rpm} rpm", reading, 0.0, 500.0, "degrees")


def _require_falling(reading_600: float, reading_300: float) -> None:
    _require_reading(600, reading_600)
    _require_reading(300, reading_300)
    if reading_600 < reading_300:
        raise DomainError(
            f"Reading {reading_600:g} at 600 rpm is below {reading_300:g} at 300 rpm; check which "
            "is which."
        )


def _require_rising(reading_600: float, reading_300: float) -> None:
    _require_falling(reading_600, reading_300)
    if not reading_600 > reading_300 > 0:
        raise DomainError(
            f"Readings {reading_600:g} at 600 rpm and {reading_300:g} at 300 rpm must rise with "
            "the speed; read the viscometer again."
        )
