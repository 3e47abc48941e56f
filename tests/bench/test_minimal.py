"""The reference programs do what they are compared by, and a run tells the whole story."""

import json

import pytest

from tests.bench import __main__ as bench
from tests.bench import minimal, timed
from tests.bench.ratio import Measure
from tests.drive.terminal import ScreenFailure


def test_a_bare_insert_commits_a_row_with_the_settings_of_the_book(tmp_path):
    import sqlite3

    with minimal.bare_insert(tmp_path) as sample:
        assert sample() > 0
        other = sqlite3.connect(tmp_path / "bare.db")
        assert other.execute("SELECT count(*) FROM line").fetchone() == (1,)
        assert other.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        other.close()


def test_each_enter_adds_a_row_to_the_minimal_table():
    for rows in (0, 60):
        with timed.minimal_table(rows) as sample:
            assert sample() > 0
            assert sample() > 0


def test_a_wanted_text_that_stands_there_already_measures_nothing():
    side = timed.key_to_paint(
        timed.minimal("table", "3"), first="row 3", key="enter", wanted=lambda press: "row 2"
    )
    with side as sample, pytest.raises(ScreenFailure, match="stood there before"):
        sample()


def test_the_minimal_app_takes_its_first_key():
    with timed.minimal_start() as sample:
        assert sample() > 0


def test_a_run_prints_machine_and_table_and_keeps_its_samples(tmp_path, monkeypatch, capsys):
    def side():
        return minimal.bare_insert(tmp_path)

    def reference():
        (tmp_path / "reference").mkdir(exist_ok=True)
        return minimal.bare_insert(tmp_path / "reference")

    made = Measure(name="insert", ours=side, reference=reference, against="insert", limit=1e9)
    monkeypatch.setattr(bench, "MEASURES", [made])
    assert bench.main(["--rounds", "3", "--raw", str(tmp_path / "raw.json")]) == 0
    said = capsys.readouterr().out
    for word in ("commit ", "machine ", "disk ", "SQLite ", "harness ", "| insert ", "within"):
        assert word in said
    kept = json.loads((tmp_path / "raw.json").read_text())
    assert len(kept["samples [s]"]["insert"]["ours"]) == 3


def test_a_broken_limit_is_told_by_the_exit_code(monkeypatch):
    from contextlib import nullcontext

    made = Measure(
        name="slow",
        ours=lambda: nullcontext(lambda: 2.0),
        reference=lambda: nullcontext(lambda: 1.0),
        against="nothing",
        limit=1.5,
        rounds=3,
        warm_up=0,
    )
    monkeypatch.setattr(bench, "MEASURES", [made])
    assert bench.main([]) == 1
    assert bench.main(["--only", "no such name"]) == 2
