"""What is read, what is refused, and the sentence said."""

from fractions import Fraction
from time import perf_counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError
from tally.units import FIELD, QUANTITIES, Measure, known_units, read, read_exact
from tally.units.quantities import DIFFERENCE, named
from tally.units.spellings import spelling

READABLE = sorted(name for name in QUANTITIES if name != "text")
NOT_SCALED = {"ratio", "temperature", "compressibility"}
"""Kept as typed, has a zero of its own, or a whole SI unit is beyond all measure."""
FOOT, INCH = Fraction(3048, 10_000), Fraction(254, 10_000)
BARREL = 42 * 231 * INCH**3
POUND, GRAVITY = Fraction(45_359_237, 10**8), Fraction(980_665, 10**5)
ZERO_F = Fraction(45_967, 100)


@pytest.mark.parametrize(
    ("typed", "quantity", "unit", "si", "text"),
    [
        ("9 5/8 in", "diameter", None, Fraction(77, 8) * INCH, "9 5/8 in"),
        ("9-5/8", "diameter", "in", Fraction(77, 8) * INCH, "9 5/8 in"),
        ("9-5/8", "diameter", "mm", Fraction(77, 8) * INCH, "9 5/8 in"),
        ("12-1/4", "diameter", "in", Fraction(49, 4) * INCH, "12 1/4 in"),
        ('12-1/4"', "diameter", None, Fraction(49, 4) * INCH, "12 1/4 in"),
        ("5/8 in.", "diameter", None, Fraction(5, 8) * INCH, "5/8 in"),
        ("244.5 mm", "diameter", "in", Fraction(2445, 10_000), "244.5 mm"),
        ("41.35 ft", "length", None, Fraction(4135, 100) * FOOT, "41.35 ft"),
        ("41.35", "length", "ft", Fraction(4135, 100) * FOOT, "41.35 ft"),
        ("41,35 ft", "length", None, Fraction(4135, 100) * FOOT, "41.35 ft"),
        ("12,60 m", "length", None, Fraction(126, 10), "12.60 m"),
        ("12,6 m", "length", None, Fraction(126, 10), "12.6 m"),
        ("0,045", "length", "m", Fraction(45, 1000), "0.045 m"),
        ("4,1270", "length", "m", Fraction(4127, 1000), "4.1270 m"),
        (".5 in", "length", None, INCH / 2, "0.5 in"),
        ("4127", "length", "ft", 4127 * FOOT, "4127 ft"),
        ("41' 4\"", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41'4\"", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41'-4\"", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41' 4''", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41\u2032 4\u2033", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41 ft 4 in", "length", "m", 496 * INCH, "41 ft 4 in"),
        ("41ft4in", "length", None, 496 * INCH, "41 ft 4 in"),
        ("41 FT. 4-1/2 IN.", "length", None, Fraction(993, 2) * INCH, "41 ft 4 1/2 in"),
        ("41 ft 04.25 in", "length", None, Fraction(1985, 4) * INCH, "41 ft 04.25 in"),
        ("41'", "length", "m", 41 * FOOT, "41 ft"),
        ("12603 mm", "length", None, Fraction(12_603, 1000), "12603 mm"),
        ("84.2 bbl", "volume", None, Fraction(842, 10) * BARREL, "84.2 bbl"),
        ("13.4 m\u00b3", "volume", None, Fraction(134, 10), "13.4 m3"),
        ("13.4 m^3", "volume", None, Fraction(134, 10), "13.4 m3"),
        ("7 cu ft", "volume", None, 7 * FOOT**3, "7 ft3"),
        ("7.5 bbl/100 ft", "volume per length", None, Fraction(75, 1000) * BARREL / FOOT,
         "7.5 bbl/100ft"),
        ("13.66 ft/bbl", "length per volume", None, Fraction(1366, 100) * FOOT / BARREL,
         "13.66 ft/bbl"),
        ("0.1005 bbl/stk", "volume per stroke", None, Fraction(1005, 10_000) * BARREL,
         "0.1005 bbl/stroke"),
        ("10.2 ppg", "density", None, Fraction(102, 10) * POUND / (231 * INCH**3), "10.2 lb/gal"),
        ("10.2 lbm / gal", "density", None, Fraction(102, 10) * POUND / (231 * INCH**3),
         "10.2 lb/gal"),
        ("1.22 SG", "density", None, Fraction(1220), "1.22 sg"),
        ("47#", "mass per length", None, 47 * POUND / FOOT, "47 lb/ft"),
        ("450 sx", "mass", None, 450 * 94 * POUND, "450 sk"),
        ("245 klb", "force", None, 245_000 * POUND * GRAVITY, "245 klbf"),
        ("120 t", "force", None, 120_000 * GRAVITY, "120 tf"),
        ("109 daN", "force", None, Fraction(1090), "109 daN"),
        ("1240 PSI", "pressure", None, 1240 * POUND * GRAVITY / INCH**2, "1240 psi"),
        ("8,5 mpa", "pressure", None, Fraction(8_500_000), "8.5 MPa"),
        ("6.5 bpm", "flow rate", None, Fraction(65, 600) * BARREL, "6.5 bbl/min"),
        ("2 h 34 min", "time", "min", Fraction(9240), "2 h 34 min"),
        ("2h34min30s", "time", None, Fraction(9270), "2 h 34 min 30 s"),
        ("1 d 4 h", "time", None, Fraction(100_800), "1 d 4 h"),
        ("45", "time", "min", Fraction(2700), "45 min"),
        ("77 degF", "temperature", None, (77 + ZERO_F) * Fraction(5, 9), "77 degF"),
        ("-40 \u00b0C", "temperature", None, Fraction(23_315, 100), "-40 degC"),
        ("-40 F", "temperature", None, Fraction(23_315, 100), "-40 degF"),
        ("18 degF", "temperature difference", None, Fraction(10), "18 degF"),
        ("8500 ft lbf", "torque", None, 8500 * FOOT * POUND * GRAVITY, "8500 ft-lbf"),
        ("11.5 kN.m", "torque", None, Fraction(11_500), "11.5 kN m"),
        ("384", "strokes", None, Fraction(384), "384 strokes"),
        ("60 spm", "stroke rate", None, Fraction(1), "60 strokes/min"),
        ("0.96", "ratio", None, Fraction(96, 100), "96 %"),
        ("96 %", "ratio", None, Fraction(96, 100), "96 %"),
        ("96", "ratio", "%", Fraction(96, 100), "96 %"),
        ("1.125", "ratio", None, Fraction(1125, 1000), "112.5 %"),
        ("203", "count", None, Fraction(203), "203"),
        ("1.18 ft3/sk", "slurry yield", None, Fraction(118, 100) * FOOT**3 / (94 * POUND),
         "1.18 ft3/sk"),
        ("5.2 gal/sack", "mix water", None, Fraction(52, 10) * 231 * INCH**3 / (94 * POUND),
         "5.2 gal/sk"),
        ("511 1/s", "shear rate", None, Fraction(511), "511 1/s"),
        ("-0.2 bbl", "volume difference", None, -BARREL / 5, "-0.2 bbl"),
        ("+3.7", "volume difference", "bbl", Fraction(37, 10) * BARREL, "3.7 bbl"),
        ("-0", "volume difference", "bbl", Fraction(0), "0 bbl"),
    ],
)  # fmt: skip
def test_reads(typed: str, quantity: str, unit: str | None, si: Fraction, text: str) -> None:
    assert read_exact(typed, quantity, unit) == si
    assert read(typed, quantity, unit) == Measure(float(si), quantity, text)
    assert read(text, quantity) == Measure(float(si), quantity, text)


@pytest.mark.parametrize(
    ("typed", "quantity", "unit", "said"),
    [
        ("", "length", "ft", "is empty: type it like 41.35 ft."),
        ("   ", "length", "m", "has only spaces: type it like 12.60 m."),
        ("9**9**9", "length", "ft", "has not the form of a number with a unit"),
        ("1e3", "length", "ft", "has a power of ten: type all its digits."),
        ("1.5E+3 psi", "pressure", None, "has a power of ten"),
        ("4127", "length", None, "has no unit"),
        ("4,127", "length", "ft", "thousands or decimals: type 4127 or 4.127."),
        ("12,600 m", "length", "ft", "thousands or decimals: type 12600 or 12.600."),
        (",045", "length", "ft", "starts with a comma: type 0.045."),
        ("1,234.5", "length", "ft", "type 1234.5 with no mark between thousands."),
        ("1.234,5", "length", "ft", "type 1234.5 with no mark between thousands."),
        ("1,234,567", "length", "ft", "type 1234567 with no mark between thousands."),
        ("41.3.5", "length", "ft", "has more than one mark"),
        ("41.", "length", "ft", "ends in a decimal mark: type 41 or 41.0."),
        ("041.3", "length", "ft", "starts with a zero and more digits"),
        ("-4", "length", "ft", "has a sign"),
        ("+4", "length", "ft", "has a sign"),
        ("-", "volume difference", "bbl", "has no digits"),
        ("41 ft 4", "length", "ft", "ends in a number without a unit"),
        ("41' 12\"", "length", "ft", "has 12 in where less than 12 in can stand"),
        ("41.5' 4\"", "length", "ft", "has a part in decimals before the last part"),
        ("4 in 41 ft", "length", "ft", "has parts that do not follow one another"),
        ("41 ft 4 ft", "length", "ft", "has parts that do not follow one another"),
        ("41 ft 4 m", "length", "ft", "has parts that do not follow one another"),
        ("2 h 60 min", "time", "min", "has 60 min where less than 60 min can stand"),
        ("2:34", "time", "min", "has not the form"),
        ("4 127 ft", "length", None, "has two numbers where one is wanted"),
        ("12.5 bbl", "length", "ft", 'has "bbl" for a unit: use ft, in, m, cm or mm.'),
        ("5 tons", "mass", None, 'has "tons" for a unit'),
        ("9 5/7", "diameter", "in", "not in halves, quarters ... 64ths"),
        ("9 5/0", "diameter", "in", "not in halves, quarters ... 64ths"),
        ("9 8/8", "diameter", "in", "has a fraction that is not between 0 and 1"),
        ("9.5 5/8", "diameter", "in", "mixes decimals and a fraction"),
        ("9 5/8", "length", "m", "has a fraction and no unit"),
        ("\uff11\uff12", "length", "ft", "has U+FF11, which is no plain digit"),
        ("9\u00bd", "diameter", "in", "has U+00BD"),
        ("12\u00b3", "volume", "m3", "has U+00B3"),
        ("\u22124", "volume difference", "bbl", "has U+2212"),
        ("41\x1b[31m", "length", "ft", "has a control character at place 3"),
        ("41\n", "length", "ft", "has a line break at place 3"),
        ("4\u200b1", "length", "ft", "has an invisible character at place 2"),
        ("4\u202e1", "length", "ft", "turns the writing direction at place 2"),
        ("[/]", "length", "ft", "has not the form"),
        ("NaN", "length", "ft", "has not the form"),
        ("inf ft", "length", "ft", "has not the form"),
        ("1" * 41, "length", "ft", "has 41 characters, more than the 40"),
        ("1" * 10_000, "length", "ft", "has 10,000 characters"),
        ("96", "ratio", None, "type 96 % or a ratio up to 10."),
        ("0.96", "ratio", "%", "type 0.96 % or 96 %."),
        ("12.5", "count", None, "is not a whole number"),
        ("-500", "temperature", "degF", "is colder than anything can be"),
    ],
)
def test_refuses_in_one_sentence(typed: str, quantity: str, unit: str | None, said: str) -> None:
    with pytest.raises(InputError) as refused:
        read(typed, quantity, unit)
    sentence = str(refused.value)
    assert said in sentence
    assert f"is not read as {named(quantity).in_words} because it " in sentence
    assert_is_one_plain_sentence(sentence)


def assert_is_one_plain_sentence(sentence: str) -> None:
    assert sentence.isascii()
    assert sentence.isprintable()
    assert sentence.endswith(".")
    assert len(sentence) < 200


@pytest.mark.parametrize(
    ("quantity", "unit", "said"),
    [
        ("length", "bbl", '"bbl" is no unit of length: use ft, in, m, cm or mm.'),
        ("count", "ft", '"ft" is no unit of count: use none.'),
        ("colour", "ft", 'There is no quantity named "colour".'),
        ("text", None, "A text is kept as it is typed and has no value in numbers."),
    ],
)
def test_refuses_what_the_caller_asks_wrongly(quantity: str, unit: str | None, said: str) -> None:
    with pytest.raises(InputError, match=f"^{said}$"):
        read("4", quantity, unit)


@pytest.mark.parametrize("quantity", READABLE)
def test_every_example_that_a_message_offers_can_be_typed(quantity: str) -> None:
    assert read(named(quantity).example, quantity).value > 0


@pytest.mark.parametrize("quantity", READABLE)
def test_the_example_is_in_the_unit_that_the_person_works_in(quantity: str) -> None:
    for unit in known_units(quantity):
        with pytest.raises(InputError) as refused:
            read("?", quantity, unit)
        example = str(refused.value).rpartition(" like ")[2].removesuffix(".")
        assert read(example, quantity, unit or None).value > 0


@pytest.mark.parametrize("quantity", READABLE)
def test_no_two_units_of_a_quantity_share_a_spelling(quantity: str) -> None:
    units = known_units(quantity)
    assert len({spelling(unit) for unit in units}) == len(units)
    for unit in units:
        for typed in (unit, unit.upper(), unit.lower(), unit.replace("/", " / ")):
            one = "3 " + typed if unit else "3"
            assert read(one, quantity) == read("3", quantity, unit), typed


NASTY = ("9**9**9", "\x1b]0;x\x07", "[/]", "[red]41", "9" * 400, "\ud800", "1_000", "4\u0660")
TEXTS = st.one_of(
    st.text(),
    st.text("0123456789.,/-+ '\"ftinmbl%eE*#\u00b0\u00b3", max_size=14),
    st.sampled_from(NASTY),
    st.from_regex(r"[0-9]{1,4}[.,]?[0-9]{0,4}( [1-7]/[248])? ?(ft|in|m|'|bbl|lb/gal|%)?"),
)
SOME_QUANTITY = st.sampled_from(READABLE + [name + DIFFERENCE for name in READABLE])


@given(TEXTS, SOME_QUANTITY, st.integers(0, 20))
def test_any_text_is_read_or_refused(text: str, quantity: str, pick: int) -> None:
    unit = (*known_units(quantity), None)[pick % (len(known_units(quantity)) + 1)]
    try:
        measure = read(text, quantity, unit)
    except InputError as refused:
        assert_is_one_plain_sentence(str(refused))
    else:
        assert read(measure.text, quantity) == measure
        assert measure.text.isascii()


@given(st.text(max_size=30))
def test_any_unit_name_is_known_or_refused(unit: str) -> None:
    try:
        read("4", "length", unit)
    except InputError as refused:
        assert_is_one_plain_sentence(str(refused))


@given(
    st.integers(0, 10**9),
    st.integers(0, 6),
    SOME_QUANTITY.filter(lambda name: not name.startswith(("ratio", "count"))),
    st.integers(0, 20),
)
def test_point_and_comma_read_alike_or_the_comma_is_refused(
    digits: int, places: int, quantity: str, pick: int
) -> None:
    unit = known_units(quantity)[pick % len(known_units(quantity))]
    number = f"{digits // 10**places}" + (f".{digits % 10**places:0{places}}" if places else "")
    with_point = read(number, quantity, unit)
    assert with_point.text == f"{number} {unit}".strip()
    comma = number.replace(".", ",")
    if places == 3 and digits >= 1000:
        with pytest.raises(InputError, match="thousands or decimals"):
            read(comma, quantity, unit)
    else:
        assert read(comma, quantity, unit) == with_point


@given(
    st.floats(0, 1e6),
    st.sampled_from([n for n in READABLE if n not in NOT_SCALED]),
)
def test_what_is_shown_can_be_typed_back(value: float, quantity: str) -> None:
    typed = FIELD.show(value, quantity).replace(",", "")
    if len(typed) <= 40:
        again = read(typed, quantity)
        assert FIELD.show(again.value, quantity).replace(",", "") == typed


@pytest.mark.parametrize("text", [*NASTY, "x" * 10_000, "1 " * 5_000, "1/" * 19, "' " * 20])
def test_refusing_takes_no_time(text: str) -> None:
    read("1 ft", "length")
    start = perf_counter()
    for quantity in READABLE:
        with pytest.raises(InputError):
            read(text, quantity)
    assert perf_counter() - start < 0.005 * len(READABLE)
