"""The checker itself: what agrees, what differs, what is malformed, and how it is counted."""

from pathlib import Path

import pytest

from tally.errors import JobFileError
from tally.formulas_check import check_case, check_file, closing_count

SOURCE = "a handbook, page 1"
GOOD = {
    "formula": "annulus",
    "inputs": {"hole": "12-1/4 in", "od": "5 in"},
    "expect": {"capacity": "0.12149 bbl/ft"},
    "kind": "published",
    "source": SOURCE,
}


def check(**changes):
    case = {**GOOD, **changes}
    return check_case(
        "x.toml:1", {name: value for name, value in case.items() if value is not None}
    )


@pytest.mark.parametrize(
    "printed",
    ["0.12149 bbl/ft", "0.1215 bbl/ft", "0.121489 bbl/ft", "5.1 gal/ft", "63.4 l/m", "63 l/m"],
)
def test_half_a_unit_of_the_last_digit_agrees(printed):
    verdict = check(expect={"capacity": printed})
    assert verdict.agrees, verdict.line()
    assert verdict.line().startswith("agrees   published  x.toml:1 annulus: capacity got ")


@pytest.mark.parametrize(
    "printed",
    ["0.12150 bbl/ft", "0.12148 bbl/ft", "0.1214 bbl/ft", "5.2 gal/ft", "62 l/m", "0.12149 l/m"],
)
def test_more_than_half_a_unit_differs_and_says_got_and_expected(printed):
    verdict = check(expect={"capacity": printed})
    assert not verdict.agrees
    assert verdict.line().startswith("DIFFERS  published  x.toml:1 annulus: capacity got ")
    assert verdict.line().endswith(f"expected {printed}")


def test_an_exact_half_agrees_in_spite_of_float_noise():
    given = {
        "formula": "strokes-for-volume",
        "inputs": {"volume": "9.05 bbl", "delivered": "0.1 bbl/stroke"},
    }
    for printed in ("90", "91"):
        assert check(**given, expect={"strokes": printed}).agrees


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"formula": "anulus"}, 'no formula "anulus"'),
        ({"formula": None}, "formula: Field required"),
        ({"source": None}, "source: Field required"),
        ({"source": "a book"}, "source: String should have at least 10"),
        ({"kind": "proof"}, "kind: Input should be 'published'"),
        ({"colour": "red"}, "colour: Extra inputs are not permitted"),
        ({"inputs": {"hole": 12.25, "od": "5 in"}}, "inputs.hole: Input should be a valid string"),
        ({"inputs": {"hole": "12-1/4 in"}}, "still needs od"),
        ({"inputs": {"hole": "12-1/4 in", "od": "5 in", "id": "4 in"}}, "no input id"),
        ({"inputs": {"hole": "5 in", "od": "12-1/4 in"}}, "not less than the hole diameter"),
        ({"inputs": {}}, "inputs: Dictionary should have at least 1"),
        ({"expect": {}}, "expect: Dictionary should have at least 1"),
        ({"expect": {"volume": "1 bbl"}}, "no output volume; there are capacity"),
        ({"expect": {"capacity": "0.12149"}}, "has no unit"),
        ({"expect": {"capacity": "0.12149 psi"}}, "use bbl/ft, bbl/100ft, gal/ft"),
        ({"expect": {"capacity": "1/8 bbl/ft"}}, "no plain decimal number"),
        ({"expect": {"capacity": "nan bbl/ft"}}, "no plain decimal number"),
        ({"within": {"capacity": "0.1 bbl/ft"}}, "a wider within needs a why"),
        ({"why": "a reason"}, "a why needs a within"),
        ({"within": {"volume": "1 bbl"}, "why": "a reason"}, "within names volume"),
        (
            {"within": {"capacity": "0.000005 bbl/ft"}, "why": "a reason"},
            "no wider than half the last digit",
        ),
        ({"printed": {"capacity": "0.12 bbl/ft"}}, "a corrected case, and no other"),
        ({"kind": "corrected"}, "a corrected case, and no other"),
        (
            {"kind": "corrected", "printed": {"capacity": "0.1215 bbl/ft"}},
            "the printed 0.1215 bbl/ft agrees, so nothing was corrected",
        ),
    ],
)  # fmt: skip
def test_a_malformed_case_differs_and_says_why(changes, said):
    verdict = check(**changes)
    assert not verdict.agrees
    assert said in verdict.line()


