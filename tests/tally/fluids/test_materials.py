"""The materials: what the list holds, where each value stands, and what a bad list is told."""

import csv
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tally.errors import InputError, JobFileError
from tally.fluids.material import FRESH_WATER
from tally.fluids.material_rows import COLUMNS, ORIGINS, parse_materials
from tally.fluids.materials import find_material, materials
from tally.units import to_unit

HEAD = ",".join(COLUMNS[:11])
GOOD = "dune sand,sand of the dune,solid,,2.6,,,,,measured,our laboratory"
SALT = find_material("NaCl")


def row(**cells):
    """Return the good row with some cells changed."""
    titles = HEAD.split(",")
    return ",".join(
        cells.get(title, good) for title, good in zip(titles, GOOD.split(","), strict=True)
    )


def faults_of(*rows, head=HEAD):
    with pytest.raises(JobFileError) as refused:
        parse_materials("\n".join([head, *rows]))
    assert refused.value.faults[0] in str(refused.value)
    return refused.value.faults


@pytest.mark.parametrize("each", materials(), ids=lambda each: each.name)
def test_every_value_says_where_it_stands(each):
    assert each.origin in ORIGINS
    assert len(each.source) >= len("from memory")
    assert (each.water is None) == (each.water_source == "") == (each.water_origin == "")
    assert 900 < each.density < 6000


@pytest.mark.parametrize("letter", "ABCDEFGH")
def test_every_class_of_cement_has_its_water(letter):
    cement = find_material(f"class {letter}")
    assert cement.kind == "cement"
    assert to_unit(1 / cement.absolute_volume, "lb/gal") == pytest.approx(3.14 * 8.33)
    assert 4.2 < to_unit(cement.water, "gal/sk") < 6.4


def test_class_g_takes_the_water_that_most_sources_give():
    assert to_unit(find_material("G").water, "gal/sk") == pytest.approx(4.97, abs=0.005)


def test_bentonite_asks_for_its_water_by_the_percent():
    assert to_unit(find_material("bentonite").water * 0.04, "gal/sk") == pytest.approx(2.6)


def test_a_name_that_is_not_there_gets_the_near_ones():
    with pytest.raises(InputError, match=r"bentonit.*near it: bentonite"):
        find_material("bentonit")


def test_a_material_of_the_user_goes_before_ours():
    own = parse_materials(f"{HEAD}\n{row(name='barite', specific_gravity='4.1')}")
    assert find_material("Barite", own).density == pytest.approx(4.1 * FRESH_WATER)
    assert find_material("Barite").density == pytest.approx(4.23 * FRESH_WATER)
    assert find_material("sand of  the DUNE", own).name == "barite"


@given(st.floats(0.0, 0.5))
def test_a_dissolved_salt_takes_more_room_the_stronger_the_water(share):
    low, high = SALT.dissolved[0][1], SALT.dissolved[-1][1]
    assert low <= SALT.volume_by_mass(share) <= high
    assert SALT.volume_by_mass(share) <= SALT.volume_by_mass(share + 0.01) + 1e-18


def test_the_table_of_salt_is_hit_and_runs_straight_between():
    by_share = dict(SALT.dissolved)
    assert to_unit(SALT.volume_by_mass(0.15), "gal/lb") == pytest.approx(0.0405)
    assert SALT.volume_by_mass(0.14) == pytest.approx((by_share[0.13] + by_share[0.15]) / 2)
    assert SALT.strongest == 0.37


def test_our_list_has_only_the_columns_that_are_said():
    text = (files("tally.fluids") / "materials.csv").read_text("utf-8")
    assert sorted(next(csv.reader(text.splitlines()))) == sorted(COLUMNS)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"kind": "powder"}, 'Line 2, kind: "powder" is none of cement, solid'),
        ({"origin": "rumour"}, 'Line 2, origin: "rumour" is none of read'),
        ({"source": ""}, "Line 2, source: fill it in."),
        ({"specific_gravity": ""}, "Line 2, specific_gravity: fill it in, or absolute_volume."),
        ({"specific_gravity": "-2"}, "Line 2, specific_gravity: "),
        ({"specific_gravity": "26"}, "Line 2, specific_gravity: 26 makes 25,952 kg/m3"),
        ({"specific_gravity": "0"}, "Line 2, specific_gravity: 0 makes"),
        ({"absolute_volume": "0.0382"}, "Line 2, absolute_volume: "),
        ({"absolute_volume": "9 gal/lb"}, "Line 2, absolute_volume: 9 gal/lb makes"),
        ({"water": "5 gal/sk"}, "Line 2, water_per: say what 5 gal/sk is for"),
        ({"water": "5 bbl", "water_per": "sack"}, "Line 2, water: "),
        ({"water": "5 gal/sk", "water_per": "day"}, 'Line 2, water_per: "day" is none of'),
        ({"sack": "94"}, "Line 2, sack: "),
        ({"share_of_water": "15 %"}, "Line 2, share_of_water: only a salt has one."),
        ({"name": "dune\x1bsand"}, "Line 2, name: "),
        ({"source": "a, b"}, 'Line 2, after the last column: "b" belongs to none'),
    ],
)
def test_a_doubtful_row_is_told_by_line_and_column(changed, said):
    assert any(fault.startswith(said) for fault in faults_of(row(**changed)))


def test_every_fault_is_told_at_once():
    faults = faults_of(GOOD, row(kind="powder"), "", row(name="other", sack="heavy"))
    assert [fault.split(",")[0] for fault in faults] == ["Line 3", "Line 5"]


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("name,kind,origin", "it lacks source"),
        (HEAD + ",colour", "colour is none"),
        (HEAD + ",name", "stands there twice"),
        ("", "it lacks name, kind, origin, source"),
    ],
)
def test_columns_that_do_not_fit_are_told(head, said):
    assert said in faults_of(GOOD, head=head)[0]


def test_a_list_without_a_material_is_told():
    assert "no material" in faults_of("", " , , ")[0]


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ([GOOD, GOOD], 'Line 3, name: "dune sand" stands there twice.'),
        (
            [row(kind="salt", share_of_water="5 %"), row(kind="salt", share_of_water="5 %")],
            "Line 3, share_of_water: dune sand has it twice.",
        ),
        (
            [row(kind="salt", share_of_water="5 %"), row(kind="salt")],
            'Line 3, name: "dune sand" stands there twice.',
        ),
    ],
)
def test_what_stands_there_twice_is_told(rows, said):
    assert faults_of(*rows) == (said,)


def test_a_salt_of_the_user_gets_its_table_whatever_the_order():
    strong = row(kind="salt", share_of_water="20 %", specific_gravity="2.5")
    weak = row(kind="salt", share_of_water="10 %", specific_gravity="3")
    (salt,) = parse_materials(f"{HEAD}\n{strong}\n{weak}")
    assert [share for share, _ in salt.dissolved] == [0.1, 0.2]
