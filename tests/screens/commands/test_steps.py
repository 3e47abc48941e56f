"""shoedown steps: the shipped lists, and a company's own list checked."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from screens.cli import cli
from tally.steps.reading import SHIPPED, shipped
from tests.tally.steps.lists import toml


def run(*words: object) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(cli, ["steps", *map(str, words)], prog_name="shoedown")


def own(folder: Path, text: str, name: str = "own.toml") -> Path:
    """Write a list."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_every_shipped_list_has_a_line() -> None:
    lines = run().output.splitlines()
    assert [line.split()[0] for line in lines] == [each.id for each in shipped()]
    assert sum(line.endswith(", on call") for line in lines) == 8


@pytest.mark.parametrize("name", SHIPPED)
def test_a_shipped_list_has_no_fault(name: str) -> None:
    found = run("--check", Path("tally/steps") / name)
    assert (found.exit_code, found.output.count("no fault")) == (0, 1)


def test_all_faults_of_all_files_are_told_with_step_key_and_line(tmp_path: Path) -> None:
    one = own(tmp_path, toml({"page": "x"}, {"who": ""}), "one.toml")
    two = own(tmp_path, toml({"id": "two"}, {}, {"states": ["a"]}), "two.toml")
    found = run("--check", one, two)
    assert found.exit_code == 1
    told = found.output.splitlines()
    assert told[0].startswith("List own-release, key page: 'x' is no page")
    assert told[1].startswith("List own-release, step line-test, line 8, key who: ")
    assert told[2].startswith("List two, step top-plug-released, line 19, key states: ")
    assert told[-1] == f"{len(told) - 1} faults"


def test_a_figure_or_limit_that_nobody_knows_is_a_fault(tmp_path: Path) -> None:
    text = toml({"id": "two"}, {}, {"id": "let-go", "key": "j"}, {"key": "q"})
    told = run("--check", own(tmp_path, text))
    assert told.exit_code == 1
    place = "List two, step line-retest, line 32, key within"
    assert f"{place}: there is no limit 'line_band' in this program." in told.output


def test_files_without_the_check_and_the_check_without_files_are_refused() -> None:
    assert run("own.toml").exit_code == 2
    assert run("--check").exit_code == 2
    assert run("--check", "none.toml").exit_code == 1
