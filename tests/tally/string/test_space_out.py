"""Space-out.

Must hold:
- the choices are those that trying everything finds: as many, with the same changes, as near;
- each choice adds up: its pieces, its depths, its couplings clear of every stretch;
- what must go in is in, and nothing stands in a choice that was not offered;
- where nothing fits, a wish named gives way by exactly its miss: with it something fits, with one
  step less nothing does.
"""

from dataclasses import replace
from itertools import combinations, pairwise
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from tally.string.space_out import MARKER, MUST, POCKET, STICK_UP, hindrances, space_out
from tally.string.space_out_question import Candidate, Choice, Question, Stretch, Wish


def wishes(wanted: st.SearchStrategy[int]) -> st.SearchStrategy[Wish]:
    """Draw a value wanted with up to eight steps on either side."""
    return st.builds(
        lambda value, low, high: Wish(value, value - low, value + high),
        wanted,
        st.integers(0, 30),
        st.integers(0, 30),
    )


def candidates(prefix: str, most: int, longest: int) -> st.SearchStrategy[tuple[Candidate, ...]]:
    """Draw joints or pups with numbers of their own."""
    one = st.tuples(st.integers(3, longest), st.sampled_from([False, False, False, True]))
    return st.lists(one, max_size=most).map(
        lambda drawn: tuple(
            Candidate(f"{prefix}{n}", length, must, listed=must and prefix == "P")
            for n, (length, must) in enumerate(drawn, start=1)
        )
    )


@st.composite
def questions(draw: st.DrawFn) -> Question:
    """Draw a small space-out; joints are some 20 steps long."""
    joints = draw(candidates("", 5, 24))
    run = draw(st.sampled_from([0, 30, 60]))
    stretch = st.builds(
        lambda top, length: Stretch("rams", top, top + length),
        st.integers(-8, 60),
        st.integers(0, 9),
    )
    marker = draw(st.sampled_from(["none", "run", "joint"]))
    if marker == "joint" and joints:
        number = draw(st.sampled_from(joints)).number
        joints = tuple(replace(each, must=each.must or each.number == number) for each in joints)
        about: dict[str, Any] = {
            "marker_number": number,
            "marker": draw(wishes(st.integers(0, 60))),
        }
    elif marker == "run" and run:
        about = {"marker_run": 15, "marker": draw(wishes(st.integers(run - 15, run + 70)))}
    else:
        about = {}
    return Question(
        hole=draw(st.integers(run + 10, run + 110)),
        pocket=draw(wishes(st.integers(0, 20))),
        stick_up=draw(wishes(st.integers(0, 12))),
        run=run,
        couplings=tuple(range(15, run + 1, 15)),
        joints=joints,
        pups=draw(candidates("P", 3, 9)),
        top=draw(st.sampled_from([(), (18,), (4, 18)])),
        coupling=draw(st.integers(0, 2)),
        keep_clear=tuple(draw(st.lists(stretch, max_size=2))),
        **about,
    )


def off_by(wish: Wish, value: int) -> int | None:
    """Return how far a value is from the one wanted, nothing where it will not do."""
    return abs(value - wish.wanted) if wish.low <= value <= wish.high else None


def everything(asked: Question) -> list[tuple[int, int, int]]:
    """Return part of the bands, changes and distance of every selection that will do.

    The part is 0 where it keeps to the inner half of every band; found by trying each one.
    """
    found = []
    musts = {each for each in (*asked.joints, *asked.pups) if each.must}
    for joints in subsets(asked.joints):
        for pups in subsets(asked.pups):
            if not musts <= {*joints, *pups}:
                continue
            last = asked.joints.index(joints[-1]) + 1 if joints else 0
            changes = last - len(joints) + sum((p in pups) != p.listed for p in asked.pups)
            for place, part in enumerate((2, 1)):
                some = narrowed(asked, part)
                offs = [
                    off
                    for stick_up in range(some.stick_up.low, some.stick_up.high + 1)
                    if (off := judged(some, joints, pups, stick_up)) is not None
                ]
                if offs:
                    found.append((place, changes, min(offs)))
                    break
    return sorted(found)


