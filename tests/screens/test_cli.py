"""The command line: what each command prints, its exit codes, and one sentence for a refusal."""

from __future__ import annotations

import csv
import re
import subprocess
import sys
from pathlib import Path

import click
import pytest

from demo_db.play import FOLDER
from screens.cli import cli
from tests.screens.by_command import JOB, ROOT, program, run

SENTENCE = re.compile(r"[^\n\x00-\x1f\x7f-\x9f]+[.?]\n")


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, str]:
    """Return the book of a demonstration that was printed, and what was printed."""
    book = tmp_path_factory.mktemp("printed") / "job.db"
    done = program("demo", "--book", book, "--print")
    assert (done.returncode, done.stderr) == (0, "")
    return book, done.stdout


# Starting


def modules_after(*words: str) -> set[str]:
    """Return the packages loaded once a command has run in a process of its own."""
    code = (
        "import sys; from screens.cli import cli\n"
        "cli.main(sys.argv[1:], standalone_mode=False)\n"
        "print('loaded', *{name.partition('.')[0] for name in sys.modules})"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *words], cwd=ROOT, capture_output=True, text=True, check=True
    )
    return set(done.stdout.splitlines()[-1].split()[1:])


def test_the_release_loads_no_toolkit() -> None:
    loaded = modules_after("--version")
    assert "click" in loaded
    assert not loaded & {"textual", "rich", "pint", "pydantic", "sqlite_utils", "sqlite3"}


@pytest.mark.parametrize("words", [(), ("annulus",), ("annulus", "hole=12-1/4 in", "od=5")])
def test_calc_loads_no_toolkit(words: tuple[str, ...]) -> None:
    loaded = modules_after("calc", *words)
    assert not loaded & {"textual", "rich", "pydantic", "sqlite_utils", "sqlite3"}


def test_the_release() -> None:
    assert re.fullmatch(r"shoedown \d+\.\d+\.\d+\n", program("--version").stdout)


def test_every_command_and_option_has_help() -> None:
    context = click.Context(cli)
    assert set(cli.list_commands(context)) == {
        *("open", "new", "import", "figures", "calc", "export", "verify", "backup", "demo"),
        *("gather", "steps", "watch"),
    }
    for command in (cli, *cli.commands.values()):
        assert command.help, command.name
        for parameter in command.params:
            if isinstance(parameter, click.Option):
                assert parameter.help, (command.name, parameter.name)
        assert run(*([] if command is cli else [command.name]), "--help").exit_code == 0


# Refusing


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "Name the book to open"),
        (["open"], "Name the book to open"),
        (["figurs", "x.db"], 'did you mean "figures"'),
        (["nothing"], 'There is no command or book "nothing"'),
        (["none.db"], "There is no book at"),
        (["--strange"], "No such option"),
        (["figures"], "Missing argument 'BOOK'"),
        (["figures", "none.db"], "There is no book at"),
        (["figures", "."], "is a folder, not a book"),
        (["figures", "pyproject.toml"], "pyproject.toml"),
        (["verify"], "Missing argument"),
        (["export", "none.db", "--to", "x"], "There is no book at"),
        (["export", "none.db"], "Missing option '--to'"),
        (["new", "x.db"], "The screens need a terminal"),
        (["new", "none/x.db"], "There is no folder"),
        (["new", JOB], "name one that is free"),
        (["new", "x.db", "--from", "none.toml"], "There is no job file 'none.toml'"),
        (["new", "none/x.db", "--from", JOB], "No book can be made at"),
        (["new", "pyproject.toml", "--from", JOB], "There is a file at"),
        (["new", "x.db", "--from", JOB, "--by", "\x1b[31m"], "<U+001B>"),
        (["calc", "anulus"], "annulus"),
        (["calc", "annulus", "hole"], "type name=value"),
        (["calc", "annulus", "=5"], "type name=value"),
        (["calc", "annulus", "hole=9"], "still needs od"),
        (["calc", "annulus", "hole=9", "hole=9"], "given twice"),
        (["calc", "annulus", "hole=9", "od=5", "length=1"], "has no input length"),
        (["calc", "annulus", "hole=9", "od=12"], "Given: hole = 9 in, od = 12 in"),
        (
            ["calc", "annulus", "hole=8.5", "od=9"],
            "Outside diameter 9 in (0.2286 m) is not less than the hole diameter 8.5 in (0.2159 m)",
        ),
        (["calc", "annulus", "hole=85", "od=9"], "diameter 85 in (2.159 m) is outside 0.05 to "),
        (["calc", "annulus", "hole=9**9**9", "od=5"], "hole: "),
        (["calc", "annulus", "hole=" + "9" * 10_000, "od=5"], "10,000 characters"),
        (["calc", "annulus", "hole=\x1b[2J", "od=5"], "<U+001B>"),
        (["calc", "annulus", "hole=[/]", "od=5"], "[/]"),
        (["calc", "annulus", "hole=4,127", "od=5"], "4127"),
        (["calc", "--units", "furlong"], "'furlong' is not one of"),
        (["calc", "--check"], "Name the files to check"),
        (["calc", "--check", "none.toml"], "none.toml cannot be read"),
        (["\x1b[31m\x9b\u202e" + "x" * 10_000], "<U+001B>[31m<U+009B><U+202E>"),
        (["--\x1b[31m" + "x" * 10_000], "No such option '--\\x1b[31m"),
        (["demo", "--book", "pyproject.toml"], "There is a file at pyproject.toml already"),
    ],
)
def test_a_refusal_is_one_sentence(words: list[str], says: str) -> None:
    done = run(*words)
    assert done.exit_code == 2
    assert done.stdout == ""
    assert says in done.stderr
    assert SENTENCE.fullmatch(done.stderr), done.stderr
    assert len(done.stderr) < 1100
    assert isinstance(done.exception, SystemExit)


