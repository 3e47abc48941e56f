"""Every command, option, key, setting and formula is documented, and the README tells the truth."""

from __future__ import annotations

import re
from pathlib import Path

import click
from textual.binding import Binding

from screens.app import ShoedownApp
from screens.cli import cli
from screens.export_files import ALL_KINDS
from tally.book import schema
from tally.feeds.job_catalogue import LISTS, TABLES
from tally.feeds.job_file import look_through
from tally.formulas import all_formulas
from tally.job.figures import all_figures
from tally.job.job import EMPTY
from tally.job.limits import LIMITS
from tally.office.views import EVERY_VIEW
from tests.docs.reference import README, pages, written

ROOT = README.parent
TEXT = README.read_text("utf-8")
VARIABLE = re.compile(r'"(SHOEDOWN_[A-Z_]+)"')
SETUP = "python3 -m venv .venv && .venv/bin/pip install -q -e "


def test_the_reference_is_as_the_program_says():
    assert written(TEXT) == TEXT, "run: python -m tests.docs --write"


def test_the_job_comes_first_in_one_paragraph():
    title, job, *_ = TEXT.split("\n\n")
    assert title.startswith("# ")
    assert "\n" not in job
    assert all(word in job for word in ("casing", "cement", "plug"))


def test_two_commands_do_all_the_set_up():
    lines = [line.strip() for line in TEXT.splitlines()]
    assert SETUP + ". && .venv/bin/shoedown demo" in lines
    assert SETUP + "'.[test]' && .venv/bin/pytest -q -n auto" in lines


def test_every_command_and_option_has_help():
    for name, command in cli.commands.items():
        assert command.help, name
        for option in command.params:
            if isinstance(option, click.Option):
                assert option.help, (name, option.opts)


def test_every_key_has_an_id_and_a_description():
    seen = set()
    for bindings in (ShoedownApp.BINDINGS, *(page.BINDINGS for _title, page in pages())):
        for each in bindings:
            assert isinstance(each, Binding)
            assert each.id, each
            assert each.description, each
            seen.add(each.id)
    assert len(seen) > 30


def test_every_limit_and_formula_stands_in_the_readme():
    for name in (*LIMITS, *all_formulas()):
        assert f"`{name}`" in TEXT, name


def test_every_export_figure_table_and_view_stands_in_the_readme():
    named = [kind.key for kind in ALL_KINDS]
    named += [figure.key for figure in all_figures(EMPTY)]
    named += [table.name for table in schema.TABLES]
    for name in (*named, *EVERY_VIEW):
        assert f"`{name}`" in TEXT, name


def test_every_environment_variable_stands_in_the_readme():
    sources = [one for room in ("tally", "screens") for one in (ROOT / room).rglob("*.py")]
    named = {name for one in sources for name in VARIABLE.findall(one.read_text("utf-8"))}
    assert named >= {"SHOEDOWN_ASCII", "SHOEDOWN_BACKUP_FOLDER"}
    assert not [name for name in (*named, "NO_COLOR") if f"`{name}" not in TEXT]


def test_every_picture_is_there():
    for name in re.findall(r"\]\((screens/pictures/[^)]+)\)", TEXT):
        assert (ROOT / name).is_file(), name


def test_the_root_holds_only_what_it_should():
    allowed = {
        "README.md",
        "DEVELOPERS.md",
        "pyproject.toml",
        "tally",
        "screens",
        "tests",
        "demo_db",
    }
    there = {one.name for one in ROOT.iterdir() if not one.name.startswith(".")}
    assert there <= allowed, there - allowed


def test_the_contributors_guide_names_every_room():
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    rooms = [one.name for one in (ROOT / "tally").iterdir() if (one / "__init__.py").is_file()]
    assert rooms
    assert not [room for room in rooms if f"{room}/`" not in guide and f"/{room}" not in guide]


def test_empty_rooms_stay_empty():
    for room in ("tally", "screens", "tally/reports"):
        assert Path(ROOT / room / "__init__.py").read_text("utf-8") == ""


def test_what_a_job_file_must_have_stands_in_the_readme():
    """By what the program asks of an empty file, and of the tables that it asks for."""
    asked = [fault.spot.table for fault in look_through({}, ROOT).faults]
    must = next(each for each in TEXT.split("\n\n") if each.startswith("A job file must have"))
    for name in asked:
        assert f"[{name}]" in must, name
        kind = {**TABLES, **LISTS}[name]
        for key, info in kind.model_fields.items():
            assert not info.is_required() or f"`{info.alias or key}`" in must, (name, key)
    for key in ("running_order", "excess_applies_to", "caliper", "hang_off"):
        assert f"`{key}`" in must, key
