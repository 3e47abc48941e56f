"""The lists that come with the program keep every rule, and the trade's order."""

from __future__ import annotations

import re
import subprocess
import sys
from importlib.resources import files
from itertools import chain

import pytest

from tally.errors import JobFileError
from tally.steps.model import GATES, ON_DEPTH, Checklist, Step
from tally.steps.reading import SHIPPED, checklists, parse_checklist, shipped

LISTS = {checklist.id: checklist for checklist in shipped()}
STEPS = [
    pytest.param(step, id=f"{checklist.id}.{step.id}")
    for checklist in LISTS.values()
    for step in checklist.steps
]
TROUBLE = {
    *("no-bump", "floats-leak", "returns-lost", "early-pressure-rise", "stopped-while-mixing"),
    *("bottom-plug-early-late", "diaphragm-holds", "pressure-at-rig-down"),
}
GOVERNS = "Local codes, the programme and the licensed people on site govern."
NOT_WORDS = re.compile(r"\b(safe|safely|approved|checked|done|tick)\b", re.IGNORECASE)
PAGE_LETTERS = frozenset("cgiklmnrtvxyz")  # the acts of the page


def texts(thing: Checklist | Step) -> list[str]:
    values = [getattr(thing, name) for name in thing.__slots__ if name != "steps"]
    listed = (value if isinstance(value, tuple) else (value,) for value in values)
    return [text for text in chain.from_iterable(listed) if isinstance(text, str)]


@pytest.mark.parametrize("name", SHIPPED)
def test_every_shipped_file_validates(name: str) -> None:
    text = (files("tally.steps") / name).read_text(encoding="utf-8")
    assert parse_checklist(text, name).steps


def test_every_file_in_the_folder_is_shipped() -> None:
    names = {entry.name for entry in files("tally.steps").iterdir() if entry.name.endswith("toml")}
    assert names == set(SHIPPED)


def test_the_shipped_lists_fit_together() -> None:
    assert checklists() == shipped()
    assert {one.id: one.page for one in shipped()} == {
        "crew-and-hole-ready": "ready",
        "mud-conditioning": "mud",
        "rig-up": "plugs",
        "plug-loading": "plugs",
        "plug-release": "plugs",
        "waiting-on-cement": "waiting",
    } | dict.fromkeys(TROUBLE, "plugs")
    assert {one.id for one in shipped() if one.on_call} == TROUBLE


def test_a_list_for_trouble_that_could_hold_somebody_up_is_refused() -> None:
    text = (files("tally.steps") / "plug_release.toml").read_text(encoding="utf-8")
    with pytest.raises(JobFileError, match="key on_call: a list for trouble may hold nobody up"):
        parse_checklist(text.replace('page = "plugs"', 'page = "plugs"\non_call = true'), "x.toml")


def test_the_line_test_waits_until_the_lines_are_rigged_up() -> None:
    assert "rigged-up" in waits_for("line-test")


@pytest.mark.parametrize("checklist", LISTS.values(), ids=LISTS)
def test_ids_are_unique_and_the_caution_ends_with_who_governs(checklist: Checklist) -> None:
    assert len({step.id for step in checklist.steps}) == len(checklist.steps)
    assert checklist.caution.endswith(GOVERNS)


@pytest.mark.parametrize("step", STEPS)
def test_a_critical_step_wants_a_state_or_a_value(step: Step) -> None:
    assert not step.critical or step.want in ("state", "value")
    assert not step.critical or step.witness
    assert step.who != step.witness
    assert not step.hold_point or step.critical


@pytest.mark.parametrize("step", [one for one in STEPS if one.values[0].want == "state"])  # type: ignore[union-attr]
def test_states_offer_a_good_one_and_one_that_is_not(step: Step) -> None:
    assert step.good
    assert set(step.good) < set(step.states)


@pytest.mark.parametrize("step", STEPS)
def test_texts_fit_and_are_plain(step: Step) -> None:
    assert len(step.text) <= 70
    assert all(len(state) <= 48 for state in step.states)
    assert all(text.isascii() and text.isprintable() for text in texts(step))


@pytest.mark.parametrize("thing", [*LISTS.values(), *STEPS])
def test_no_forbidden_word_stands_anywhere(thing: Checklist | Step) -> None:
    assert [text for text in texts(thing) if NOT_WORDS.search(text)] == []


@pytest.mark.parametrize("text", ["It is safe.", "plans approved", "Checked"])
def test_the_forbidden_words_would_be_found(text: str) -> None:
    assert NOT_WORDS.search(text)


def test_each_gate_is_opened_by_one_critical_step() -> None:
    opening = [step for one in shipped() for step in one.steps if step.id in GATES]
    assert sorted(step.id for step in opening) == sorted(set(GATES) - {ON_DEPTH})
    assert all(step.critical for step in opening)


def waits_for(step_id: str, seen: frozenset[str] = frozenset()) -> set[str]:
    """Everything that must stand before a step, through gates and the steps above it."""
    found = next((s for one in shipped() for s in one.steps if s.id == step_id), None)
    if found is None or step_id in seen:
        return set()
    direct = {*found.gates, *found.after}
    return direct.union(*(waits_for(each, seen | {step_id}) for each in direct))


@pytest.mark.parametrize(
    ("step", "first"),
    [
        ("bottom-plug-released", {"on-depth", "conditioned", "bottom-plug-loaded", "line-test"}),
        ("first-slurry", {"bottom-plug-released", "conditioned", "volumes-agreed", "line-test"}),
        ("top-plug-released", {"slurry-away", "first-slurry", "top-plug-loaded"}),
        ("bumped", {"top-plug-released"}),
        ("floats-held", {"bumped", "bled-back"}),
        ("top-plug-loaded", {"bottom-plug-loaded", "head-vented", "pins-and-valves"}),
    ],
)
def test_the_order_of_the_trade_is_kept(step: str, first: set[str]) -> None:
    assert first <= waits_for(step)


def test_nothing_stops_the_pumping_hand_from_first_slurry_to_bump() -> None:
    release = LISTS["plug-release"]
    ids = [step.id for step in release.steps]
    pumping = release.steps[ids.index("first-slurry") : ids.index("bumped") + 1]
    assert not any(step.hold_point for step in pumping)
    assert all(step.at_once for step in pumping if step.critical)
    assert [step.id for step in release.steps if step.zeroes] == ["top-plug-released"]


def test_letters_do_not_collide_with_one_another_or_with_the_acts_of_the_page() -> None:
    letters = [step.key for one in shipped() if one.page == "plugs" for step in one.steps]
    used = [letter for letter in letters if letter]
    assert len(used) == len(set(used))
    assert not PAGE_LETTERS & set(used)


def test_the_loader_cannot_be_the_witness() -> None:
    loading = LISTS["plug-loading"]
    for step in (loading.step("bottom-plug-loaded"), loading.step("top-plug-loaded")):
        assert step.critical
        assert step.hold_point
        assert step.witness not in ("", step.who)


def test_importing_the_room_does_not_bring_pydantic_in() -> None:
    code = "import sys, tally.steps.reading; sys.exit('pydantic' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