@pytest.mark.parametrize("words", [["figures", "none.db"], [], ["calc", "x"], ["--strange"]])
def test_a_refusal_of_the_real_program(words: list[str]) -> None:
    done = program(*words)
    assert (done.returncode, done.stdout) == (2, "")
    assert SENTENCE.fullmatch(done.stderr), done.stderr


def test_every_fault_of_a_job_file_is_told(tmp_path: Path) -> None:
    text = JOB.read_text("utf-8").replace("12-1/4 in", "12-1/5 in").replace('"field"', '"fild"')
    (tmp_path / "job.toml").write_text(text, "utf-8")
    done = run("new", tmp_path / "x.db", "--from", tmp_path / "job.toml", "--by", "Ama Osei")
    head, *faults = done.stderr.splitlines()
    assert done.exit_code == 2
    assert head == "The job file 'job.toml' has 3 faults."
    assert [fault.split()[0] for fault in faults] == ["[hole]", "[units]", "There"]
    assert not (tmp_path / "x.db").exists()


def test_the_screens_are_refused_without_a_terminal(third: Path) -> None:
    for words in ([third], ["open", third], ["open", "--look", third]):
        done = run(*words)
        assert done.exit_code == 2
        assert SENTENCE.fullmatch(done.stderr)
        assert "need a terminal" in done.stderr


def test_a_folder_that_cannot_be_made_is_refused(third: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    done = run("export", third, "--to", tmp_path / "file")
    assert done.exit_code == 2
    assert "cannot be written" in done.stderr


# The demonstration


def test_the_demonstration_is_printed_to_its_end(printed: tuple[Path, str]) -> None:
    book, text = printed
    assert text.startswith("FINAL CASING TALLY")
    assert "NOT FINAL" not in text
    assert re.search(r"^SHOE DEPTH +8,240\.00", text, re.MULTILINE)
    assert re.search(r"\[shoe_depth\]$", text, re.MULTILINE)
    assert text.isascii()
    assert program("verify", book).returncode == 0


def test_the_demonstration_says_where_its_files_lie(printed: tuple[Path, str]) -> None:
    book, text = printed
    lines = text.splitlines()
    assert f"Book: {book}" in lines
    assert f"Played from the files in: {FOLDER}" in lines
    written = [Path(line[9:]) for line in lines if line.startswith("Written: ")]
    names = [path.name for path in written]
    assert names[:2] == ["job-tally.txt", "job-tally.csv"]
    assert {"job-pipe-list.csv", "job-running-list.txt", "job-book.json"} <= set(names)
    assert text.startswith(written[0].read_text("ascii"))
    with written[1].open(encoding="utf-8", newline="") as file:
        assert next(csv.DictReader(file))["number"] == "shoe"


def test_the_demonstration_refuses_the_file_it_made(printed: tuple[Path, str]) -> None:
    before = printed[0].read_bytes()
    done = program("demo", "--book", printed[0], "--print")
    assert done.returncode == 2
    assert SENTENCE.fullmatch(done.stderr)
    assert printed[0].read_bytes() == before


def test_without_a_book_it_takes_a_fresh_folder(tmp_path: Path) -> None:
    done = program("demo", TMPDIR=str(tmp_path))
    (folder,) = tmp_path.iterdir()
    assert done.returncode == 0
    assert f"Book: {folder / 'demo.db'}" in done.stdout.splitlines()


def test_a_path_with_strange_letters_is_shown_as_it_is(tmp_path: Path) -> None:
    book = tmp_path / "\u00c5se.db"
    for encoding in ("utf-8", "ascii"):
        done = program("figures", book, PYTHONIOENCODING=encoding, PYTHONUTF8="0")
        assert done.returncode == 2
        assert SENTENCE.fullmatch(done.stderr)
