"""What a registered formula refuses, reads and returns."""

from math import inf, nan

import pytest

from tally import formula as register_of
from tally.errors import DomainError, InputError
from tally.formula import Term, formula, registered, require_range
from tally.formulas import find
from tally.hole.annulus import annulus_capacity
from tally.pipe.weight import STEEL_DENSITY, buoyancy_factor, plain_end_weight


@pytest.fixture
def own_register(monkeypatch):
    """A copy of the register, so that a test may add to it."""
    monkeypatch.setattr(register_of, "REGISTER", dict(register_of.REGISTER))
    return register_of.REGISTER


LENGTH = Term("length", "how long", "length", "ft")
HALF = Term("half", "half of it", "length", "ft")
REST = Term("rest", "the rest of it", "length", "ft")
WORDS = {"source": "none", "range": "any"}


def test_the_function_stays_as_it_was_and_finds_its_formula():
    assert annulus_capacity(0.31, 0.25) == pytest.approx(0.0263894, rel=1e-5)
    assert registered(annulus_capacity).name == "annulus"
    with pytest.raises(KeyError, match="not in the register"):
        registered(max)


def test_outputs_come_by_name_in_their_order(own_register):
    @formula("split", "Splits", inputs=[LENGTH], outputs=[HALF, REST], **WORDS)
    def split(length):
        return length / 2, length - length / 2

    assert own_register["split"].evaluate({"length": 3.0}) == {"half": 1.5, "rest": 1.5}
    assert own_register["split"].evaluate_text({"length": "10"})["half"] == pytest.approx(1.524)


def test_too_few_results_are_not_swallowed(own_register):
    @formula("short", "Forgets one", inputs=[LENGTH], outputs=[HALF, REST], **WORDS)
    def short(length):
        return length / 2

    with pytest.raises(ValueError, match="shorter"):
        own_register["short"].evaluate({"length": 3.0})


@pytest.mark.parametrize(
    ("name", "inputs", "outputs", "said"),
    [
        ("annulus", [LENGTH], [HALF], "two formulas are called annulus"),
        ("new", [LENGTH, REST], [HALF], "not the function's parameters"),
        ("new", [LENGTH], [], "no output"),
        ("new", [LENGTH], [LENGTH], "two terms share a name"),
    ],
)
def test_a_careless_declaration_stops_at_import(own_register, name, inputs, outputs, said):
    with pytest.raises(ValueError, match=said):
        formula(name, "Careless", inputs=inputs, outputs=outputs, **WORDS)(lambda length: length)


def test_missing_and_unknown_inputs_are_named():
    annulus = find("annulus")
    with pytest.raises(InputError, match=r"still needs od \(outside diameter.*, in\)"):
        annulus.evaluate_text({"hole": "12-1/4"})
    with pytest.raises(InputError, match="no input bit; its inputs are hole, od"):
        annulus.evaluate({"hole": 0.3, "od": 0.2, "bit": 0.3})


def test_a_typed_input_that_cannot_be_read_is_named():
    with pytest.raises(InputError, match=r"^hole: .*12 bananas"):
        find("annulus").evaluate_text({"hole": "12 bananas", "od": "5 in"})


def test_a_number_out_of_range_is_told_with_what_was_typed():
    with pytest.raises(DomainError) as caught:
        find("capacity").evaluate_text({"id": "85 in"})
    assert str(caught.value) == (
        "Inside diameter 85 in (2.159 m) is outside 0.05 to 1 m; check the number and its unit. "
        "Given: id = 85 in."
    )


def test_a_default_stands_in_and_is_the_one_of_the_function():
    for entry, function, given in (
        (find("buoyancy-factor"), buoyancy_factor, {"fluid": 1200.0}),
        (find("plain-end-weight"), plain_end_weight, {"od": 0.25, "wall": 0.015}),
    ):
        (got,) = entry.evaluate(given).values()
        assert got == pytest.approx(function(*given.values()), rel=1e-12)
    other = find("buoyancy-factor").evaluate_text({"fluid": "10 lb/gal", "steel": "65.4 lb/gal"})
    assert (
        other["factor"] != find("buoyancy-factor").evaluate_text({"fluid": "10 lb/gal"})["factor"]
    )
    assert pytest.approx(7848.63, abs=0.01) == STEEL_DENSITY


@pytest.mark.parametrize("value", [nan, inf, -inf, -0.001, 1.001])
def test_require_range_names_thing_value_and_limit(value):
    with pytest.raises(DomainError, match=r"^Efficiency \S+ is outside 0 to 1; check"):
        require_range("Efficiency", value, 0.0, 1.0, "")


@pytest.mark.parametrize("value", [0.0, 0.5, 1.0])
def test_require_range_includes_both_ends(value):
    require_range("Efficiency", value, 0.0, 1.0, "")
