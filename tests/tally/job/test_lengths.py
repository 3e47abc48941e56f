"""Lengths typed in any unit, with and without make-up loss, total exactly as whole steps."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from tally.job.counts import balance
from tally.job.entries.people import SetUp
from tally.job.entries.pipe import Arrival, Received
from tally.job.entries.running import ItemRun
from tally.job.setup import Lengths
from tally.units import read as read_measure
from tests.tally.job.invented import Telling, setup

FOOT, INCH = Fraction("0.3048"), Fraction("0.0254")
STEP = {"ft": FOOT / 100, "m": Fraction(1, 100), "mm": Fraction(1, 1000)}
LOSSES = {"": Fraction(0), "3.875 in": Fraction("3.875") * INCH, "102 mm": Fraction("0.102")}


@st.composite
def typed(draw):
    """Return a length as a person types it, with the metres it stands for, by hand."""
    how = draw(st.sampled_from(["ft", "feet and inches", "m", "comma", "mm"]))
    if how in ("ft", "m", "comma"):
        hundredths = draw(st.integers(900, 4800 if how == "ft" else 1500))
        mark = "," if how == "comma" else "."
        unit = "ft" if how == "ft" else "m"
        text = f"{hundredths // 100}{mark}{hundredths % 100:02} {unit}"
        return text, Fraction(hundredths, 100) * (FOOT if unit == "ft" else 1)
    if how == "mm":
        millimetres = draw(st.integers(9000, 15000))
        return f"{millimetres} mm", Fraction(millimetres, 1000)
    feet, eighths = draw(st.integers(20, 47)), draw(st.integers(0, 95))
    inches, part = divmod(eighths, 8)
    words = f"{inches} {part}/8" if part else f"{inches}"
    return f"{feet}' {words}\"", feet * FOOT + Fraction(eighths, 8) * INCH


def half_up(metres, step):
    """Return whole steps, half a step counted up."""
    steps, rest = divmod(metres, step)
    return int(steps) + (2 * rest >= step)


@given(
    lengths=st.lists(typed(), min_size=1, max_size=25),
    unit=st.sampled_from(["ft", "m", "mm"]),
    loss=st.sampled_from(list(LOSSES)),
)
def test_a_column_of_lengths_is_rounded_once_and_adds_up_exactly(lengths, unit, loss):
    told_lengths = Lengths(
        unit=unit, measured_as="overall" if loss else "running", make_up_loss=loss
    )
    numbers = tuple(str(n) for n in range(1, len(lengths) + 1))
    deep = replace(setup().hole, depth=read_measure("9000 ft", "length"))
    plan = setup(lengths=told_lengths, items=(), order=numbers, hole=deep)
    told = Telling()
    told.says(SetUp, setup=plan)
    read = [plan.step.read(text, plan.make_up_loss) for text, _ in lengths]
    by_hand = [half_up(metres - LOSSES[loss], STEP[unit]) for _, metres in lengths]
    assert read == by_hand
    items = tuple(
        Arrival(number=number, length=steps, typed=text)
        for number, steps, (text, _) in zip(numbers, read, lengths, strict=True)
    )
    told.says(Received, items=items)
    for number in numbers:
        told.says(ItemRun, number=number)
    assert told.job.length == told.job.received_length == sum(by_hand)
    assert balance(told.job).agrees
    printed = plan.step.show(told.job.length).replace(",", "")
    shown = [plan.step.show(steps).replace(",", "") for steps in read]
    assert Fraction(printed) == sum(map(Fraction, shown)), "it adds up as it is printed"
