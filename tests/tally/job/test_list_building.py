"""A running list built by rules: what goes where, what is refused, and what always holds."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tally.errors import InputError
from tally.job.entries.pipe import Received
from tally.job.entries.rack import OrderSet
from tally.job.entries.running import Rejected
from tally.job.list_building import build
from tally.job.list_warnings import list_warnings
from tally.job.naming import in_short
from tally.job.order_rules import AS_IT_LIES, LAST_FIRST, OrderRules, Place
from tally.job.running_list import drafted, slots, wanted_length
from tally.job.setup import Planned
from tally.units import read
from tests.tally.job.invented import Telling, arrivals, pipe, setup

HEAVY = pipe("9-5/8 53.5", "8.535 in", "53.5 lb/ft")


def piece(number, kind, length=300):
    return Planned(number=number, kind=kind, length=length, typed=f"{length / 100:.2f}")


def told(*pieces, point="486 ft", joints=12, pipes=None):
    """Return a job with pieces beside the shoe and the collar, and joints on the rack."""
    plan = setup(items=(*setup().items, *pieces), order=(), pipes=pipes or (pipe(),))
    depth = read(point, "length")
    plan = replace(
        plan, hole=replace(plan.hole, casing_point=depth, depth=read("900 ft", "length"))
    )
    return Telling().starts(plan, joints)


def order_of(told, **rules):
    return in_short(build(told.job, OrderRules(**rules)).order)


def test_shoe_track_and_collar_come_first_and_are_locked():
    built = build(told().job, OrderRules())
    assert in_short(built.order) == "S1, 1, 2, C1, 3-12"
    assert built.locked == ("S1", "1", "2", "C1")


def test_the_shoe_track_takes_as_many_joints_as_the_rules_say_or_the_ones_named():
    assert order_of(told(), shoe_track=3) == "S1, 1-3, C1, 4-12"
    assert order_of(told(), track=("9", "4")) == "S1, 9, 4, C1, 1-3, 5-8, 10-12"


def test_a_collar_with_a_place_goes_into_the_shoe_track():
    landing_collar = piece("C2", "collar")
    built = order_of(told(landing_collar), places=(Place(number="C2", above=1),))
    assert built == "S1, 1, C2, 2, C1, 3-12"


def test_joints_follow_their_numbers_not_the_letters_in_them():
    late = [replace(one, number=f"A{one.number}") for one in arrivals(9, 11)]
    job = told(joints=10, point="700 ft")
    job.says(Received, items=tuple(late))
    assert order_of(job) == "S1, 1, 2, C1, 3-10, A9-A11"


def test_joints_follow_the_rack_as_it_lies_or_the_other_way_round():
    job = told(joints=0 + 2)
    job.says(Received, items=tuple(reversed(arrivals(3, 6))))
    assert order_of(job, sorting=AS_IT_LIES) == "S1, 1, 2, C1, 6, 5, 4, 3"
    assert order_of(job, sorting=LAST_FIRST) == "S1, 3, 4, C1, 5, 6, 2, 1"


@pytest.mark.parametrize(
    ("place", "order"),
    [
        (Place(number="M1", above=5), "S1, 1, 2, C1, 3-5, M1, 6-12"),
        (Place(number="M1", depth=read("362 ft", "length")), "S1, 1, 2, C1, 3, M1, 4-12"),
        (Place(number="M1", depth=read("345 ft", "length")), "S1, 1, 2, C1, 3, M1, 4-12"),
        (Place(number="M1", depth=read("340 ft", "length")), "S1, 1, 2, C1, 3, 4, M1, 5-12"),
    ],
)
def test_a_marker_goes_above_its_joint_or_nearest_to_its_depth(place, order):
    """Joint 3 ends at 362.11 and joint 4 at 321.83: 341.97 lies half way."""
    assert order_of(told(piece("M1", "marker")), places=(place,)) == order


def test_a_crossover_goes_where_the_pipe_changes():
    job = told(piece("X1", "crossover"), joints=6, point="700 ft", pipes=(pipe(), HEAVY))
    job.says(Received, items=arrivals(7, 12, pipe=HEAVY.name))
    assert order_of(job) == "S1, 1, 2, C1, 3-6, X1, 7-12"
    assert list_warnings(drafted(job.job, build(job.job, OrderRules())))[:-1] == ()


def test_a_section_ends_under_its_crossover_and_its_joints_left_are_spares():
    job = told(piece("X1", "crossover"), joints=6, point="330 ft", pipes=(pipe(), HEAVY))
    job.says(Received, items=arrivals(7, 12, pipe=HEAVY.name))
    rules = {
        "pipes": (HEAVY.name, pipe().name),
        "places": (Place(number="X1", above=4),),
    }
    assert order_of(job, **rules) == "S1, 7, 8, C1, 9, 10, X1, 1-6, 11, 12"


def test_pups_that_fit_go_in_last_and_hanger_and_landing_joint_on_top():
    pieces = (piece("P1", "pup", 500), piece("P2", "pup", 1000), piece("P3", "pup", 900))
    top = (piece("L1", "landing joint", 3000), piece("H1", "hanger", 200))
    job = told(*pieces, *top, point="297 ft")
    built = build(job.job, OrderRules())
    assert in_short(built.order) == "S1, 1, 2, C1, 3-6, P2, P3, H1, L1, 7-12, P1"
    last = next(slot for slot in slots(drafted(job.job, built)) if slot.item.number == "L1")
    assert 0 <= wanted_length(job.job) - last.to_here < 1000


def test_joints_the_casing_point_does_not_need_come_after_the_hanger():
    job = told(piece("H1", "hanger", 200), point="300 ft")
    assert order_of(job) == "S1, 1, 2, C1, 3-8, H1, 9-12"


def test_joints_kept_for_the_slips_are_set_aside():
    built = build(told().job, OrderRules(left_out=("10", "11", "12")))
    assert built.aside == ("10", "11", "12")
    assert in_short(built.order) == "S1, 1, 2, C1, 3-9"


def test_what_is_run_stays_and_the_rest_is_built_on_it():
    job = told(piece("M1", "marker"))
    job.runs("S1", "2", "1", "C1", "5", despite="as it lay")
    job.says(Rejected, number="4", reason="drift")
    built = build(job.job, OrderRules(places=(Place(number="M1", above=4),)))
    assert in_short(built.order) == "S1, 2, 1, C1, 5, 3, M1, 6-12"
    assert built.locked == ("S1", "2", "1", "C1", "5")


@pytest.mark.parametrize(
    ("rules", "said"),
    [
        ({"sorting": "by colour"}, "'by colour' is no order; use one of by number, as the rack"),
        ({"shoe_track": -1}, "A shoe track has no joint or more; type 0 or more."),
        ({"left_out": ("99",)}, "There is no item 99 in the book; look at the number."),
        ({"left_out": ("4",)}, "4 was rejected; it cannot be in the list."),
        ({"left_out": ("S1",)}, "S1 is in the string already; it cannot be left out."),
        ({"track": ("C1",)}, "C1 is a collar; the shoe track takes joints only."),
        ({"track": ("5",), "left_out": ("5",)}, "5 is named twice in the rules; it has one place."),
        ({"pipes": ("7 in",)}, "There is no pipe '7 in' in the job; it has 9-5/8 47."),
        ({"places": (Place(number="5"),)}, "5 has no place; name the joint under it or a depth."),
    ],
)
def test_rules_that_cannot_be_are_refused(rules, said):
    job = told()
    job.runs("S1", despite="as it lay")
    job.says(Rejected, number="4", reason="drift")
    with pytest.raises(InputError) as refused:
        build(job.job, OrderRules(**rules))
    assert said in str(refused.value)


def test_a_built_list_is_set_without_a_question():
    job = told(piece("M1", "marker"))
    rules = OrderRules(places=(Place(number="M1", above=5),), left_out=())
    built = build(job.job, rules)
    after = job.says(OrderSet, order=built.order, locked=built.locked, rules=rules, reason="built")
    assert after.list_rules == rules
    assert after.order == built.order


numbers = st.sampled_from([str(n) for n in range(1, 13)])
RULES = st.builds(
    OrderRules,
    sorting=st.sampled_from(("by number", AS_IT_LIES, LAST_FIRST)),
    shoe_track=st.integers(0, 4),
    places=st.tuples(
        st.one_of(
            st.integers(1, 14).map(lambda n: Place(number="M1", above=n)),
            st.floats(1, 480).map(
                lambda d: Place(number="M1", depth=read(f"{d:.2f} ft", "length"))
            ),
        )
    ),
    left_out=st.lists(numbers, max_size=3, unique=True).map(tuple),
)


@settings(max_examples=60, deadline=None)
@given(rules=RULES, run=st.integers(0, 6), point=st.integers(60, 520))
def test_a_built_list_holds_everything_once_and_builds_again_the_same(rules, run, point):
    job = told(
        piece("M1", "marker"), piece("P1", "pup", 700), piece("H1", "hanger"), point=f"{point} ft"
    )
    for number in ("S1", "1", "2", "C1", "3", "4")[:run]:
        job.runs(number, despite="as it lay")
    if any(job.job.items[one].state == "run" for one in rules.left_out):
        return
    built = build(job.job, rules)
    on_hand = {one for one, item in job.job.items.items() if item.state in ("on rack", "run")}
    assert sorted((*built.order, *rules.left_out)) == sorted(on_hand)
    assert built.order[:run] == tuple(made.number for made in job.job.string)
    assert built.order[0] == "S1"
    after = drafted(job.job, built)
    free = [slot for slot in slots(after) if not slot.run and slot.item.number not in built.locked]
    needed = [slot for slot in free if not slot.spare]
    wants = wanted_length(job.job)
    assert all(slot.to_here - slot.length < wants for slot in needed)
    assert [slot.spare for slot in free] == sorted(slot.spare for slot in free)
    assert build(after, rules) == built
