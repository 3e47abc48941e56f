"""`shoedown watch`: what it refuses, in a sentence each."""

from __future__ import annotations

import socket
import sys

import pytest
from click.testing import CliRunner

from screens.cli import cli
from tests.drive.jobs import before, book_at


@pytest.fixture
def book(tmp_path):
    """Return a book a third run."""
    return book_at(tmp_path / "larkspur.book", before("89"))


def refused(*words):
    """Run the command; return its exit code and what it said, on one line."""
    done = CliRunner().invoke(cli, ["watch", *map(str, words)])
    return done.exit_code, " ".join(done.output.split())


def test_without_a_terminal_it_says_what_works_without_one(book):
    code, said = refused(book)
    assert code == 2
    assert "needs a terminal" in said
    assert "--browser" in said


@pytest.mark.parametrize("words", [(), ("--browser",)])
def test_a_book_that_is_not_there_is_refused_before_anything_else(tmp_path, words, monkeypatch):
    monkeypatch.setattr("screens.commands.watch.on_a_terminal", lambda: True)
    code, said = refused(tmp_path / "none.book", *words)
    assert code == 2
    assert said.startswith("There is no book at")


def test_without_the_extra_package_it_says_what_to_install(book, monkeypatch):
    monkeypatch.delitem(sys.modules, "screens.browser.server", raising=False)
    monkeypatch.setitem(sys.modules, "textual_serve.server", None)
    monkeypatch.setitem(sys.modules, "textual_serve", None)
    code, said = refused(book, "--browser")
    assert code == 2
    assert "pip install 'shoedown[browser]'" in said
    assert "`shoedown watch BOOK` in a terminal works without it." in said


def test_a_port_that_is_taken_is_told(book):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        code, said = refused(book, "--browser", "--port", port)
    assert code == 2
    assert said.startswith(f"Port {port} of this machine is taken")
    assert "--port" in said


@pytest.mark.parametrize("words", [("--host", "0.0.0.0"), ("--port", "80"), ("--port", "70000")])
def test_there_is_no_way_to_open_it_wider(book, words):
    code, _said = refused(book, "--browser", *words)
    assert code == 2
