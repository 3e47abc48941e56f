"""What is measured on the rack: drift, length class of a joint, make-up loss."""

from __future__ import annotations

from tally.errors import DomainError
from tally.formula import Term, formula, require_range
from tally.pipe.capacity import INNER_DIAMETER, OUTER_DIAMETER
from tally.pipe.length_range import LENGTH_RANGES
from tally.units import read

INCH = 0.0254
"""[m]"""

_SLACK = 0.000_1
"""[m]; metric lists round a diameter to 0.1 mm."""

_DRIFT_RULE = (
    (4.5 * INCH, 8.625 * INCH, INCH / 8),
    (9.625 * INCH, 13.375 * INCH, 5 * INCH / 32),
    (16.0 * INCH, 30.0 * INCH, 3 * INCH / 16),
)
"""From and to outside diameter, and what the standard drift lacks of the inside diameter, [m]."""


@formula(
    "drift",
    "Standard drift diameter of casing",
    inputs=[OUTER_DIAMETER, INNER_DIAMETER],
    outputs=[Term("drift", "diameter of the standard drift mandrel", "diameter", "in")],
    source="inside diameter less 1/8, 5/32 or 3/16 in by size; rule derived from some 110 rows of "
    "published casing tables, which keep it but for one printed slip",
    range="outside diameter 4-1/2 to 8-5/8, 9-5/8 to 13-3/8 or 16 to 30 in; inside less than "
    "outside and more than 0.05 m",
)
def standard_drift(outer_diameter: float, inner_diameter: float) -> float:
    """Return the diameter of the standard drift mandrel.

    Parameters
    ----------
    outer_diameter : float
        Outside diameter of the pipe body, [m]
    inner_diameter : float
        Inside diameter of the pipe body, [m]

    Returns
    -------
    drift : float
        Diameter of the drift mandrel, [m]

    Raises
    ------
    DomainError
        If the size lies outside the sizes that the rule was found for (tubing has another one),
        or the inside is not less than the outside.

    Notes
    -----
    Inside diameter less 1/8 in up to 8-5/8 in, 5/32 in from 9-5/8 to 13-3/8 in, 3/16 in from
    16 in. Some pipe carries a larger special drift as well; that is in the size table or on the
    data sheet, never calculated.

    Examples
    --------
    >>> round(standard_drift(9.625 * 0.0254, 8.681 * 0.0254) / 0.0254, 3)
    8.525
    """
    require_range("Outside diameter", outer_diameter, 0.1, 0.8, "m")
    require_range("Inside diameter", inner_diameter, 0.05, outer_diameter - 0.002, "m")
    for least, most, allowance in _DRIFT_RULE:
        if least - _SLACK <= outer_diameter <= most + _SLACK:
            return inner_diameter - allowance
    raise DomainError(
        f"Outside diameter {outer_diameter / INCH:.3f} in lies outside 4-1/2 to 8-5/8, 9-5/8 to "
        "13-3/8 and 16 to 30 in, for which the drift rule was found; take the drift from the "
        "data sheet."
    )


