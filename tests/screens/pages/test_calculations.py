"""F8: every registered formula, worked with what is typed; nothing is entered in the book."""

import pytest

from screens.dialogs.calculation import in_both, spoken_of
from tally.formula import Term
from tally.formulas import all_formulas, find
from tests.screens.books import app_on
from tests.screens.driving import HOSTILE, faults, fill, form, offered, rows, shown


def at(app):
    marked = [row for row in rows(app) if row.startswith(">")]
    assert len(marked) == 1, "the cursor is not in view"
    return marked[0][1:].split()[0]


async def go_to(pilot, name):
    """Put the cursor on a calculation."""
    for _ in range(list(all_formulas()).index(name)):
        pilot.app.screen.action_move(1)
    await pilot.pause()


async def test_every_registered_formula_is_listed_and_reached(running):
    app = app_on(running, "calculations")
    names = list(all_formulas())
    async with app.run_test() as pilot:
        await pilot.pause()
        assert f"{len(names)} CALCULATIONS in the register" in shown(app)
        for name in names:
            assert at(app) == name
            app.screen.action_move(1)
            await pilot.pause()
        assert at(app) == names[-1]
        await pilot.press("home", "pagedown")
        assert at(app) == names[10]
        await pilot.press("end", "up")
        assert at(app) == names[-2]


async def test_the_one_at_the_cursor_says_what_it_wants_gives_and_how_far_it_holds(running):
    app = app_on(running, "calculations")
    async with app.run_test(size=(160, 50)) as pilot:
        await go_to(pilot, "capacity")
        seen = shown(app)
        assert "inputs id, in" in seen
        assert "gives capacity, bbl/ft" in seen
        assert "range inside diameter 0.05 to 1 m" in seen


