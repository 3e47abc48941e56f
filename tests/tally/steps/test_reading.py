"""Every kind of fault in a file is found, all of them at once, each in a sentence."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from tally.errors import JobFileError
from tally.steps.model import Step
from tally.steps.reading import (
    MOST_BYTES,
    SHIPPED,
    checklists,
    parse_checklist,
    read_checklist,
    shipped,
)
from tests.tally.steps.lists import RELEASE, RETEST, TEST, toml

ESCAPE = "\x1b[31m"


def faults(text: str) -> tuple[str, ...]:
    with pytest.raises(JobFileError) as caught:
        parse_checklist(text, "own.toml")
    return caught.value.faults


def write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_a_good_list_is_read_as_written() -> None:
    checklist = parse_checklist(toml(), "own.toml")
    assert checklist.page == "plugs"
    assert checklist.step("line-test") == Step(**TEST)
    listed = {key: tuple(value) for key, value in RELEASE.items() if isinstance(value, list)}
    assert checklist.step("top-plug-released") == Step(**(RELEASE | listed))


def test_a_paragraph_may_run_over_lines() -> None:
    checklist = parse_checklist(toml({"purpose": "one\ntwo"}), "own.toml")
    assert checklist.purpose == "one two"


HEAD_FAULTS: list[tuple[dict[str, Any], str, str]] = [
    ({"id": "Own List"}, "id", "small letters and digits joined by hyphens"),
    ({"title": None}, "title", "is missing"),
    ({"title": ""}, "title", "may not be empty"),
    ({"purpose": " "}, "purpose", "may not be empty"),
    ({"source": ""}, "source", "may not be empty"),
    ({"caution": ""}, "caution", "may not be empty"),
    ({"caution": "It is safe."}, "caution", "may not say 'safe'"),
    ({"caution": "x" * 601}, "caution", "has 601 characters; 600 is the most"),
    ({"page": "cement"}, "page", "'cement' is no page of a checklist"),
    ({"title": 3}, "title", "must be a text in quotes, not a whole number"),
    ({"titel": "x"}, "titel", "is not known; did you mean title?"),
    ({"title": f"Own{ESCAPE}"}, "title", "<U+001B>"),
]


@pytest.mark.parametrize(("head", "key", "said"), HEAD_FAULTS)
def test_a_fault_in_the_head_is_named(head: dict[str, Any], key: str, said: str) -> None:
    found = faults(toml(head))
    assert len(found) == 1
    assert found[0].startswith("List ")
    assert f", key {key}: " in found[0]
    assert said in found[0]
    assert ESCAPE not in found[0]


TEST_FAULTS: list[tuple[dict[str, Any], str, str]] = [
    ({"text": None}, "text", "is missing"),
    ({"text": ""}, "text", "may not be empty"),
    ({"text": "x" * 71}, "text", "has 71 characters; 70 is the most"),
    ({"text": "Test\nthe lines"}, "text", "a line break"),
    ({"text": "Test the \u202elines"}, "text", "writing direction"),
    ({"text": "See that all is Safe"}, "text", "may not say 'safe'"),
    ({"who": ""}, "who", "name the role"),
    ({"who": "x" * 49}, "who", "has 49 characters"),
    ({"critical": "yes"}, "critical", "must be true or false, not a text"),
    ({"critical": False}, "hold_point", "must be critical too"),
    (
        {"critical": False, "hold_point": False, "witness": "driller"},
        "witness",
        "only a critical step",
    ),
    ({"want": "tick"}, "want", "use one of: none, state, value"),
    ({"want": 3}, "want", "must be a text in quotes"),
    ({"quantity": ""}, "quantity", "must say what the value is"),
    ({"quantity": "presure"}, "quantity", "'presure' is no quantity"),
    ({"compare": "equal"}, "compare", "'equal' is not known"),
    ({"expect": ""}, "compare", "fill in expect"),
    ({"compare": ""}, "expect", "needs compare"),
    ({"expect": "4000 psi"}, "expect", "figure:NAME, limit:NAME or step:ID"),
    ({"compare": "agrees"}, "within", "must name the limit"),
    ({"within": "limit:band"}, "within", "goes with compare 'agrees' only"),
    ({"compare": "agrees", "within": "200 psi"}, "within", "must read limit:NAME"),
    ({"states": ["seen", "not seen"]}, "states", "offered only where want is 'state'"),
    ({"good": ["seen"]}, "good", "belongs to a step whose want is 'state'"),
    ({"states": "seen"}, "states", "must be a list, [...], not a text"),
    ({"gates": ["on-deep"]}, "gates", "'on-deep' is no gate"),
    ({"gates": ["on-depth", "on-depth"]}, "gates", "names a gate twice"),
    ({"gates": [4]}, "gates", "entry 1 must be a text in quotes, not a whole number"),
    ({"after": ["line-retest"]}, "after", "'line-retest' is no step above this one"),
    ({"at_once": True, "hold_point": False}, "at_once", "needs a key"),
    ({"at_once": True, "key": "l"}, "hold_point", "cannot be a hold point"),
    ({"zeroes": True}, "zeroes", "set at_once too"),
    ({"key": "F1"}, "key", "must be one small letter"),
    ({"plugs": "top"}, "plugs", "use 'bottom' or leave it out"),
    ({"only_with": "gel_10s"}, "only_with", "must read limit:NAME, a limit that a job may have"),
    ({"fills": True}, "fills", "goes with a step whose want is 'state'"),
    ({"colour": "red"}, "colour", "is not known"),
    ({"detail": 1.5}, "detail", "not a number"),
]


@pytest.mark.parametrize(("change", "key", "said"), TEST_FAULTS)
def test_a_fault_in_a_step_is_named(change: dict[str, Any], key: str, said: str) -> None:
    found = faults(toml(None, change))
    assert len(found) == 1
    assert found[0].startswith(f"List own-release, step line-test, line 8, key {key}: ")
    assert said in found[0]
    assert found[0].endswith((".", "?"))


RELEASE_FAULTS: list[tuple[dict[str, Any], str, str]] = [
    ({"want": "none", "states": [], "good": []}, "want", "never a bare tick"),
    ({"critical": False}, "critical", "this step opens a gate"),
    ({"only_with": "limit:line_test"}, "only_with", "a step that opens a gate applies to every"),
    ({"states": ["indicator moved"]}, "states", "two states or more"),
    ({"states": ["indicator moved", "Done."]}, "states", "'Done.' says nothing that was seen"),
    ({"states": ["indicator moved", "checked"]}, "states", "'checked' says nothing"),
    ({"states": ["indicator moved", "indicator moved", "not"]}, "states", "must be different"),
    ({"states": ["indicator moved", ""]}, "states", "none may be empty"),
    ({"states": ["indicator moved", "x" * 49]}, "states", "48 is the most"),
    ({"good": []}, "good", "must name the state that agrees"),
    ({"good": ["moved"]}, "good", "'moved' is not among the states offered"),
    (
        {"good": ["indicator moved", "indicator did not move"]},
        "good",
        "offer one that does not agree",
    ),
    ({"quantity": "volume"}, "quantity", "belongs to a step whose want is 'value'"),
    ({"gates": ["top-plug-released"]}, "gates", "may not wait for the gate that it opens itself"),
    ({"after": ["line-test", "line-test"]}, "after", "names a step twice"),
    ({"compare": "at most", "expect": "limit:x"}, "compare", "belongs to a step whose want"),
]


@pytest.mark.parametrize(("change", "key", "said"), RELEASE_FAULTS)
def test_a_fault_in_a_step_that_offers_states_is_named(
    change: dict[str, Any], key: str, said: str
) -> None:
    found = faults(toml(None, {}, change))
    assert re.match(rf"List own-release, step top-plug-released, line \d+, key {key}: ", found[0])
    assert said in found[0]
    assert len(found) == 1


RETEST_FAULTS: list[tuple[dict[str, Any], str, str, str]] = [
    ({"id": "line-test"}, "line-test", "id", "stands twice in the list"),
    ({"id": "on-depth"}, "on-depth", "id", "is opened by the running"),
    ({"id": "Line_retest"}, "Line_retest", "id", "small letters"),
    ({"id": None}, "3 (no id)", "id", "is missing"),
    ({"key": "p"}, "line-retest", "key", "the letter 'p' belongs to a step above already"),
    ({"after": []}, "line-retest", "expect", "must be named in after too"),
    ({"quantity": "volume"}, "line-retest", "expect", "which has no volume"),
    (
        {"after": ["line-test", "top-plug-released"], "expect": "step:top-plug-released"},
        "line-retest",
        "expect",
        "which has no pressure",
    ),
]


@pytest.mark.parametrize(("change", "step", "key", "said"), RETEST_FAULTS)
def test_a_fault_between_steps_is_named(
    change: dict[str, Any], step: str, key: str, said: str
) -> None:
    found = faults(toml(None, {}, {}, change))
    assert len(found) == 1
    assert re.search(rf", step {re.escape(step)}, line \d+, key {key}: ", found[0])
    assert said in found[0]


def test_eight_faults_give_eight_sentences_at_once() -> None:
    found = faults(
        toml(
            {"page": "cement", "colour": "red"},
            {"text": "x" * 71, "quantity": "presure", "critical": "yes"},
            {"states": ["indicator moved", "done"], "gates": ["on-deep"]},
            {"after": ["line-tset", "line-test"]},
        )
    )
    places = [(line.split(": ")[0]) for line in found]
    assert places == [
        "List own-release, key colour",
        "List own-release, key page",
        "List own-release, step line-test, line 9, key critical",
        "List own-release, step line-test, line 9, key text",
        "List own-release, step line-test, line 9, key quantity",
        "List own-release, step top-plug-released, line 20, key states",
        "List own-release, step top-plug-released, line 20, key gates",
        "List own-release, step line-retest, line 33, key after",
    ]


def test_the_message_counts_the_faults_and_tells_the_first() -> None:
    with pytest.raises(JobFileError, match=r"^own.toml has 2 faults. List own-release, key page"):
        parse_checklist(toml({"page": "x"}, {"who": ""}), "own.toml")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("steps = 3\n", "must be a list"),
        ("steps = []\n", "from 1 to 60 steps"),
        ("steps = [1]\n", "step 1, key steps: must be a table"),
        ("", "key steps: is missing"),
    ],
)
def test_steps_that_are_no_tables_are_named(text: str, said: str) -> None:
    head = toml().split("\n[[steps]]\n")[0]
    found = faults(head + "\n" + text)
    assert len(found) == 1
    assert said in found[0]


def test_more_steps_than_a_person_can_work_are_refused() -> None:
    head = toml().split("\n[[steps]]\n")[0]
    step = '[[steps]]\nid = "s{0}"\ntext = "Look"\nwho = "driller"\n'
    sixty = "".join(step.format(n) for n in range(60))
    assert len(parse_checklist(head + sixty, "own.toml").steps) == 60
    found = faults(head + sixty + step.format(60))
    assert found == ("List own-release, key steps: must hold from 1 to 60 steps.",)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("id = own", "is not TOML"),
        ("a = " + "[" * 5000, "is not TOML: too many lists inside one another"),
        ("id = 1\nid = 2", "is not TOML"),
        ('"\x07" = 1', "is not TOML"),
    ],
)
def test_a_file_that_is_no_toml_is_refused_in_one_sentence(text: str, said: str) -> None:
    with pytest.raises(JobFileError, match=said) as caught:
        parse_checklist(text, "own.toml")
    assert str(caught.value).isprintable()


def test_a_key_of_escape_codes_is_shown_and_not_sent() -> None:
    found = faults(toml({f"x{ESCAPE}": 1}))
    assert "x<U+001B>[31m" in found[0]


def test_files_that_cannot_be_read_are_refused_in_one_sentence(tmp_path: Path) -> None:
    latin = tmp_path / "latin.toml"
    latin.write_bytes('id = "s\xe5"'.encode("latin-1"))
    large = write(tmp_path, "large.toml", "#" * (MOST_BYTES + 1))
    for path, said in [
        (tmp_path / "none.toml", "no checklist file 'none.toml'"),
        (tmp_path, "no checklist file"),
        (latin, "'latin.toml' is not UTF-8"),
        (large, "too large"),
        (tmp_path / "a\0b", "'a<U+0000>b'"),
        (tmp_path / ("n" * 300), "nnn"),
    ]:
        with pytest.raises(JobFileError) as caught:
            read_checklist(path)
        assert said in str(caught.value)
        assert caught.value.faults == (str(caught.value),)


def test_a_companys_list_takes_the_place_of_the_shipped_one(tmp_path: Path) -> None:
    mud = (Path(__file__).parents[3] / "tally/steps/mud_conditioning.toml").read_text("utf-8")
    own = write(tmp_path, "mud.toml", mud.replace("Mud conditioning", "Our mud"))
    lists = {checklist.id: checklist.title for checklist in checklists([own])}
    assert lists == {one.id: one.title for one in shipped()} | {"mud-conditioning": "Our mud"}
    assert len(lists) == len(SHIPPED)


def test_a_list_that_leaves_a_gate_shut_for_ever_is_refused(tmp_path: Path) -> None:
    mud = (Path(__file__).parents[3] / "tally/steps/mud_conditioning.toml").read_text("utf-8")
    own = write(tmp_path, "mud.toml", mud.replace('id = "conditioned"', 'id = "mud-ready"'))
    with pytest.raises(JobFileError) as caught:
        checklists([own])
    assert [line.split(" has a step ")[1] for line in caught.value.faults] == [
        "'conditioned', so this gate could never open."
    ] * 3


def test_two_lists_may_not_share_a_letter_or_open_the_same_gate(tmp_path: Path) -> None:
    # The added list also records the release of the top plug, under the same letter.
    with pytest.raises(JobFileError) as caught:
        checklists([write(tmp_path, "own.toml", toml())])
    assert caught.value.faults == (
        "List own-release, step top-plug-released, line 19, key id: the gate 'top-plug-released' "
        "belongs to the list plug-release already.",
        "List own-release, step top-plug-released, line 19, key key: the letter on the page "
        "plugs 'p' belongs to the list plug-release already.",
    )


def test_the_faults_of_all_files_are_told_at_once(tmp_path: Path) -> None:
    paths = [
        write(tmp_path, "one.toml", toml({"page": "x"})),
        write(tmp_path, "two.toml", toml({"id": "two"}, {"who": ""})),
        write(tmp_path, "three.toml", toml({"id": "three"})),
        write(tmp_path, "four.toml", toml({"id": "three"})),
        tmp_path / "five.toml",
    ]
    with pytest.raises(JobFileError, match=r"^The checklists have 4 faults") as caught:
        checklists(paths)
    said = " ".join(caught.value.faults)
    assert "List own-release, key page" in said
    assert "List two, step line-test, line 8, key who" in said
    assert "List three, key id: two of the files carry this id." in said
    assert "five.toml" in said


def test_the_good_list_of_these_tests_uses_every_step() -> None:
    ids = [step.id for step in parse_checklist(toml(), "own.toml").steps]
    assert ids == [TEST["id"], RELEASE["id"], RETEST["id"]]