@formula(
    "joint-length-class",
    "Length class (range 1, 2 or 3) of a joint of casing",
    inputs=[Term("length", "length of the joint over all", "length", "ft")],
    outputs=[
        Term("range", "length class: 1, 2 or 3", "count", ""),
        Term("shortest", "shortest joint of the class", "length", "ft"),
        Term("longest", "longest joint of the class", "length", "ft"),
    ],
    source="API Specification 5CT, length ranges of casing, as several pipe makers quote it "
    "(zc-steel-pipe.com, zc-pipe.com)",
    range="length 16 to 48 ft",
)
def joint_length_class(length: float) -> tuple[float, float, float]:
    """Return the length class of a joint, and the shortest and longest joint of that class.

    Parameters
    ----------
    length : float
        Length of the joint over all, [m]

    Returns
    -------
    range : float
        1, 2 or 3, [-]
    shortest : float
        Shortest joint of the class, [m]
    longest : float
        Longest joint of the class, [m]

    Raises
    ------
    DomainError
        If the length is not from 16 to 48 ft.

    Notes
    -----
    Range 1 is 16 to 25 ft, range 2 25 to 34 ft, range 3 34 to 48 ft; 25 and 34 ft stand in two
    classes and are given as the longer one. Pup joints are shorter than any class. The class
    says nothing about the mean of a delivery: real range 3 means run from 38.8 to 47.1 ft.

    Examples
    --------
    >>> [round(value, 2) for value in joint_length_class(12.6)]
    [3, 10.36, 14.63]
    """
    shortest = {number: _metres(ends[0]) for number, ends in LENGTH_RANGES.items()}
    longest = {number: _metres(ends[1]) for number, ends in LENGTH_RANGES.items()}
    require_range("Length of the joint", length, shortest[1], longest[3], "m")
    number = max(number for number, least in shortest.items() if length >= least)
    return number, shortest[number], longest[number]


@formula(
    "make-up-loss",
    "Length that a joint loses in its coupling when made up, from the length of the coupling",
    inputs=[
        Term("coupling", "length of the coupling", "diameter", "in"),
        Term("gap", "end of the made-up pin to the centre of the coupling", "diameter", "in",
             "0.5 in"),
    ],
    outputs=[Term("loss", "overall length less running length", "diameter", "in")],
    source="half the coupling less the gap at its centre; the gap of 0.5 in is from memory (API "
    "round thread), so prefer the figure of the data sheet",
    range="coupling 0.1 to 0.6 m; gap 0 to 0.05 m",
)  # fmt: skip
def make_up_loss(coupling_length: float, gap: float = 0.5 * INCH) -> float:
    """Return what a joint loses of its overall length when it is made up.

    Parameters
    ----------
    coupling_length : float
        Length of the coupling, [m]
    gap : float
        From the end of the made-up pin to the centre of the coupling, [m]

    Returns
    -------
    loss : float
        Overall length less running length, [m]

    Raises
    ------
    DomainError
        If the coupling is not from 0.1 to 0.6 m or the gap not from 0 to 0.05 m.

    Notes
    -----
    coupling/2 - gap. No printed table of make-up losses could be opened, so this serves where
    the data sheet is not at hand: 118 joints of 9-5/8 in long thread booked over all would be
    46.7 ft too long.

    Examples
    --------
    >>> round(make_up_loss(10.5 * 0.0254) / 0.0254, 3)
    4.75
    """
    require_range("Length of the coupling", coupling_length, 0.1, 0.6, "m")
    require_range("Gap at the centre", gap, 0.0, 0.05, "m")
    return coupling_length / 2 - gap


@formula(
    "lengths-booked-overall",
    "How much too long a string is when its joints are booked over all instead of as made up",
    inputs=[
        Term("joints", "number of joints", "count", ""),
        Term("loss", "make-up loss of a joint", "diameter", "in"),
    ],
    outputs=[Term("excess", "length booked too much", "length", "ft")],
    source="joints x make-up loss",
    range="joints 0 to 5,000; make-up loss 0 to 0.3 m",
)
def lengths_booked_overall(joints: float, loss: float) -> float:
    """Return the error of a tally that took overall lengths for running lengths.

    Parameters
    ----------
    joints : float
        Number of joints, [-]
    loss : float
        Make-up loss of a joint, [m]

    Returns
    -------
    excess : float
        Length booked too much, [m]

    Raises
    ------
    DomainError
        If the joints are not from 0 to 5,000 or the loss not from 0 to 0.3 m.

    Examples
    --------
    >>> round(lengths_booked_overall(118, 4.75 * 0.0254) / 0.3048, 1)
    46.7
    """
    require_range("Number of joints", joints, 0.0, 5000.0, "")
    require_range("Make-up loss", loss, 0.0, 0.3, "m")
    return joints * loss


def _metres(text: str) -> float:
    return read(text, "length").value
