"""The model: what applies, what is named, and the way into a book and back."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import BookTooNew, InputError
from tally.steps.model import Checklist, Step, from_fields, names_used, to_fields
from tally.steps.reading import shipped

words = st.text(max_size=12)
many = st.lists(words, max_size=3).map(tuple)
steps = st.builds(
    Step,
    id=words,
    text=words,
    who=words,
    critical=st.booleans(),
    states=many,
    good=many,
    gates=many,
    after=many,
    at_once=st.booleans(),
    zeroes=st.booleans(),
    expect=words,
    caution=words,
)
lists = st.builds(
    Checklist,
    id=words,
    title=words,
    page=words,
    purpose=words,
    caution=words,
    source=words,
    steps=st.lists(steps, max_size=4).map(tuple),
)


@given(lists)
def test_a_list_comes_back_from_its_fields_as_it_was(checklist: Checklist) -> None:
    assert from_fields(json.loads(json.dumps(to_fields(checklist)))) == checklist


@pytest.mark.parametrize("checklist", shipped(), ids=lambda one: one.id)
def test_a_shipped_list_comes_back_from_its_fields_as_it_was(checklist: Checklist) -> None:
    assert from_fields(json.loads(json.dumps(to_fields(checklist)))) == checklist


def test_fields_hold_no_defaults_so_that_a_journal_line_stays_short() -> None:
    step = Step(id="a", text="Look", who="driller")
    checklist = Checklist(
        id="l", title="", page="mud", purpose="", caution="", source="", steps=(step,)
    )
    assert to_fields(checklist)["steps"] == [{"id": "a", "text": "Look", "who": "driller"}]


def good_fields() -> dict[str, Any]:
    return to_fields(shipped()[0])


@pytest.mark.parametrize(
    ("change", "error", "said"),
    [
        ({"colour": "red"}, BookTooNew, "'colour'"),
        ({"steps": [{"id": "a", "text": "b", "who": "c", "shape": 1}]}, BookTooNew, "'shape'"),
        ({"steps": "none"}, InputError, "no readable steps"),
        ({"steps": ["a"]}, InputError, "no readable steps"),
        ({"steps": [{"id": "a", "text": "b"}]}, InputError, "'who'"),
        (
            {"steps": [{"id": "a", "text": "b", "who": "c", "critical": 1}]},
            InputError,
            "'critical'",
        ),
        ({"steps": [{"id": "a", "text": "b", "who": "c", "gates": [1]}]}, InputError, "'gates'"),
        ({"steps": [{"id": "a", "text": "b", "who": "c", "gates": "x"}]}, InputError, "'gates'"),
        ({"title": None}, InputError, "'title'"),
    ],
)
def test_stored_fields_that_cannot_be_a_list_are_refused_by_name(
    change: dict[str, Any], error: type[Exception], said: str
) -> None:
    with pytest.raises(error, match=said):
        from_fields(good_fields() | change)


def test_a_list_stored_before_a_rule_came_still_reads() -> None:
    # A critical step with a bare tick is refused in a new file, never in a stored list.
    old = good_fields() | {"steps": [{"id": "x", "text": "y", "who": "z", "critical": True}]}
    assert from_fields(old).step("x").want == "none"


def test_steps_for_a_bottom_plug_stand_aside_without_one() -> None:
    release = next(one for one in shipped() if one.id == "plug-release")
    with_plug = {step.id for step in release.applying(1)}
    assert with_plug - {step.id for step in release.applying(0)} == {
        "bottom-plug-released",
        "diaphragm-gave-way",
    }
    assert release.applying(2) == release.applying(1) == release.steps


def test_a_step_is_found_by_its_id_and_a_stranger_is_named() -> None:
    release = next(one for one in shipped() if one.id == "plug-release")
    assert release.step("bumped").key == "b"
    with pytest.raises(InputError, match="'plug-release' has no step 'bumpd'"):
        release.step("bumpd")


def test_names_used_are_those_of_expect_and_within() -> None:
    step = Step(id="a", text="b", who="c", expect="figure:one", within="limit:two")
    other = Step(id="b", text="b", who="c", expect="step:a", within="limit:three")
    checklist = Checklist(
        id="l", title="", page="mud", purpose="", caution="", source="", steps=(step, other)
    )
    assert names_used([checklist], "figure") == ("one",)
    assert names_used([checklist, checklist], "limit") == ("three", "two")
