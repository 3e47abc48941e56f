"""What does not fit together in a job file: hole, space-out, fluids, programme, waiting."""

from __future__ import annotations

from pathlib import Path

import pytest

from tally.errors import JobFileError
from tally.feeds.job_file import read_job_file
from tests.tally.feeds.job_files import (
    FLUIDS,
    HOLE,
    SECTIONS,
    SPACE_OUT,
    WAITING,
    faults,
    taken,
    written,
)

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


OWN = """
[[material]]
name = "light beads"
kind = "solid"
specific_gravity = "0.70"
origin = "data sheet"
source = "maker, sheet of 2025"
"""


@pytest.mark.parametrize(
    ("changed", "fault"),
    [
        (('"0.70"', '"70"'), "[[material]] 1 name: Line 2, specific_gravity: 70 makes"),
        (('"solid"', '"salt"'), '[[material]] 1 kind: "salt" is no kind of material'),
        (('"data sheet"', '"hearsay"'), '[[material]] 1 origin: "hearsay" is no origin'),
        (('specific_gravity = "0.70"\n', ""), "[[material]] 1 name: Line 2"),
        ((OWN, OWN + OWN), "[[material]] 2 name: light beads stands twice"),
    ],
)
def test_materials_of_the_jobs_own_that_cannot_be_so(tmp_path, changed, fault):
    path = written(tmp_path)
    path.write_text(path.read_text("utf-8") + OWN.replace(*changed), "utf-8")
    with pytest.raises(JobFileError) as caught:
        read_job_file(path)
    assert any(each.startswith(fault) for each in caught.value.faults or (str(caught.value),))


def test_a_material_of_the_jobs_own_is_kept_in_its_words(tmp_path):
    path = written(tmp_path)
    path.write_text(path.read_text("utf-8") + OWN, "utf-8")
    (one,) = read_job_file(path).setup.materials
    assert (one.name, one.specific_gravity, one.origin) == ("light beads", "0.70", "data sheet")