def narrowed(asked: Question, part: int) -> Question:
    """Return the question with each band cut down to a part on either side of what is wanted."""
    about = {
        name: Wish(
            wish.wanted,
            wish.wanted - (wish.wanted - wish.low) // part,
            wish.wanted + (wish.high - wish.wanted) // part,
        )
        for name in ("pocket", "stick_up", "marker")
        if (wish := getattr(asked, name)) is not None
    }
    return replace(asked, **about)


def subsets(items: tuple[Candidate, ...]) -> list[tuple[Candidate, ...]]:
    """Return every selection, in order."""
    return [some for count in range(len(items) + 1) for some in combinations(items, count)]


def heights(
    asked: Question, joints: tuple[Candidate, ...], pups: tuple[Candidate, ...]
) -> list[int]:
    """Return the top of every item from the shoe up; the last one is the length of the string."""
    pieces = [each.length for each in joints]
    pieces += sorted((each.length for each in pups), reverse=True)
    tops = list(asked.couplings) or [asked.run] if asked.run else []
    for length in (*pieces, *asked.top):
        tops.append((tops[-1] if tops else 0) + length)
    return tops


def judged(
    asked: Question, joints: tuple[Candidate, ...], pups: tuple[Candidate, ...], stick_up: int
) -> int | None:
    """Return how far a selection at a stick-up is from what is wanted, if it will do."""
    tops = heights(asked, joints, pups)
    shoe = (tops[-1] if tops else 0) - stick_up
    offs = [off_by(asked.pocket, asked.hole - shoe), off_by(asked.stick_up, stick_up)]
    if asked.marker is not None:
        under = [each.number for each in joints]
        at = asked.marker_run
        if at is None:
            place = under.index(asked.marker_number)
            at = asked.run + sum(each.length for each in joints[:place])
        offs.append(off_by(asked.marker, shoe - at))
    for top in tops:
        for each in asked.keep_clear:
            depth = shoe - top
            if depth <= each.bottom and depth + asked.coupling >= each.top:
                return None
    return None if None in offs else sum(off for off in offs if off is not None)


@given(questions(), st.integers(1, 5))
@settings(max_examples=150)
def test_the_choices_are_those_that_trying_everything_finds(asked: Question, most: int) -> None:
    """As many as are wanted or fewer: by part of the bands and changes, ranked by distance."""
    best = space_out(asked, most)
    wanted = sorted((off, changes) for _, changes, off in everything(asked)[:most])
    assert [(one.off, one.changes) for one in best] == wanted
    assert len({(one.used, one.pups) for one in best}) == len(best)


@given(
    st.lists(st.integers(20, 60), min_size=5, max_size=7),
    st.lists(st.integers(3, 15), min_size=1, max_size=3),
    st.integers(80, 200),
    st.integers(1, 3),
)
@settings(max_examples=50)
def test_where_many_will_do_the_nearest_are_found(
    joints: list[int], pups: list[int], hole: int, most: int
) -> None:
    """A wide band, so that most branches are cut because they come no nearer."""
    asked = Question(
        hole=hole,
        joints=tuple(Candidate(str(n), length) for n, length in enumerate(joints)),
        pups=tuple(Candidate(f"P{n}", length) for n, length in enumerate(pups)),
        pocket=Wish(10, -40, 60),
        stick_up=Wish(2, 2, 2),
    )
    best = space_out(asked, most)
    wanted = sorted((off, changes) for _, changes, off in everything(asked)[:most])
    assert [(one.off, one.changes) for one in best] == wanted


def test_one_that_meets_the_pocket_comes_before_one_at_the_edge_of_the_stick_up() -> None:
    """By hand: a pocket of 60 is a shoe at 440; 1 and 2 are 420 long, 1 and 3 are 440."""
    joints = (Candidate("1", 200), Candidate("2", 220), Candidate("3", 240))
    asked = Question(hole=500, joints=joints, pocket=Wish(60, 60, 60), stick_up=Wish(0, -20, 20))
    assert [(one.used, one.stick_up, one.changes) for one in space_out(asked)] == [
        (("1", "3"), 0, 1),
        (("1", "2"), -20, 0),
        (("2", "3"), 20, 1),
    ]


