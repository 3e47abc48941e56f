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
    FLUIDS,
    HOLE,
    JOB,
    PIPE,
    SECTIONS,
    SPACE_OUT,
    WAITING,
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
    (('efficiency = "97 %"', 'efficiency = "97"'), "[pump] efficiency"),
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


ABOUT_THE_HOLE = [
    ('"90 ft"', '"110 ft"', "[[hole_section]] 1 top: 110 ft leaves a gap below the previous shoe"),
    ('"90 ft"', '"210 ft"', "[[hole_section]] 1 bottom: 200 ft is not below the top, 210 ft"),
    ('top = "200 ft"', 'top = "205 ft"', "[[hole_section]] 2 top: 205 ft is not where the sec"),
    ('"250 ft"', '"249 ft"', "[[hole_section]] 2 bottom: 249 ft is not the bottom of the hole"),
    ('"8-1/2 in"', '"8 in"', "[[hole_section]] 2 diameter: 8 in is not the diameter of the hole"),
    ('caliper', 'excess = "5 %"\ncaliper', "[[hole_section]] 2 excess: the caliper says how large"),
    ('"20 %"', '"500 %"', "[[hole_section]] 1 excess: 500 % is more than 400 %"),
    ('"9-7/8 in"', '"6 in"', "[[pipe]] 7 26 outer_diameter: 7 in does not go into the hole sec"),
    ('"60 ft"', '"240 ft"', "[[other_casing]] 1 shoe: 240 ft is not above the casing point, 240"),
    ('top = "0 ft"', 'top = "60 ft"', "[[other_casing]] 1 top: 60 ft is not above the shoe, 60 ft"),
    ('"12.415 in"', '"7 in"', "[[pipe]] 7 26 outer_diameter: 7 in does not go into the casing"),
    ('"140 ft"', '"251 ft"', "[[zone]] 1 bottom: 251 ft lies below the hole, which is 250 ft deep"),
    ('weak_at', 'pore = "12 lb/gal"\nweak_at', "[[zone]] 1 pore: 12 lb/gal is not below the 12"),
    ('"140 ft"', '"119 ft"', "[[zone]] 1 bottom: 119 ft is not below the top, 120 ft; look"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), ABOUT_THE_HOLE)