async def test_an_answer_comes_in_both_units_with_its_working(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await go_to(pilot, "annulus")
        await pilot.press("enter")
        await fill(pilot, hole="12-1/4", od="127 mm")
        seen = shown(app)
        assert "capacity 0.121489 bbl/ft = 63.3701 l/m" in seen
        assert "hole 12 1/4 in = 12.25 in = 311.15 mm" in seen
        assert "od 127 mm = 5 in" in seen
        assert "how pi/4 x (hole squared - pipe squared)" in seen
        assert "nothing is entered in the book" in seen
        await pilot.press("escape")
        await pilot.pause()
        assert not app.screen.query("#panel")
    assert len(running.entries) == 96


async def test_defaults_are_filled_in_and_what_was_typed_is_kept(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await go_to(pilot, "buoyancy-factor")
        await pilot.press("enter")
        assert offered(app) == {"fluid": "", "steel": find("buoyancy-factor").inputs[1].default}
        await fill(pilot, fluid="10.2")
        assert "factor 0.844" in shown(app)
        await pilot.press("escape", "enter")
        assert offered(app)["fluid"] == "10.2"


async def test_every_doubtful_input_is_told_beside_its_field(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await go_to(pilot, "annulus")
        await pilot.press("enter")
        for typed in (*HOSTILE, "", "12 bbl", "-5", "1e3"):
            await fill(pilot, hole=typed, od=typed)
            assert list(faults(app)) == ["hole", "od"], typed
        await fill(pilot, hole="12-1/4", od="5")
        assert "capacity 0.121489" in shown(app)


@pytest.mark.parametrize(
    ("name", "typed", "key", "told"),
    [
        ("annulus", {"hole": "90", "od": "5"}, "hole", "Hole diameter 2.286 m is outside"),
        ("annulus", {"hole": "9", "od": "90"}, "od", "Outside diameter 2.286 m is outside"),
        ("annulus", {"hole": "5", "od": "9"}, "od", "is not less than the hole diameter"),
        ("pipe-volume", {"id": "8", "length": "90000"}, "length", "Length 27,432 m is outside"),
        ("buoyancy-factor", {"fluid": "40", "steel": "65"}, "fluid", "Fluid density"),
        ("buoyancy-factor", {"fluid": "9", "steel": "90"}, "steel", "Steel density"),
        ("time-at-rate", {"volume": "9", "rate": "0"}, "rate", "Pump rate"),
    ],
)
async def test_a_number_out_of_range_is_told_beside_the_input_it_speaks_of(
    running, name, typed, key, told
):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await go_to(pilot, name)
        await pilot.press("enter")
        await fill(pilot, **typed)
        assert list(faults(app)) == [key]
        assert told in faults(app)[key]
        assert form(app).focused.id == f"field-{key}"


@pytest.mark.parametrize(
    ("name", "refusal", "key"),
    [
        ("displacement-to-collar", "Head volume 9 m3 is outside 0 to 5 m3", "head"),
        ("displacement-to-collar", "Capacity 9 m3/m is outside 0 to 1.8 m3/m", "capacity"),
        ("share-of-shoe-track", "Volume past the bump 9,999 m3 is outside 0 to 1,000 m3", "past"),
        ("share-of-shoe-track", "Shoe track 0 m3 is outside 0.001 to 1,000 m3", "track"),
        ("pump-stroke", "Liner diameter 3 m is outside 0.05 to 0.4 m", "liner"),
        ("pump-stroke", "Stroke length 3 m is outside 0.05 to 1 m", "stroke"),
        ("pump-stroke", "2.5 cylinders is not a whole number from 1 to 7.", "cylinders"),
        ("plain-end-weight", "Wall 1 m is outside 0.003 to 0.1 m", "wall"),
        ("string-weight", "Buoyancy factor 4 is outside -3 to 3", "factor"),
    ],
)
def test_a_refusal_is_laid_to_the_input_that_shares_its_words(name, refusal, key):
    assert spoken_of(find(name), refusal) == key


async def test_the_list_is_narrowed_by_letters_and_opened_again(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await pilot.press("end", "slash", *"buoyancy-f")
        assert "2: buoyancy-factor," in shown(app)
        await pilot.press("enter")
        assert "2 CALCULATIONS holding 'buoyancy-f'" in shown(app)
        assert at(app) == "buoyancy-factor"
        await pilot.press("down", "down")
        assert at(app) == "buoyancy-factor-two-fluids"
        await pilot.press("escape")
        assert at(app) == "buoyancy-factor-two-fluids"
        assert f"{len(all_formulas())} CALCULATIONS in the register" in shown(app)


async def test_letters_that_no_calculation_holds_stay_in_the_line(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await pilot.press("slash", *"xq", "enter")
        assert "No calculation holds 'xq'; type fewer letters." in shown(app)
        await pilot.press("escape")
        assert f"{len(all_formulas())} CALCULATIONS" in shown(app)


async def test_the_form_can_be_left(running):
    app = app_on(running, "calculations")
    async with app.run_test() as pilot:
        await pilot.press("enter", "escape")
        assert not app.screen.query("#form")


async def test_it_works_on_a_book_without_a_set_up(make_book):
    app = app_on(make_book([]), "calculations")
    async with app.run_test() as pilot:
        await go_to(pilot, "annulus")
        await pilot.press("enter")
        await fill(pilot, hole="12-1/4", od="5")
        assert "capacity 0.121489" in shown(app)


@pytest.mark.parametrize(
    ("quantity", "unit", "value", "told"),
    [
        ("volume", "bbl", 0.0, ("0 bbl", "0 m3")),
        ("volume", "bbl", 1589.87294928, ("10,000 bbl", "1,589.87 m3")),
        ("count", "", 3.0, ("3",)),
        ("length", "ft", -0.3048, ("-1 ft", "-0.3048 m")),
        ("density", "lb/gal", 1e-5, ("0.000000083454 lb/gal", "0.00001 kg/m3")),
    ],
)
def test_a_number_is_shown_to_six_figures_and_never_as_a_power_of_ten(quantity, unit, value, told):
    assert in_both(Term("x", "x", quantity, unit), value) == told