def test_a_wider_margin_is_kept_and_counted_apart():
    wide = {"expect": {"capacity": "0.1216 bbl/ft"}, "why": "an old table"}
    inside = check(**wide, within={"capacity": "0.0002 bbl/ft"})
    assert inside.agrees
    assert inside.widened
    assert inside.line().endswith("(wider: an old table)")
    outside = check(**wide, within={"capacity": "0.0001 bbl/ft"})
    assert not outside.agrees
    assert "within 0.0001 bbl/ft" in outside.line()


def test_each_expected_value_is_looked_at():
    two = {
        "formula": "strokes-to-bump",
        "inputs": {"displacement": "40 bbl", "delivered": "0.1 bbl/stroke", "pumped": "10 bbl"},
    }
    assert check(**two, expect={"strokes": "300", "left": "30.0 bbl"}).agrees
    assert not check(**two, expect={"strokes": "300", "left": "30.1 bbl"}).agrees
    assert not check(**two, expect={"strokes": "301", "left": "30.0 bbl"}).agrees


def test_only_published_and_standard_count_as_evidence():
    right = {"printed": None}
    wide = {"within": {"capacity": "0.1 bbl/ft"}, "why": "an old table"}
    verdicts = [
        check(),
        check(kind="standard"),
        check(kind="memory"),
        check(kind="practice"),
        check(kind="derived", **right),
        check(kind="corrected", printed={"capacity": "0.13 bbl/ft"}),
        check(**wide),
        check(expect={"capacity": "0.2 bbl/ft"}),
        check(kind="no such kind"),
    ]
    assert closing_count(verdicts) == [
        "published  1 agree, 1 agree within a wider margin, 1 differ",
        "standard   1 agree",
        "corrected  1 agree",
        "practice   1 agree",
        "memory     1 agree",
        "derived    1 agree",
        "malformed  1 differ",
        "evidence of agreement: 2 cases; 2 differ",
    ]


def test_a_file_is_checked_case_by_case(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(
        '[[case]]\nformula = "annulus"\ninputs = { hole = "12-1/4 in", od = "5 in" }\n'
        f'expect = {{ capacity = "0.12149 bbl/ft" }}\nkind = "published"\nsource = "{SOURCE}"\n'
        '[[case]]\nformula = "annulus"\n'
    )
    first, second = check_file(path)
    assert first.agrees
    assert first.place == "mine.toml:1"
    assert second.place == "mine.toml:2"
    assert second.kind == "malformed"
    assert "inputs: Field required" in second.line()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (b"", "must hold"),
        (b"case = 3", "must hold"),
        (b"case = [3]", "must hold"),
        (b"[[case]]\n[[other]]\nx = 1", "found other"),
        (b"[[case]\n", "is no TOML"),
        (b"\xff\xfe", "is no TOML"),
        (b"x = " + b"[" * 100_000, "is no TOML"),
        (b"x = " + b"9" * 10_000, "is no TOML"),
    ],
)
def test_a_file_that_holds_no_cases_is_refused_in_words(tmp_path, text, said):
    path = tmp_path / "broken.toml"
    path.write_bytes(text)
    with pytest.raises(JobFileError, match=said):
        check_file(path)


def test_a_missing_file_is_refused_in_words():
    with pytest.raises(JobFileError, match=r"gone\.toml cannot be read: No such file"):
        check_file(Path("gone.toml"))


def test_a_line_cannot_steer_the_terminal():
    odd = "\x1b[2J\u202e"
    for case in (
        {"formula": odd},
        {"expect": {"capacity": odd}},
        {odd: "x"},
        {"inputs": {odd: odd}},
    ):
        line = check(**case).line()
        assert line.isascii()
        assert line.isprintable()
