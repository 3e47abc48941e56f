"""What a job file may get wrong: each fault in one sentence, and all of them at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.errors import JobFileError
from tally.feeds import job_catalogue
from tally.feeds.job_file import read_job_file
from tally.feeds.job_tables import LimitTable
from tally.feeds.job_words import LIKE, TOP, like
from tests.tally.feeds.job_files import (
    JOB,
    PIPE,
    Change,
    faults,
    taken,
    written,
)

ONE_FAULT: list[tuple[Change, str]] = [
    (('string = "7 in production"\n', ""), "[well] string: is missing; write it like string ="),
    (("string =", "strng ="), "[well] strng: is not known; did you mean string?"),
    (('name = "Hollin 2"', 'name = ""'), "[well] name: is empty; type it."),
    (('name = "Hollin 2"', 'name = "Hol\\u202elin"'), "[well] name: "),
    (('name = "Hollin 2"', 'name = "Hol\\u001b[31m"'), "[well] name: "),
    (("[well]", "[well]\ndepth = 1"), "[well] depth: is not known; its keys are name, string,"),
    (('\ndepth = "250 ft"', "\ndepth = 250"), '[hole] depth: 250 is not a text in quotes; write'),
    (('\ndepth = "250 ft"', '\ndepth = "250"'), '[hole] depth: "250" is not read as a length'),
    (('\ndepth = "250 ft"', '\ndepth = "2,500 ft"'), '[hole] depth: "2,500 ft" is not read'),
    (('\ndepth = "250 ft"', '\ndepth = "250 in2"'), '[hole] depth: "250 in2" is not read'),
    (('casing_point = "240 ft"', 'casing_point = "251 ft"'), "[hole] casing_point: 251 ft lies be"),
    (('shoe = "100 ft"', 'shoe = "240 ft"'), "[previous_casing] shoe: 240 ft is not above"),
    (('unit = "ft"', 'unit = "in"'), '[tally] unit: "in" is no tally unit: use one of ft, m, mm.'),
    (('stick_up = "3.1"', 'stick_up = "-3.1"'), '[tally] stick_up: "-3.1" is not read'),
    (('unit = "ft"', 'unit = "ft"\nmake_up_loss = "4 in"'), "[tally] make_up_loss: 4 in goes with"),
    (('unit = "ft"', 'unit = "ft"\nlengths = "overall"'), "[tally] make_up_loss: is missing;"),
    (('unit = "ft"', 'unit = "ft"\npipe_list = "x"'), "[tally] pipe_list: belongs at the top"),
    (("[mud]", "[filling]\nsource = 'mud pit'\n[mud]"), "[filling] source: "),
    (("[mud]", "[filling]\nclosed_end = 1\n[mud]"), "[filling] closed_end: 1 is not true or false"),
    (('weight = "9.8 lb/gal"\n', ""), '[mud] weight: is missing; write it like weight = "10.2'),
    (("[mud]\nweight", "[mud]\nwight"), "[mud] wight: is not known; did you mean weight?"),
    (('weight = "26 lb/ft"', 'weight = "27 lb/ft"'), "[[pipe]] 7 26 inner_diameter: is missing. T"),
    (("range = 3", "range = 4"), "[[pipe]] 1 range: 4 is not taken: type a whole number from 1 to"),
    (("range = 3", 'range = "3"'), "[[pipe]] 1 range: 3 is not a whole number; write it like"),
    (("range = 3", 'range = 3\nlongest = "48 ft"'), "[[pipe]] 7 26 range: the range gives"),
    (("range = 3", 'longest = "48 ft"'), "[[pipe]] 7 26 shortest: shortest and longest go toget"),
    (("range = 3", 'longest = "34 ft"\nshortest = "48 ft"'), "[[pipe]] 7 26 shortest: 48 ft is"),
    (("range = 3", 'inner_diameter = "7 in"'), "[[pipe]] 7 26 inner_diameter: 7 in is not less th"),
    (('diameter = "8-1/2 in"', 'diameter = "6 in"'), "[[pipe]] 7 26 outer_diameter: 7 in does not"),
    (("range = 3", "range = 3\n" + JOB[JOB.index("[[pipe]]") : JOB.index("[mud]")]), "[[pipe]] "),
    (('efficiency = "97 %"', 'efficiency = "970 %"'), "[pump] efficiency: 970 % is more than 100"),
    (("bottom_plugs = 1", "bottom_plugs = 3"), "[programme] bottom_plugs: 3 is not taken"),
    (("bottom_plugs = 1", "bottom_plugs = true"), "[programme] bottom_plugs: true is not a whole"),
    (("[programme]", "[[programme]]"), "[programme]: must be one table"),
    (("[[item]]\nnumber = \"shoe\"", "[item]\nnumber = \"shoe\""), "The job file"),
    (('number = "shoe"', 'number = "float shoe"'), '[[item]] 1 number: "float shoe" is no number'),
    (('kind = "collar"', 'kind = "coller"'), '[[item]] 2 kind: "coller" is no kind of item'),
    (('kind = "collar"', 'kind = "collar"\npipe = "7"'), "[[item]] collar pipe: there is no pip"),
    (('length = "2.10"', 'length = "two"'), '[[item]] 1 length: "two" is not read as a length'),
    (('length = "2.10"', 'length = "0.001 ft"'), "[[item]] shoe length: 0.001 ft is no length"),
    (('length = "2.10"', 'length = "99999 ft"'), '[[item]] shoe length: "99999 ft" is longer than'),
    (('joints = "4"', 'joints = "5"'), "[[fitting]] 1 joints: joint 5 is beyond the 4 joints"),
    (('joints = "4"', 'joints = "4-1"'), '[[fitting]] 1 joints: "4-1" runs backwards'),
    (('joints = "4"', 'joints = [4]'), "[[fitting]] 1 joints: a list is not a text in quotes; w"),
    (("count = 2", "count = 0"), "[[fitting]] 1 count: 0 is not taken"),
    (('role = "casing crew lead"', 'role = "boss"'), '[[people]] 1 role: "boss" is no role: use'),
    (('name = "N. Haddad"', 'name = "ama osei"'), "[[people]] 2 name: Ama Osei stands twice; gi"),
    (("tank_total =", "tank_totl ="), "[limits] tank_totl: is not known; did you mean tank_total?"),
    (('value = "5 bbl", owner', 'value = "5 psi", owner'), '[limits] tank_total, value: "5 psi"'),
    (('owner = "N. Haddad", source', "source"), "[limits] tank_total, owner: is missing; write it"),
    (('inclination = "1.5 deg"', 'inclination = "185 deg"'), "[[survey]] 2 inclination: 185 deg"),
    (('measured_depth = "0 ft"', 'measured_depth = "250 ft"'), "[[survey]] 2 measured_depth: 250"),
    (('measured_depth = "250 ft"', 'measured_depth = "251 ft"'), "[[survey]] 2 measured_depth: 25"),
    (("[mud]", "[units]\nset = 'imperial'\n[mud]"), '[units] set: "imperial" is no unit set'),
    (("[mud]", "[units]\npresure = 'psi'\n[mud]"), "[units] presure: is no quantity; did you mean"),
    (("[mud]", "[units]\npressure = 'ft'\n[mud]"), '[units] pressure: "ft" is no unit of pressure'),
    (("[mud]", "[units]\npressure = 1\n[mud]"), "[units] pressure: 1 is not a text in quotes."),
    (("[mud]", "[muddy]\n[mud]"), "muddy: is not known in a job file; did you mean mud?"),
    (('running_order = "shoe 1 collar 2-4"\n', ""), 'running_order: is missing; write it like ru'),
    (('"pipe.csv"', '"pine.csv"'), "There is no pipe list 'pine.csv'; look at its name and its"),
    (('"pipe.csv"', "3"), "pipe_list: 3 is not a text in quotes; write it like pipe_list ="),
    (('pipe_list = "', "checklists = 3\npipe_list = \""), "checklists: 3 is not a list; write it"),
    (('pipe_list = "', 'checklists = ["x"]\npipe_list = "'), "There is no checklist file 'x'"),
    (('"shoe 1 collar 2-4"', '"shoe 1 collar 2-6"'), "running_order: 6 is neither in the pipe l"),
    (('"shoe 1 collar 2-4"', '"shoe 1 collar 02 3 4"'), "running_order: there is no 02, but a 2;"),
    (('"shoe 1 collar 2-4"', '"shoe 1 collar 2-4 1"'), "running_order: 1 is named twice; each i"),
    (('"shoe 1 collar 2-4"', '"shoe 1-4"'), "running_order: has no collar; the plugs of"),
    (('"shoe 1 collar 2-4"', '" "'), "running_order: The running order is empty: type it like"),
    (('"shoe 1 collar 2-4"', '"shoe 1 collar A2-B4"'), "running_order: \"A2-B4\" goes from"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "said"), ONE_FAULT, ids=[said[:40] for _, said in ONE_FAULT])
def test_a_fault_is_one_sentence_with_its_table_and_key(
    tmp_path: Path, change: Change, said: str
) -> None:
    found = faults(tmp_path, change)
    assert len(found) == 1, found
    assert found[0].startswith(said)
    assert found[0].isascii()
    assert found[0].endswith((".", "?"))


def test_a_shoe_that_is_not_first_is_told_from_both_sides(tmp_path: Path) -> None:
    found = faults(tmp_path, ('"shoe 1 collar 2-4"', '"1 shoe collar 2-4"'))
    assert found == (
        "running_order: starts with 1, a joint; the shoe goes in first.",
        "running_order: the shoe shoe is not at the start; it goes in first.",
    )


def test_without_plugs_no_collar_is_wanted(tmp_path: Path) -> None:
    no_plugs = ("[programme]\nbottom_plugs = 1\n", "")
    job = taken(tmp_path, no_plugs, ('"shoe 1 collar 2-4"', '"shoe 1-4"'))
    assert job.setup.order == ("shoe", "1", "2", "3", "4")


def test_joints_come_with_the_pipe_list_and_not_as_items(tmp_path: Path) -> None:
    found = faults(tmp_path, ('kind = "collar"', 'kind = "joint"'))
    assert "[[item]] collar kind: a joint is counted on location with the others" in found[0]


def test_a_number_is_used_once_in_items_and_list_together(tmp_path: Path) -> None:
    found = faults(tmp_path, pipe=PIPE + "SHOE,40.00\n")
    assert found == (
        "[[item]] SHOE number: looks the same as number shoe; give one of them another.",
    )
    found = faults(tmp_path, pipe=PIPE + "collar,40.00\n")
    assert found == (
        "[[item]] collar number: the number is used for collar already; "
        "a number is used only once.",
    )


def test_many_unknown_numbers_are_named_in_one_sentence(tmp_path: Path) -> None:
    (found,) = faults(tmp_path, ('"shoe 1 collar 2-4"', '"shoe 1 collar 2-30"'))
    assert found.startswith("running_order: 6, 7, 8, 9, 10, 11, 12, 13 and 17 more are neither in")


TOGETHER = [
    (('string = "7 in production"\n', ""), "[well] string"),
    (('\ndepth = "250 ft"', '\ndepth = "deep"'), "[hole] depth"),
    (('shoe = "100 ft"', "shoe = 100"), "[previous_casing] shoe"),
    (('stick_up = "3.1"', 'stick_up = "3.1 bbl"'), "[tally] stick_up"),
    (("range = 3", "range = 5"), "[[pipe]] 1 range"),
    (('efficiency = "97 %"', 'efficiency = "0.97"'), "[pump] efficiency"),
    (("bottom_plugs = 1", "bottom_plug = 1"), "[programme] bottom_plug:"),
    (('kind = "collar"', 'kind = "kollar"'), "[[item]] 2 kind"),
    (('joints = "4"', 'joints = "four"'), "[[fitting]] 1 joints"),
    (('role = "casing crew lead"', 'role = "cook"'), "[[people]] 1 role"),
    (('value = "5 bbl", owner', 'value = "5", owner'), "[limits] tank_total"),
    (('inclination = "1.5 deg"', 'inclination = "1.5"'), "[[survey]] 2 inclination"),
    (("[mud]", "[units]\nset = 'x'\n[mud]"), "[units] set"),
    (('"shoe 1 collar 2-4"', '"shoe 1 1"'), "running_order"),
]
"""Changes in different tables, each with the start of what is said of it."""


def test_all_faults_of_all_files_are_told_at_once(tmp_path: Path) -> None:
    list_faults = ["pipe.csv. Row 3", "pipe.csv. Row 5"]
    found = faults(
        tmp_path, *[change for change, _ in TOGETHER], pipe="number,length\n1,40\n2,\n3,40\n3,41\n"
    )
    starts = [start for _, start in TOGETHER] + list_faults
    for start in starts:
        assert any(each.startswith(start) for each in found), start
    assert len(found) == len(starts)


def test_several_faults_in_one_table_are_all_told(tmp_path: Path) -> None:
    found = faults(
        tmp_path,
        ('number = "collar"', 'number = "a collar"'),
        ('kind = "collar"', 'kind = "kollar"'),
        ('length = "1\' 9 in"', "length = 3\ncolour = 1"),
    )
    assert [each.split(":")[0] for each in found[:4]] == [
        "[[item]] 2 number",
        "[[item]] 2 kind",
        "[[item]] 2 length",
        "[[item]] 2 colour",
    ]


def test_the_message_counts_the_faults_and_says_the_first(tmp_path: Path) -> None:
    path = written(tmp_path, *[change for change, _ in TOGETHER[:2]])
    with pytest.raises(JobFileError, match=r"^The job file 'job.toml' has 2 faults\. \[well\] str"):
        read_job_file(path)


def test_without_a_pipe_list_the_order_may_name_any_joint(tmp_path: Path) -> None:
    job = taken(tmp_path, ('pipe_list = "pipe.csv"\n', ""))
    assert (job.arrivals, job.pipe_list) == ((), "")
    assert job.setup.order == ("shoe", "1", "collar", "2", "3", "4")
    no_list = ('pipe_list = "pipe.csv"\n', "")
    found = faults(tmp_path, no_list, ('"shoe 1 collar 2-4"', '"shoe 1 collar 2 [/] 3/4"'))
    assert found == (
        'running_order: "[/]" is no number of an item: use letters, digits and hyphens only, '
        "12 at most and no spaces.",
    )
    found = faults(tmp_path, no_list, ('"shoe 1 collar 2-4"', '"1 shoe 2-4 1"'))
    assert found == (
        "running_order: 1 is named twice; each item goes in once.",
        "running_order: the shoe shoe is not at the start; it goes in first.",
        "running_order: has no collar; the plugs of [programme] land on one, so add an [[item]] "
        'of the kind "collar" and put it in the order.',
    )


NASTY = [
    "",
    " ",
    "\u202e",
    "x" * 10_000,
    "[/]",
    "[red]x",
    "=1+1",
    "9**9**9",
    "4127",
    "41,355",
    "\ufeff",
]
TEXTS = [line.split(" = ")[1] for line in JOB.splitlines() if ' = "' in line and "{" not in line]


@pytest.mark.parametrize("nasty", NASTY, ids=range(len(NASTY)))
def test_any_text_anywhere_is_read_or_refused_in_a_sentence(tmp_path: Path, nasty: str) -> None:
    lines = JOB.splitlines()
    for place, line in enumerate(lines):
        if ' = "' not in line or "{" in line:
            continue
        key = line.split(" = ")[0]
        changed = [*lines[:place], f'{key} = "{nasty}"', *lines[place + 1 :]]
        path = written(tmp_path)
        path.write_text("\n".join(changed), encoding="utf-8")
        for said in told(path):
            assert said.isprintable(), key
            assert len(said) < 400, key


def told(path: Path) -> tuple[str, ...]:
    try:
        read_job_file(path)
    except JobFileError as error:
        return error.faults
    return ()


def test_what_cannot_be_opened_is_one_sentence(tmp_path: Path) -> None:
    large, odd = tmp_path / "large.toml", tmp_path / "odd.toml"
    large.write_bytes(b"#" * (1024 * 1024 + 1))
    odd.write_bytes(b'a = "\xff"')
    for path, said in (
        (tmp_path, "There is no job file"),
        (tmp_path / "gone.toml", "There is no job file 'gone.toml'; look at its name"),
        (Path("job\0.toml"), "job file"),
        (large, "The job file 'large.toml' is larger than 1 MB and is not read."),
        (odd, "The job file 'odd.toml' is not UTF-8 text; save it as UTF-8."),
    ):
        with pytest.raises(JobFileError, match=said) as caught:
            read_job_file(path)
        assert len(caught.value.faults) == 1


@pytest.mark.parametrize("text", ["a = ", "a = 1\na = 2", "x = " + "[" * 5000, f"x = {'9' * 5000}"])
def test_what_is_no_toml_is_one_sentence(tmp_path: Path, text: str) -> None:
    path = tmp_path / "job.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(JobFileError, match=r"The job file 'job.toml' is not TOML: ") as caught:
        read_job_file(path)
    assert len(caught.value.faults) == 1


def test_an_empty_file_names_every_table_that_is_needed(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text("", encoding="utf-8")
    with pytest.raises(JobFileError) as caught:
        read_job_file(path)
    starts = [each.split(":")[0] for each in caught.value.faults]
    assert starts == [
        "[well]",
        "[hole]",
        "[tally]",
        "[mud]",
        "[[pipe]]",
    ]


def test_every_key_has_an_example_that_its_table_takes() -> None:
    import tomllib

    tables = {f"[{name}]": kind for name, kind in job_catalogue.TABLES.items()}
    tables |= {f"[[{name}]]": kind for name, kind in job_catalogue.LISTS.items()}
    tables["[limits]"] = LimitTable
    keys = set()
    for title, kind in tables.items():
        names = [info.alias or name for name, info in kind.model_fields.items()]
        text = "\n".join(like(title, name) for name in names)
        kind.model_validate(tomllib.loads(text))
        keys.update(names)
    assert set(LIKE) == keys | set(TOP)
