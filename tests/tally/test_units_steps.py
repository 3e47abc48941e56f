"""Lengths as whole steps: rounded once, half up, and adding up as printed."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import DomainError, InputError
from tally.units import read_exact, tally_step

# The independent computation counts in whole 1e-10 m, so it needs neither fractions nor pint.
FOOT, INCH, METRE, MILLIMETRE = 3_048_000_000, 254_000_000, 10**10, 10**7
SIXTY_FOURTH = INCH // 64
STEP = {"ft": FOOT // 100, "m": METRE // 100, "mm": MILLIMETRE}
PLACES = {"ft": 2, "m": 2, "mm": 0}


@st.composite
def typed_lengths(draw: st.DrawFn) -> tuple[str, int]:
    """Draw a length as a person may type it, and its size in 1e-10 m."""
    way = draw(st.sampled_from(["ft", "m", "mm", "ft and in", "ft and 64ths"]))
    if way == "ft and in":
        feet, tenths = draw(st.integers(5, 60)), draw(st.integers(0, 119))
        return f"{feet}' {tenths / 10}\"", feet * FOOT + tenths * INCH // 10
    if way == "ft and 64ths":
        feet, inches, parts = (draw(st.integers(*ends)) for ends in ((5, 60), (0, 11), (1, 63)))
        size = feet * FOOT + inches * INCH + parts * SIXTY_FOURTH
        return f"{feet} ft {inches} {parts}/64 in", size
    places, mark = draw(st.sampled_from([0, 1, 2, 4])), draw(st.sampled_from(".,"))
    low, high, unit = {"ft": (5, 60, FOOT), "m": (2, 19, METRE), "mm": (999, 18999, MILLIMETRE)}[
        way
    ]
    number = draw(st.integers(low * 10**places, high * 10**places))
    whole, rest = divmod(number, 10**places)
    text = f"{whole}{mark}{rest:0{places}} {way}" if places else f"{whole} {way}"
    return text, number * unit // 10**places


@st.composite
def make_up_losses(draw: st.DrawFn) -> tuple[Fraction | None, int]:
    """Draw a make-up loss in eighths of an inch, or none, and its size in 1e-10 m."""
    eighths = draw(st.one_of(st.none(), st.integers(1, 60)))
    if eighths is None:
        return None, 0
    return Fraction(eighths, 8) * Fraction("0.0254"), eighths * INCH // 8


@given(
    st.sampled_from(sorted(STEP)), st.lists(typed_lengths(), min_size=1, max_size=30),
    make_up_losses(),
)  # fmt: skip
def test_each_length_is_rounded_once_and_the_total_is_exact(
    unit: str, lengths: list[tuple[str, int]], loss: tuple[Fraction | None, int]
) -> None:
    step, tally, total = STEP[unit], tally_step(unit), 0
    read = [tally.read(text, loss[0]) for text, _ in lengths]
    expected = [(2 * (size - loss[1]) + step) // (2 * step) for _, size in lengths]
    assert read == expected
    for steps in expected:
        total += steps
    column = sum(Decimal(tally.show(steps).replace(",", "")) for steps in read)
    assert Decimal(tally.show(sum(read)).replace(",", "")) == column
    assert column == Decimal(total).scaleb(-PLACES[unit])


@given(st.sampled_from(sorted(STEP)), st.integers(0, 10**6))
def test_what_is_shown_reads_as_the_same_steps(unit: str, steps: int) -> None:
    tally = tally_step(unit)
    assert tally.read(tally.with_unit(steps).replace(",", "")) == steps
    assert tally.read(tally.show(steps).replace(",", "")) == steps
    assert tally.steps(tally.si(steps)) == steps


@given(st.sampled_from(sorted(STEP)), st.integers(-(10**5), 10**5))
def test_a_half_goes_up(unit: str, steps: int) -> None:
    tally = tally_step(unit)
    assert tally.steps((steps + Fraction(1, 2)) * tally.size) == steps + 1
    assert tally.steps((steps + Fraction(4999, 10_000)) * tally.size) == steps


@pytest.mark.parametrize(
    ("unit", "typed", "steps", "printed"),
    [
        ("ft", "41.35", 4135, "41.35 ft"),
        ("ft", "41.345", 4135, "41.35 ft"),
        ("ft", "41.3449", 4134, "41.34 ft"),
        ("ft", "41' 4\"", 4133, "41.33 ft"),
        ("ft", "12.60 m", 4134, "41.34 ft"),
        ("m", "12,60", 1260, "12.60 m"),
        ("m", "12.605", 1261, "12.61 m"),
        ("mm", "12603.5", 12604, "12,604 mm"),
        ("mm", "41.35 ft", 12603, "12,603 mm"),
        ("ft", "4127", 412_700, "4,127.00 ft"),
        ("ft", "0", 0, "0.00 ft"),
    ],
)
def test_reads_and_prints(unit: str, typed: str, steps: int, printed: str) -> None:
    tally = tally_step(unit)
    assert tally.read(typed) == steps
    assert tally.with_unit(steps) == printed


def test_make_up_loss_is_taken_off_each_joint_before_rounding() -> None:
    """A make-up loss of 3.875 in over 200 joints of 41.35 ft: 0.58 ft from the naive total."""
    tally, loss = tally_step("ft"), read_exact("3.875 in", "length")
    joints = 200 * tally.read("41.35", loss)
    naive = 200 * 4135 - Fraction(200 * 3875, 1000) / 12 * 100
    assert tally.show(joints) == "8,206.00"
    assert round(float(joints - naive) / 100, 2) == 0.58


def test_a_loss_of_the_whole_length_is_refused() -> None:
    said = r'^"3 in" less the make-up loss of 0\.323 ft leaves nothing: type the overall length'
    with pytest.raises(InputError, match=said):
        tally_step("ft").read("3 in", read_exact("3.875 in", "length"))


def test_a_length_beyond_any_well_is_refused() -> None:
    with pytest.raises(InputError, match=r'^"99999999999" is longer than any well \(20,000 m\)'):
        tally_step("mm").read("99999999999")


@pytest.mark.parametrize("metres", [float("nan"), float("inf")])
def test_no_number_has_no_steps(metres: float) -> None:
    with pytest.raises(DomainError, match="is no number and has no steps"):
        tally_step("ft").steps(metres)


def test_negative_steps_are_printed_with_their_sign() -> None:
    assert tally_step("ft").show(-5) == "-0.05"
    assert tally_step("m").show(-824_005) == "-8,240.05"


@pytest.mark.parametrize(("unit", "step"), [("ft", "0.01 ft"), ("m", "0.01 m"), ("mm", "1 mm")])
def test_the_step_is_named(unit: str, step: str) -> None:
    tally = tally_step(unit)
    assert (tally.unit, tally.step_text) == (unit, step)
    assert tally.size == Fraction(STEP[unit], METRE)


@pytest.mark.parametrize("unit", ["in", "FT", "", "\x1b"])
def test_other_tally_units_are_refused(unit: str) -> None:
    with pytest.raises(InputError, match="is no tally unit: use ft, m or mm"):
        tally_step(unit)