@given(questions())
@settings(max_examples=100)
def test_a_choice_gives_what_it_says(asked: Question) -> None:
    """Its own pieces put together again come out at its figures."""
    for one in space_out(asked):
        joints = tuple(each for each in asked.joints if each.number in one.used)
        pups = tuple(each for each in asked.pups if each.number in one.pups)
        tops = heights(asked, joints, pups)
        length = tops[-1] if tops else 0
        assert (one.length, one.shoe) == (length, length - one.stick_up)
        assert one.pocket == asked.hole - one.shoe
        assert one.off == judged(asked, joints, pups, one.stick_up)
        for stretch, (_, gap) in zip(asked.keep_clear, one.clear, strict=True):
            depths = [one.shoe - top for top in tops]
            gaps = [
                max(stretch.top - depth - asked.coupling, depth - stretch.bottom)
                for depth in depths
            ]
            assert gap == min(gaps, default=0)


@given(questions())
@settings(max_examples=60)
def test_a_wish_in_the_way_gives_by_its_miss_and_no_less(asked: Question) -> None:
    """With the miss something fits; with one step less nothing does."""
    told = {each.wish: each.miss for each in hindrances(asked)}
    assert not (told and space_out(asked))
    for wish, miss in told.items():
        if wish == "rams" or miss is None:
            continue
        field = {POCKET: "pocket", STICK_UP: "stick_up", MARKER: "marker"}[wish]
        own: Wish = getattr(asked, field)
        wider: dict[str, Any] = {field: own.widened(miss)}
        narrower: dict[str, Any] = {field: own.widened(miss - 1)}
        assert space_out(replace(asked, **wider))
        assert not space_out(replace(asked, **narrower))


JOINTS = tuple(Candidate(str(n), 1200 + 7 * n) for n in range(1, 7))
PLAIN = Question(
    hole=6120,
    joints=JOINTS,
    top=(600,),
    pocket=Wish(700, 600, 800),
    stick_up=Wish(50, 0, 100),
)
"""Four joints and 600 on top are 5,470 long."""


def shown(asked: Question) -> list[Choice]:
    """Return the choices."""
    return list(space_out(asked))


def test_a_must_keeps_its_joint_in() -> None:
    """Joint 6 would be spare; having to use it passes others over."""
    asked = PLAIN
    assert "6" not in shown(asked)[0].used
    bound = replace(asked, joints=(*JOINTS[:5], replace(JOINTS[5], must=True)))
    assert all("6" in one.used for one in shown(bound))


def test_a_must_in_the_way_is_named() -> None:
    """Six joints are too long for the hole; told that they have to be used, it says so."""
    asked = replace(PLAIN, joints=tuple(replace(each, must=True) for each in JOINTS))
    assert not shown(asked)
    assert MUST in [each.wish for each in hindrances(asked)]


def test_a_stretch_moves_the_string_in_its_band() -> None:
    """The coupling under the joint on top is at 600 less the stick-up."""
    asked = replace(PLAIN, keep_clear=(Stretch("rams", 540, 580),))
    for one in shown(asked):
        assert not 540 <= 600 - one.stick_up <= 580
    assert shown(replace(asked, keep_clear=()))[0].stick_up in range(20, 61)


def test_a_stretch_that_cannot_be_kept_clear_is_named_with_its_miss() -> None:
    """No stick-up from 0 to 100 brings the coupling out of 480 to 620; in by 20 each way does."""
    asked = replace(PLAIN, keep_clear=(Stretch("rams", 480, 620),))
    assert not shown(asked)
    assert [(each.wish, each.miss) for each in hindrances(asked) if each.wish == "rams"] == [
        ("rams", 21)
    ]


def test_fewest_changes_come_first() -> None:
    """However near the others are."""
    best = shown(replace(PLAIN, pups=(Candidate("P1", 60), Candidate("P2", 25))))
    assert [one.changes for one in best] == sorted(one.changes for one in best)
    assert all(a.off <= b.off for a, b in pairwise(best) if a.changes == b.changes)


def test_a_hole_out_of_reach_names_the_pocket_and_the_stick_up() -> None:
    """Each of the two alone could give."""
    told = hindrances(replace(PLAIN, hole=20_000))
    assert [each.wish for each in told] == [POCKET, STICK_UP]