def test_sections_casings_and_zones_fit_the_hole(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert SECTIONS.count(old) == 1
    found = faults(tmp_path, (HOLE, SECTIONS.replace(old, new)))
    assert any(each.startswith(said) for each in found), found


ABOUT_THE_SPACE_OUT = [
    ('"10 ft"', '"250 ft"', "[space_out] pocket: 250 ft is not less than the hole, 250 ft deep;"),
    ('"5 ft"', '"300 ft"', "[space_out] hang_off: 300 ft is not less than the hole, 250 ft deep"),
    ('above = "2 ft"\n', "", "[[keep_clear]] 1 top: is wanted once: a depth as top, or how far"),
    ('"2 ft"\nbot', '"2 ft"\ntop = "0 ft"\nbot', "[[keep_clear]] 1 top: is wanted once: a depth"),
    ('"26.5 ft"', '"24 ft"', "[[keep_clear]] 2 bottom: 24 ft is not below the top, 24 ft; look"),
    ('"rams"', '"Slips"', "[[keep_clear]] 2 name: Slips stands twice; give each stretch a name"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "said"), ABOUT_THE_SPACE_OUT)
def test_the_space_out_fits_the_hole(tmp_path: Path, old: str, new: str, said: str) -> None:
    assert SPACE_OUT.count(old) == 1
    found = faults(tmp_path, (HOLE, SPACE_OUT.replace(old, new)))
    assert any(each.startswith(said) for each in found), found


ABOUT_FLUIDS = [
    ('name = "lead"', 'name = "Mud"', '[[fluid]] 2 name: "mud" is the fluid in the hole'),
    ('name = "lead"', 'name = "Tail"', "[[fluid]] 3 name: tail stands twice; give each fluid a na"),
    ('top = "160 ft"', 'top = "160 ft"\nlength = "9 ft"', "[[fluid]] 3 top: the length says how"),
    ('top = "160 ft"', "", "[[fluid]] 3 volume: is missing, and so are length, top and contact;"),
    ('rate = "4 bbl/min"', "", "[[fluid]] 1 rate: 8 min of contact makes a volume with a rate o"),
    ('volume = "2 bbl"', 'length = "9 ft"', "[[fluid]] 4 length: goes with what is pumped ahead"),
    ('volume = "2 bbl"', "", "[[fluid]] 5 volume: is missing, and so is that of water; give on"),
    ('"15.8 lb/gal"', '"8.3 lb/gal"', "[[fluid]] 3 density: 8.3 lb/gal is no heavier than fresh"),
    ('top = "160 ft"', 'top = "240 ft"', "[[fluid]] 3 top: 240 ft is not above the casing point"),
    ('volume = "2 bbl"', 'sack = "94 lb"', "[[fluid]] 4 sack: goes with a slurry, and water is a"),
    ('kind = "preflush"', 'kind = "displacement"', "[[fluid]] 2 kind: it stands below wash, whi"),
    ('fluid = "lead"\nmat', 'fluid = "leed"\nmat', "[[additive]] 1 fluid: there is no slurry 'le"),
    ('fluid = "lead"\nmat', 'fluid = "wash"\nmat', "[[additive]] 1 fluid: there is no slurry 'wa"),
    ('share = "4 %"', "", "[[additive]] 1 share: is missing, and so is what goes to a sack"),
    ('share = "4 %"', 'share = "4 %"\nper_sack = "1 gal/sk"', "[[additive]] 1 share: what goes"),
    ('fluid = "lead"\nsp', 'fluid = "leed"\nsp', "[[viscometer]] 2 fluid: there is no fluid 'leed"),
    ('fluid = "lead"\nspeed = "300', 'speed = "600', "[[viscometer]] 2 speed: 600 rpm of mud sta"),
    ('"0.4 in"', '"0.2 in"', "[[centralizer_load]] 2 deflection: 0.2 in is not more than 0.2 in"),
    ('"700 lbf"', '"30 lbf"', "[[centralizer_load]] 2 load: 30 lbf is not more than 300 lbf of"),
    ('what = "bow centralizer"\nk', 'what = "rigid"\nk', "[[centralizer_load]] 1 what: there are"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "said"), ABOUT_FLUIDS, ids=[each[2] for each in ABOUT_FLUIDS]
)
def test_fluids_and_centralizers_say_what_can_be(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert FLUIDS.count(old) == 1
    found = faults(tmp_path, (HOLE, FLUIDS.replace(old, new)))
    assert any(each.startswith(said) for each in found), found
    assert all(each.isascii() for each in found)


def test_good_fluids_are_taken(tmp_path: Path) -> None:
    setup = taken(tmp_path, (HOLE, FLUIDS)).setup
    assert [fluid.name for fluid in setup.fluids] == ["wash", "lead", "tail", "water", "brine"]


def test_fluids_may_be_typed_one_after_the_other(tmp_path: Path) -> None:
    wash = FLUIDS[: FLUIDS.index('[[fluid]]\nname = "lead"')]
    assert [fluid.name for fluid in taken(tmp_path, (HOLE, wash)).setup.fluids] == ["wash"]


def test_a_centralizer_kind_stands_once(tmp_path: Path) -> None:
    kind = FLUIDS[FLUIDS.index("[[centralizer_kind]]") : FLUIDS.index("[[centralizer_load]]")]
    found = faults(tmp_path, (HOLE, FLUIDS + kind))
    assert found == (
        "[[centralizer_kind]] 2 what: bow centralizer stands twice; give each centralizer one "
        "table.",
    )


def test_an_excess_asks_what_it_is_a_share_of_once_fluids_are_planned(tmp_path: Path) -> None:
    both = SECTIONS + FLUIDS.replace('\ncasing_point = "240 ft"', "")
    (found,) = faults(tmp_path, (HOLE, both))
    assert found.startswith("[programme] excess_applies_to: a section of the hole has an excess")
    plugs = ("bottom_plugs = 1", 'bottom_plugs = 1\nexcess_applies_to = "hole"')
    assert taken(tmp_path, (HOLE, both), plugs).setup.pumping.excess_applies_to == "hole"


ABOUT_THE_PROGRAMME = [
    ("", "[[fitting]] 1 joints: is missing, and so are depths and a zone; write it like joints ="),
    ('zone = "lower sand"', "[[fitting]] 1 zone: there is no zone 'lower sand'; the zones of the"),
    ('top = "9 ft"\nzone = "upper sand"', "[[fitting]] 1 zone: the line names depths too; give"),
    (
        'top = "9 ft"\nbottom = "9 ft"',
        "[[fitting]] 1 bottom: 9 ft is not below the top, 9 ft; look",
    ),
    ('joints = "4"\nevery = 2', "[[fitting]] 1 every: every 2 goes with depths or a zone; name"),
    ('zone = "upper sand"\nevery = 0', "[[fitting]] 1 every: 0 is not taken: type a whole number"),
]


@pytest.mark.parametrize(("line", "said"), ABOUT_THE_PROGRAMME)
def test_a_line_of_the_programme_says_where_in_one_way(
    tmp_path: Path, line: str, said: str
) -> None:
    found = faults(tmp_path, (HOLE, SECTIONS), ('joints = "4"\n', f"{line}\n"))
    assert len(found) == 1, found
    assert found[0].startswith(said)


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


ABOUT_THE_WAITING = [
    (
        'time = "12 h"',
        'time = "5 h"',
        "[[strength]] 2 time: 5 h is not later than 6 h of the reading above.",
    ),
    (
        "640 psi",
        "100 psi",
        "[[strength]] 2 strength: 100 psi is less than 120 psi before it; look.",
    ),
    (
        'time = "6 h"',
        'fluid = "tail"\ntime = "6 h"',
        "[[strength]] 1 fluid: there is no slurry 'tail'; the slurries are: none.",
    ),
    (
        'time = "10 h"\nstrength = "400 psi"\n',
        "",
        "[[waiting_rule]] 1 time: is missing, and so is a strength; a rule asks for one of them, "
        "or for both.",
    ),
    (
        'edition = "text of 2024"\n',
        '[[waiting_rule]]\nname = "county"\nplace = "here"\ntime = "1 h"\n',
        "[[waiting_rule]] 2 name: county stands twice; give each rule a name of its own.",
    ),
    (
        'edition = "text of 2024"',
        'need = "some"',
        '[[waiting_rule]] 1 need: "some" is no need of a waiting rule: use one of all, any.',
    ),
]


@pytest.mark.parametrize(("old", "new", "said"), ABOUT_THE_WAITING)
def test_strengths_and_waiting_rules_that_cannot_be_so(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    assert WAITING.count(old) == 1
    found = faults(tmp_path, (HOLE, WAITING.replace(old, new)))
    assert list(found) == [said]


def test_the_waiting_of_a_job_file_is_taken_over(tmp_path: Path) -> None:
    setup = taken(tmp_path, (HOLE, WAITING)).setup
    assert setup.waiting.coldest is not None
    assert setup.waiting.coldest.text == "84 degF"
    assert [one.strength.text for one in setup.strengths] == ["120 psi", "640 psi"]
    assert setup.waiting_rules[0].meanwhile == "drilling out"
