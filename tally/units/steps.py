"""Tally lengths: whole steps of a book's unit, rounded half up once."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import floor, isfinite

from tally.errors import DomainError, InputError
from tally.units.factors import factor, to_unit
from tally.units.reading import read_exact
from tally.units.text import shown

LONGEST_METRES = 20_000
_DECIMALS = {"ft": 2, "m": 2, "mm": 0}


@dataclass(frozen=True, slots=True)
class TallyStep:
    """The tally unit of a book and its step; every length in the book is a count of steps."""

    unit: str
    step_text: str
    size: Fraction

    def read(self, text: str, make_up_loss: Fraction | None = None) -> int:
        """Return a typed length as steps, less the make-up loss, rounded half up once.

        Parameters
        ----------
        text : str
            The length as typed; a bare number is in the tally unit
        make_up_loss : Fraction, optional
            What the thread takes up if the overall length was measured, [m]

        Returns
        -------
        steps : int
            Whole steps of the tally unit

        Raises
        ------
        InputError
            If the text cannot be read, or the make-up loss leaves nothing of the length.

        Notes
        -----
        Rounding once and on entry keeps the column adding up as printed: a make-up loss of
        3.875 in over 200 joints comes out 0.58 ft differently if it is taken off the total.

        Examples
        --------
        >>> tally_step("ft").read("41' 4\\"")
        4133
        >>> tally_step("ft").read("41.35", make_up_loss=Fraction("3.875") * Fraction("0.0254"))
        4103
        """
        length = read_exact(text, "length", self.unit)
        if length > LONGEST_METRES:
            raise InputError(
                f'"{shown(text)}" is longer than any well ({LONGEST_METRES:,} m): '
                "check the number and its unit."
            )
        if make_up_loss is None:
            return self.steps(length)
        if length <= make_up_loss:
            loss = to_unit(float(make_up_loss), self.unit)
            raise InputError(
                f'"{shown(text)}" less the make-up loss of {loss:.3f} {self.unit} leaves nothing: '
                "type the overall length of the joint."
            )
        return self.steps(length - make_up_loss)

    def steps(self, metres: float | Fraction) -> int:
        """Return a length in metres as whole steps, half up.

        >>> tally_step("mm").steps(Fraction("0.0025"))
        3
        """
        if not isfinite(metres):
            raise DomainError(f"A length of {metres} m is no number and has no steps.")
        return _whole_steps(metres, self.unit)

    def si(self, steps: int) -> float:
        """Return steps in metres.

        >>> tally_step("ft").si(10000)
        30.48
        """
        return steps * self.size.numerator / self.size.denominator

    def show(self, steps: int) -> str:
        """Return steps as the number that is printed.

        >>> tally_step("ft").show(824000), tally_step("mm").show(-12603)
        ('8,240.00', '-12,603')
        """
        decimals = _DECIMALS[self.unit]
        whole, rest = divmod(abs(steps), 10**decimals)
        sign = "-" if steps < 0 else ""
        return f"{sign}{whole:,}.{rest:0{decimals}}" if decimals else f"{sign}{whole:,}"

    def with_unit(self, steps: int) -> str:
        """Return steps with the unit: "41.35 ft"."""
        return f"{self.show(steps)} {self.unit}"


@lru_cache(maxsize=4096)
def _whole_steps(metres: float | Fraction, unit: str) -> int:
    """Return whole steps; kept, because every joint asks for the same few limits."""
    return floor(Fraction(metres) / tally_step(unit).size + Fraction(1, 2))


@lru_cache(maxsize=8)
def tally_step(unit: str) -> TallyStep:
    """Return the step of a tally unit: 0.01 ft, 0.01 m or 1 mm.

    >>> tally_step("m").step_text
    '0.01 m'
    """
    if unit not in _DECIMALS:
        raise InputError(f'"{shown(unit)}" is no tally unit: use ft, m or mm.')
    decimals = _DECIMALS[unit]
    step = Fraction(1, 10**decimals)
    text = f"{float(step):.{decimals}f} {unit}"
    return TallyStep(unit, text, step * factor(unit))
