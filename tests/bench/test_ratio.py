"""The arithmetic of the ratios, on made samples: nothing here is timed."""

import random
from contextlib import nullcontext

import pytest

from tests.bench.ratio import (
    Measure,
    Ratio,
    Result,
    Samples,
    bootstrap,
    interleave,
    percentile_95,
    run,
    table,
)


def measure(**changed):
    given = {
        "name": "a saved joint",
        "ours": lambda: nullcontext(lambda: 0.003),
        "reference": lambda: nullcontext(lambda: 0.002),
        "against": "a bare insert",
        "limit": 1.5,
        "rounds": 5,
        "warm_up": 2,
    }
    return Measure(**(given | changed))


def noisy(middle, seed, count=300):
    draw = random.Random(seed)
    return tuple(middle * draw.lognormvariate(0, 0.3) for _ in range(count))


@pytest.mark.parametrize(("count", "rank"), [(100, 95), (300, 285), (20, 19), (21, 20), (1, 1)])
def test_the_95th_percentile_is_the_nearest_rank(count, rank):
    samples = list(range(1, count + 1))
    random.Random(0).shuffle(samples)
    assert percentile_95(samples) == rank


def test_the_ratio_of_constant_samples_is_exact():
    assert bootstrap(Samples((0.003,) * 9, (0.002,) * 9), "median") == Ratio(1.5, 1.5, 1.5)


@pytest.mark.parametrize("statistic", ["median", "95th percentile"])
def test_the_interval_holds_the_true_ratio_about_95_times_in_100(statistic):
    held = 0
    for seed in range(100):
        samples = Samples(noisy(3.0, seed), noisy(2.0, seed + 1000))
        found = bootstrap(samples, statistic, resamples=200)
        assert found.low <= found.value <= found.high
        held += found.low <= 1.5 <= found.high
    assert 88 <= held <= 100


def test_what_both_sides_of_a_round_share_cancels():
    mood = noisy(1.0, 5)
    shared = bootstrap(Samples(tuple(1.5 * m for m in mood), mood), "median")
    apart = bootstrap(Samples(tuple(1.5 * m for m in mood), noisy(1.0, 6)), "median")
    assert shared.high - shared.low < 0.01 < apart.high - apart.low


def test_the_same_samples_give_the_same_interval():
    samples = Samples(noisy(3.0, 1), noisy(2.0, 2))
    assert bootstrap(samples, "median") == bootstrap(samples, "median")


def test_samples_are_taken_in_turns_and_the_warm_up_is_forgotten():
    order = []

    def side(name):
        def sample():
            order.append(name)
            return float(len(order))

        return sample

    samples = interleave(side("A"), side("B"), rounds=2, warm_up=1)
    assert "".join(order) == "ABBAAB"
    assert samples == Samples(ours=(4.0, 5.0), reference=(3.0, 6.0))


def test_both_sides_are_set_up_and_cleared_away():
    class Room:
        def __init__(self):
            self.log = []

        def __enter__(self):
            self.log.append("in")
            return lambda: 1.0

        def __exit__(self, *_):
            self.log.append("out")

    ours, reference = Room(), Room()
    result = run(measure(ours=lambda: ours, reference=lambda: reference))
    assert ours.log == reference.log == ["in", "out"]
    assert len(result.samples.ours) == 5
    assert result.ratio.value == 1.0


@pytest.mark.parametrize(
    ("ratio", "changed", "verdict"),
    [
        (Ratio(1.2, 1.1, 1.3), {}, "within"),
        (Ratio(1.5, 1.4, 1.6), {}, "not settled"),
        (Ratio(1.7, 1.6, 1.8), {}, "above"),
        (Ratio(1.2, 1.1, 1.3), {"ceiling": 0.0025}, "above"),
        (Ratio(1.2, 1.1, 1.3), {"ceiling": 0.1}, "within"),
    ],
)
def test_a_limit_is_broken_when_the_whole_interval_lies_above_it(ratio, changed, verdict):
    result = Result(measure(**changed), Samples((0.003,), (0.002,)), ratio)
    assert result.verdict == verdict


def test_the_table_tells_everything_in_one_row():
    result = Result(measure(ceiling=0.1), Samples((0.003,), (0.002,)), Ratio(1.5, 1.4, 1.6))
    head, rule, row = table([result]).splitlines()
    assert [len(head), len(rule)] == [len(row)] * 2
    cells = [cell.strip() for cell in row.strip("|").split("|")]
    assert cells == [
        *("a saved joint", "a bare insert", "median", "3.00", "2.00"),
        *("1.50", "1.40-1.60", "1.5 and 100 ms", "5", "not settled"),
    ]


def test_an_unknown_statistic_is_refused():
    with pytest.raises(ValueError, match="'mean' is none of"):
        measure(statistic="mean")
