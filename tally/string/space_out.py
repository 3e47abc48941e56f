"""Space-out: which joints and pups put the string where it is wanted, in whole tally steps.

What is run stays. Above it go the joints in their order, some passed over; then pups, the longest
lowest; then what goes on top in any case, as a hanger and its landing joint.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from tally.string.space_out_question import Choice, Hindrance, Question, Stretch
from tally.string.space_out_search import Search

POCKET, STICK_UP, MARKER = "pocket", "stick-up", "marker"
MUST = "what has to be used"
SEVERAL = 5
PARTS = (2, 1)
"""Which part of each band is looked at first: a choice at its very edge is the last to take."""
PATIENCE = 2000
"""States looked at for one way in which a wish gives; a wide stretch far down needs more."""


def space_out(question: Question, most: int = SEVERAL) -> tuple[Choice, ...]:
    """Return the best choices of joints and pups that keep every wish, the nearest one first.

    Parameters
    ----------
    question : Question
        What is run, what is left and what is wanted, [tally steps]
    most : int
        How many choices are wanted at most

    Returns
    -------
    choices : tuple of Choice
        Nearest to what is wanted first; none where nothing fits, and `hindrances` says why

    Notes
    -----
    The rule: those are taken that keep to the inner half of every band, then any; of each those
    with the fewest changes, then the nearest. They are ranked by how near they come: the sum of
    the distances of pocket, stick-up and marker from the values wanted, of equal sums the one
    with fewer changes first; else any may come first. A
    change is a joint passed over below the last joint used, or a pup put in or taken out against
    the list. The string can be set anywhere in the band of its stick-up, so each choice stands at
    the stick-up where that sum is least, of equal sums with the pocket nearest.

    The search is exact. Lengths are whole steps, so the lengths that the lowest i joints can have
    with a of them passed over are the bits of one number, R(i, a) = R(i-1, a) << length(i) |
    R(i-1, a-1): subset sums without subsets. The string is then made up from its top down, for each
    number of changes in turn. The couplings near the top are known first, and each takes out the
    stick-ups at which it would lie in a stretch to keep clear. A branch ends where no stick-up is
    left, where R holds no length that the bands allow, or where the nearest length in R is no
    better than the worst choice kept: |length - ideal| is never more than the sum of distances.
    What proved empty is remembered. A stretch to keep clear far below the datum is known late, and
    a wide one there can make the search slow; it stays exact.

    Examples
    --------
    >>> from tally.string.space_out_question import Candidate, Wish
    >>> lengths = {"1": 4010, "2": 4120, "3": 3950}
    >>> joints = tuple(Candidate(number, steps) for number, steps in lengths.items())
    >>> pocket, stick_up = Wish(1000, 950, 1050), Wish(0, 0, 50)
    >>> best = space_out(Question(hole=9000, joints=joints, pocket=pocket, stick_up=stick_up))
    >>> [(one.used, one.left_out, one.pocket, one.stick_up) for one in best]
    [(('1', '3'), ('2',), 1040, 0), (('2', '3'), ('1',), 980, 50)]

    The first is 40 steps off, the second 20 and 50.
    """
    found: dict[tuple[tuple[str, ...], tuple[str, ...]], Choice] = {}
    for part in PARTS:
        if len(found) < most:
            for one in Search(question.inner(part)).ranked(most):
                found.setdefault((one.used, one.pups), one)
    return tuple(sorted([*found.values()][:most], key=lambda one: (one.off, one.changes)))


def hindrances(question: Question) -> tuple[Hindrance, ...]:
    """Return every wish that alone would have to give for something to fit, and by how much.

    None where something fits, or where two wishes or more would have to give. A miss is the least
    number of steps by which the ends of the wish would have to move out (of a stretch: in). More
    room takes no choice away, so the least is found by halving. Each look is given up after
    2,000 states: then a wish may be missing here, or its miss may be larger than it has to be.
    """
    if Search(question).any():
        return ()
    return (*_too_narrow(question), *_too_bound(question))


def _too_narrow(question: Question) -> Iterator[Hindrance]:
    for name, given, most in _ways_to_give(question):
        if Search(given(most), PATIENCE).any():
            yield Hindrance(name, _least(given, most))


def _least(given: Callable[[int], Question], most: int) -> int:
    """Return the least way to give that lets something fit; the most does."""
    least = 0
    while most - least > 1:
        half = (least + most) // 2
        least, most = (least, half) if Search(given(half), PATIENCE).any() else (half, most)
    return most


def _ways_to_give(
    question: Question,
) -> Iterator[tuple[str, Callable[[int], Question], int]]:
    """Yield the name of each wish, the question with it given so far, and how far is far enough."""
    far = question.hole + question.run + _most_length(question)
    yield POCKET, lambda by: replace(question, pocket=question.pocket.widened(by)), far
    yield STICK_UP, lambda by: replace(question, stick_up=question.stick_up.widened(by)), far
    if question.marker is not None:
        marker = question.marker
        yield MARKER, lambda by: replace(question, marker=marker.widened(by)), far
    for each in question.keep_clear:
        yield each.name, _narrowing(question, each), (each.bottom - each.top) // 2 + 1


def _narrowing(question: Question, stretch: Stretch) -> Callable[[int], Question]:
    def given(by: int) -> Question:
        kept = (one.narrowed(by) if one is stretch else one for one in question.keep_clear)
        return replace(question, keep_clear=tuple(kept))

    return given


def _most_length(question: Question) -> int:
    items = (*question.joints, *question.pups)
    return sum(question.top) + sum(each.length for each in items)


def _too_bound(question: Question) -> Iterator[Hindrance]:
    """Yield that what has to be used stands in the way, where something fits without it."""
    marker = question.marker_number
    joints = (replace(each, must=each.number == marker) for each in question.joints)
    pups = (replace(each, must=False) for each in question.pups)
    free = replace(question, joints=tuple(joints), pups=tuple(pups))
    if free != question and Search(free, PATIENCE).any():
        yield Hindrance(MUST, None)
