"""The command line: what each command prints, its exit codes, and one sentence for a refusal."""

from __future__ import annotations

import csv
import json
import os
import re
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import click
import pytest
from click.testing import CliRunner, Result

from demo_db.play import FOLDER, play
from screens.cli import cli
from tally.book.book import Book
from tally.job.entries.people import Note
from tally.job.figures import catalogue
from tests.drive.terminal import Terminal

ROOT = Path(__file__).parents[2]
JOB = FOLDER / "job.toml"
SENTENCE = re.compile(r"[^\n\x00-\x1f\x7f-\x9f]+[.?]\n")


def run(*words: object) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(cli, [str(word) for word in words], prog_name="shoedown")


def program(*words: object, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command line as a process of its own, its output no terminal."""
    return subprocess.run(
        [sys.executable, "-m", "screens.cli", *map(str, words)],
        cwd=ROOT,
        env=os.environ | environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )


@pytest.fixture(scope="module")
def third(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a book with a third of its string run."""
    return play(tmp_path_factory.mktemp("third") / "job.db", until="third")


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
        *("gather", "steps"),
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


# Books


def test_new_makes_a_book_that_verifies(tmp_path: Path) -> None:
    book = tmp_path / "job.db"
    done = run("new", book, "--from", JOB, "--by", "Ama Osei")
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.splitlines() == [
        "Larkspur 14, 9-5/8 in intermediate: 205 joints on location.",
        f"Book made: {book}",
    ]
    assert run("verify", book).exit_code == 0
    assert run("new", book, "--from", JOB).exit_code == 2


def test_new_tells_of_a_slurry_that_its_recipe_does_not_make(tmp_path: Path) -> None:
    lead = 'name = "lead"\nkind = "slurry"\n'
    text = JOB.read_text("utf-8").replace(lead, f'{lead}slurry_yield = "2.30 ft3/sk"\n')
    for each in JOB.parent.iterdir():
        if each.is_file():
            (tmp_path / each.name).write_bytes(each.read_bytes())
    (tmp_path / "job.toml").write_text(text, "utf-8")
    done = run("new", tmp_path / "x.db", "--from", tmp_path / "job.toml", "--by", "Ama Osei")
    doubt, water = [each for each in done.stdout.splitlines() if each.startswith("In doubt: ")]
    assert doubt.startswith("In doubt: Yield of lead is typed as 2.30 ft3/sk, but its recipe makes")
    assert "The typed one is used for the sacks" in doubt
    assert water.startswith("In doubt: Mix water of lead is not typed: ")


def test_the_login_name_stands_in_for_by(tmp_path: Path) -> None:
    book = tmp_path / "job.db"
    done = program("new", book, "--from", JOB, LOGNAME="kweku")
    assert (done.returncode, done.stderr) == (0, "")
    with sqlite3.connect(book) as connection:
        lines = connection.execute("SELECT line FROM journal").fetchall()
    connection.close()
    assert {json.loads(line)["by"] for (line,) in lines} == {"kweku"}


def test_verify_finds_a_changed_line_and_leaves_with_1(tmp_path: Path) -> None:
    book = play(tmp_path / "job.db", until="third")
    assert program("verify", book).returncode == 0
    with sqlite3.connect(book) as connection:
        triggers = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        for (name,) in triggers.fetchall():
            connection.execute(f'DROP TRIGGER "{name}"')
        connection.execute("UPDATE journal SET line = replace(line, '40.77', '40.78')")
        connection.execute("UPDATE journal SET line = line || ' ' WHERE seq = 9")
    connection.close()
    done = program("verify", book)
    assert done.returncode == 1
    assert done.stderr == ""
    assert "9" in done.stdout
    assert "FAULTS" in done.stdout


def test_verify_of_no_book_leaves_with_1() -> None:
    done = run("verify", "none.db")
    assert done.exit_code == 1
    assert "There is no book at" in done.stdout


def test_export_writes_its_files_and_says_where(third: Path, tmp_path: Path) -> None:
    done = run("export", third, "--to", tmp_path / "out")
    assert done.exit_code == 0
    first, *written = done.stdout.splitlines()
    assert first.startswith("NOT FINAL")
    paths = [Path(line.removeprefix("Written: ")) for line in written]
    assert sorted(paths) == sorted((tmp_path / "out").iterdir())
    assert {path.name for path in paths} >= {"job-tally-not-final.txt", "job-job.toml"}


def test_an_export_of_some_kinds_only(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path / "a", "--only", "job", "--only", "text").stdout
    assert {path.suffix for path in (tmp_path / "a").iterdir()} == {".toml", ".txt"}
    refused = run("export", third, "--to", tmp_path / "b", "--only", "parchment")
    assert refused.exit_code == 2
    assert 'no kind of report "parchment"; the kinds are text, csv,' in refused.stderr
    assert not (tmp_path / "b").exists()


def test_the_job_file_of_an_export_makes_the_same_set_up(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path).exit_code == 0
    again = tmp_path / "again.db"
    assert run("new", again, "--from", tmp_path / "job-job.toml").exit_code == 0
    with Book.open(third) as first, Book.open(again) as second:
        assert second.job.setup == first.job.setup


def test_the_json_of_an_export_makes_the_same_book(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path / "one", "--only", "json").exit_code == 0
    file, again = tmp_path / "one" / "job-book.json", tmp_path / "job.db"
    made = run("new", again, "--from", file)
    assert made.exit_code == 0
    assert "Book made again and verified" in made.stdout
    assert run("export", again, "--to", tmp_path / "two", "--only", "json").exit_code == 0
    assert (tmp_path / "two" / "job-book.json").read_bytes() == file.read_bytes()
    assert "already" in run("new", again, "--from", file).stderr
    assert "leave --by out" in run("new", "x.db", "--from", file, "--by", "Ama").stderr
    file.write_text(file.read_text().replace("Larkspur", "Larkspar"))
    refused = run("new", tmp_path / "third.db", "--from", file)
    assert (refused.exit_code, "Entry 1 was changed" in refused.stderr) == (2, True)
    assert not (tmp_path / "third.db").exists()


def test_a_book_is_held_against_what_it_exported(third: Path, tmp_path: Path) -> None:
    assert run("export", third, "--to", tmp_path).exit_code == 0
    page = tmp_path / "job-tally-not-final.txt"
    book_file = Path(shutil.copy(third, tmp_path / "copy.db"))
    with Book.open(book_file) as book:
        count, head = book.head
        book.record(Note(by="Ama Osei", at="2026-03-02T00:00:00+01:00", text="after the report"))
    for given in (tmp_path / "job-book.json", page, f"{count} {head[:12]}"):
        done = run("verify", book_file, "--against", given)
        assert done.exit_code == 0, done.stdout
        assert f"entries 1 to {count} exactly as reported; 1 entry came after" in done.stdout
        assert ("word for word" in done.stdout) == (given is page)
    text = page.read_text("ascii")
    page.write_text(text.replace("SHOE DEPTH  ", "SHOE DEPTH 9", 1))
    done = run("verify", book_file, "--against", page)
    assert done.exit_code == 1
    assert re.search(
        r'Line \d+ of the page reads "SHOE DEPTH 9.*this release writes "SHOE', done.stdout
    )
    listing = run("verify", book_file, "--against", tmp_path / "job-running-list.txt")
    assert "Only the count and the hash of this page were looked at." in listing.stdout
    refused = run("verify", book_file, "--against", "44 0f3a")
    assert (refused.exit_code, "at least the first 12" in refused.stderr) == (2, True)


def test_look_only_commands_leave_the_book_as_it_was(third: Path, tmp_path: Path) -> None:
    before = third.read_bytes()
    for words in (("figures", third), ("export", third, "--to", tmp_path), ("verify", third)):
        assert run(*words).exit_code == 0
    assert third.read_bytes() == before


# Figures


def test_figures_as_json_have_unit_inputs_and_origin(third: Path) -> None:
    done = run("figures", third, "--json")
    assert done.exit_code == 0
    told = json.loads(done.stdout)
    figures = {one["key"]: one for one in told["figures"]}
    assert set(figures) == set(catalogue())
    shoe = figures["shoe_depth"]
    assert (shoe["value"], shoe["unit"], shoe["text"]) == (3533.45, "ft", "3,533.45 ft")
    inputs = {one["name"]: one for one in shoe["inputs"]}
    assert inputs["String length"]["value"] - inputs["stick-up"]["value"] == pytest.approx(3533.45)
    assert inputs["stick-up"]["origin"] == "typed"
    for one in figures.values():
        assert one["missing"] or (one["value"] is not None and one["inputs"]), one["key"]
        assert {part["origin"] for part in one["inputs"]} <= {"typed", "read", "calculated"}
    assert (told["on_depth"], told["well"]) == (False, "Larkspur 14")


def test_figures_as_text_are_plain_lines(third: Path) -> None:
    done = run("figures", third)
    assert done.exit_code == 0
    assert re.search(
        r"^Shoe depth +3,533\.45 ft +string length - stick-up +\[shoe_depth\]$",
        done.stdout,
        re.MULTILINE,
    )
    assert re.search(r"^    stick-up +3\.22 ft +typed, job set-up", done.stdout, re.MULTILINE)
    assert {line for line in done.stdout if line < " "} == {"\n"}
    assert done.stdout.isascii()


def test_figures_on_a_terminal_are_a_table(third: Path, start: Callable[..., Terminal]) -> None:
    command = [sys.executable, "-m", "screens.cli", "figures", third]
    terminal = start(*command, size=(120, 2000), cwd=ROOT)
    terminal.wait_for("slurry_volume")
    assert re.search(r"Shoe depth +\| +3,533\.45 ft \| string length - stick-up", terminal.text())


# Calculations


def test_calc_lists_every_formula() -> None:
    from tally.formulas import all_formulas

    names = [line.split()[0] for line in run("calc").stdout.splitlines()]
    assert names == list(all_formulas())


def test_calc_sets_a_formula_out() -> None:
    text = run("calc", "annulus").stdout
    for part in ("purpose", "input    hole", "input    od", "output   capacity", "source", "range"):
        assert part in text


def test_calc_works_a_formula_out_and_says_what_it_read() -> None:
    done = run("calc", "annulus", "hole=12-1/4 in", "od=5")
    assert done.stdout.splitlines() == [
        "hole = 12 1/4 in",
        "od = 5 in",
        "annulus: capacity = 0.12149 bbl/ft",
    ]


def test_calc_in_metric_units_reads_bare_numbers_so() -> None:
    done = run("calc", "annulus", "hole=311.15", "od=5 in", "--units", "metric")
    assert done.stdout.splitlines() == [
        "hole = 311.15 mm",
        "od = 5 in",
        "annulus: capacity = 63.37 l/m",
    ]


def test_calc_as_json() -> None:
    told = json.loads(run("calc", "annulus", "hole=12-1/4", "od=5", "--json").stdout)
    assert told["inputs"] == {"hole": "12 1/4 in", "od": "5 in"}
    assert told["outputs"]["capacity"]["unit"] == "bbl/ft"
    assert told["outputs"]["capacity"]["value"] == pytest.approx(0.12149, abs=5e-6)
    assert {"source", "range"} <= set(told)
    assert json.loads(run("calc", "annulus", "--json").stdout)["formula"] == "annulus"


CASE = """
[[case]]
formula = "annulus"
inputs = { hole = "12-1/4 in", od = "5 in" }
expect = { capacity = "%s bbl/ft" }
kind = "published"
source = "a table somebody can open, page 3"
"""


def test_check_counts_by_kind_and_leaves_with_1_if_any_differs(tmp_path: Path) -> None:
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text(CASE % "0.12149")
    bad.write_text(CASE % "0.12150")
    done = program("calc", "--check", good)
    assert done.returncode == 0
    assert done.stdout.splitlines()[-1] == "evidence of agreement: 1 case; 0 differ"
    done = program("calc", "--check", good, bad)
    assert done.returncode == 1
    assert [line.split()[0] for line in done.stdout.splitlines()[:2]] == ["agrees", "DIFFERS"]
    assert "1 differ" in done.stdout.splitlines()[-1]


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
