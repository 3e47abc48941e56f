"""Harmed files are taken or refused in a sentence: no crash, no half import, no hang."""

from __future__ import annotations

import pytest

from tally.errors import InputError
from tests.fuzzing.refusals import once, tried, unfit
from tests.fuzzing.targets import Target, targets

TARGETS = targets()
SEED = 20260312
FEW = 60
MANY = 100_000 // len(TARGETS)


@pytest.mark.parametrize("name", TARGETS)
def test_sound_files_are_taken(name, tmp_path):
    outcomes = [once(TARGETS[name], seed, tmp_path) for seed in TARGETS[name].seeds]
    assert any(how == "taken" for how, _ in outcomes), outcomes
    assert not [told for _, told in outcomes if told]


@pytest.mark.parametrize("name", TARGETS)
def test_a_few_harmed_files(name, tmp_path):
    for seed in (SEED, SEED + 1):
        told = tried(TARGETS[name], FEW, seed, tmp_path)
        assert told.wrong == ()
        assert told.refused > 0


@pytest.mark.long
@pytest.mark.parametrize("name", TARGETS)
def test_many_harmed_files(name, tmp_path):
    told = tried(TARGETS[name], MANY, SEED + 2, tmp_path)
    assert told.wrong == ()
    assert told.taken > 0 < told.refused


def test_a_reader_that_breaks_is_found_out(tmp_path):
    def breaks(content, _folder):
        return content.decode("ascii")

    def mumbles(content, _folder):
        raise InputError("bad")

    assert tried(Target([b"\xff"], breaks), 5, SEED, tmp_path).wrong
    assert tried(Target([b"x"], mumbles), 5, SEED, tmp_path).wrong


@pytest.mark.parametrize("told", ["no end", "with \x1b[31m in it.", "x" * 3000 + "."])
def test_what_is_no_sentence(told):
    assert unfit(told)
