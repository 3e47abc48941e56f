"""How far the bump may come from the calculated volume, for what is known only so well."""

from __future__ import annotations

from tally.cement.pressuring import COMPRESSIBILITY, COMPRESSIBILITY_RANGE, volume_to_pressure_up
from tally.formula import Term, formula, require_range


@formula(
    "bump-band",
    "Band around the calculated bump from pump efficiency, bore tolerance and compressibility",
    inputs=[
        Term("displacement", "volume from the head to the float collar", "volume", "bbl"),
        Term("head", "of it, the volume in the head", "volume", "bbl", "0 bbl"),
        Term("efficiency", "efficiency of the pump known to +/-", "ratio", "%", "0 %"),
        Term("bore", "volume that the casing holds known to +/-", "ratio", "%", "0 %"),
        Term("compressibility", COMPRESSIBILITY.meaning, "compressibility", "%/1000psi",
             "0 %/1000psi"),
        Term("pressure", "pressure ahead of the bump", "pressure", "psi", "0 psi"),
    ],
    outputs=[
        Term("early", "volume by which it may come early", "volume", "bbl"),
        Term("late", "volume by which it may come late", "volume", "bbl"),
        Term("squeezed", "of it, what the fluid behind the plug gives", "volume", "bbl"),
    ],
    source="displacement x efficiency + (displacement - head) x bore, both ways; compressibility "
    "x displacement x pressure, late only",
    range=f"displacement 0 to 10,000 m3; shares 0 to 20 %; {COMPRESSIBILITY_RANGE}; pressure 0 to "
    "200 MPa",
)  # fmt: skip
def bump_band(
    displacement: float,
    head: float,
    efficiency: float,
    bore: float,
    compressibility: float,
    pressure: float,
) -> tuple[float, float, float]:
    """Return by how much the bump may come early and late, and what of it is compression.

    Parameters
    ----------
    displacement : float
        Volume from the head to the float collar, [m^3]
    head : float
        The part of it that is in the head, [m^3]
    efficiency : float
        How well the efficiency of the pump is known, as a share of the volume counted, [-]
    bore : float
        How well the volume of the casing is known, as a share of it, [-]
    compressibility : float
        Share of its volume that the fluid behind the plug gives by pressure, [1/Pa]
    pressure : float
        Surface pressure ahead of the bump, [Pa]

    Returns
    -------
    early : float
        Volume by which the bump may come before the calculated one, [m^3]
    late : float
        Volume by which it may come after it, [m^3]
    squeezed : float
        The part of `late` that is compression, [m^3]

    Raises
    ------
    DomainError
        If a number is out of range.

    Notes
    -----
    The two tolerances are added as they are, not as roots of squares: the pump and the pipe may
    both be off the same way. Fluid under pressure takes less room, so compression only ever makes
    the bump come late. A count by the tank has no efficiency in it: give 0 for it.

    Examples
    --------
    >>> [round(value, 3) for value in bump_band(95.0, 0.1, 0.01, 0.005, 4.4e-10, 7e6)]
    [1.425, 1.717, 0.293]
    """
    require_range("Displacement", displacement, 0.0, 10_000.0, "m3")
    require_range("Head volume", head, 0.0, displacement, "m3")
    for name, share in (("Efficiency of the pump", efficiency), ("Volume of the casing", bore)):
        require_range(f"{name}, tolerance", share, 0.0, 0.2, "")
    either = displacement * efficiency + (displacement - head) * bore
    squeezed = volume_to_pressure_up(displacement, pressure, compressibility)
    return either, either + squeezed, squeezed
