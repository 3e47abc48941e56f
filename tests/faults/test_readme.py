"""The table of faults in the README: written between its marks, and nothing else."""

from __future__ import annotations

from tests.faults.outcome import Outcome, table
from tests.faults.readme import BEGIN, END, README, written

OUTCOMES = (Outcome("killed", 20), Outcome("full", 10, ("at call 3: it is gone",)))


def test_only_what_stands_between_the_marks_changes():
    readme = f"before\n{BEGIN}\nformer\n{END}\nafter\n"
    made = written(readme, OUTCOMES, ["a machine"])
    assert made.startswith(f"before\n{BEGIN}\n")
    assert made.endswith(f"{END}\nafter\n")
    assert "former" not in made
    assert "| killed | 20 | 20 | 0 |" in made
    assert "| full | 10 | 9 | 1 |" in made


def test_the_readme_has_a_table_in_which_nothing_was_lost():
    rows = README.read_text("utf-8").split(BEGIN)[1].split(END)[0].splitlines()
    counted = [row.strip("| ").split(" | ") for row in rows if row.startswith("| ")][2:]
    assert len(counted) > 8
    assert all(row[1] == row[2] and row[3] == "0" for row in counted)


def test_the_printed_table_names_what_was_wrong():
    lines = table(OUTCOMES).splitlines()
    assert lines[1].split()[-3:] == ["20", "20", "0"]
    assert lines[2].split()[-3:] == ["10", "9", "1"]
    assert lines[3] == "  at call 3: it is gone"
