"""Terminals of other kinds: without colour, with 256 colours, without block glyphs, too small."""

from __future__ import annotations

import re

import pytest

from tests.drive.floor import PAGES, Floor
from tests.drive.jobs import SHOEDOWN, before, book_at

THIRD = "89"
COLOURS = re.compile(rb"\x1b\[([0-9;:]*)m")
BLOCKS = re.compile("[\u2500-\u259f]")


@pytest.fixture
def book(tmp_path):
    return book_at(tmp_path / "larkspur.book", before(THIRD))


def looked_at(start, book, size=(80, 24), **env):
    """Return somebody at the keys who has seen every page, two drawings and the palette."""
    floor = Floor(start(*SHOEDOWN, book, size=size, env=env))
    floor.says(f"NEXT  joint {THIRD}")
    for key, shown in PAGES.items():
        floor.terminal.press(key)
        floor.says(shown)
    floor.asks("?", "What do I do here?")
    floor.terminal.press("escape")
    floor.terminal.wait_gone("What do I do here?")
    floor.asks("z", "z small again")
    return floor


def parameters(floor) -> list[list[str]]:
    return [
        found.decode().replace(":", ";").split(";") for found in COLOURS.findall(floor.terminal.raw)
    ]


def coloured(one: list[str], depth: str) -> bool:
    """Tell whether a drawing order names a colour of a depth: "2" true colour, "5" 256 colours."""
    return any(
        each in ("38", "48") and one[at + 1 : at + 2] == [depth] for at, each in enumerate(one)
    )


def test_without_colour_nothing_is_coloured_and_every_word_is_there(start, book):
    floor = looked_at(start, book, NO_COLOR="1")
    for one in parameters(floor):
        for at, each in enumerate(one):
            if each in ("38", "48") and one[at + 1 : at + 2] == ["2"]:
                red, green, blue = one[at + 2 : at + 5]
                assert red == green == blue, one
    assert "saved" not in floor.terminal.text()
    floor.terminal.press("f4")
    floor.says("agrees")


def test_with_256_colours_no_order_for_more_is_sent(start, book):
    floor = looked_at(start, book, TERM="xterm-256color", COLORTERM="")
    orders = parameters(floor)
    assert not any(coloured(one, "2") for one in orders)
    assert any(coloured(one, "5") for one in orders)


def test_without_block_glyphs_all_is_plain(start, book):
    floor = looked_at(start, book, size=(160, 50), SHOEDOWN_ASCII="1")
    assert BLOCKS.findall(floor.terminal.raw.decode()) == []
    assert "######" in floor.terminal.text()


def test_a_terminal_with_all_of_it_is_sent_true_colours_and_blocks(start, book):
    """The other way round, so that the checks above can fail."""
    floor = looked_at(start, book, size=(160, 50))
    assert any(coloured(one, "2") for one in parameters(floor))
    assert BLOCKS.search(floor.terminal.raw.decode())


def test_a_terminal_too_small_says_so_and_takes_keys(start, book):
    floor = Floor(start(*SHOEDOWN, book, size=(70, 20)))
    floor.says("This terminal has 70 columns and 20 rows; a page is drawn for")
    floor.says(f"NEXT  joint {THIRD}")
    floor.saves(f"{THIRD} run", "enter")
    floor.terminal.resize(80, 20)
    floor.says("This terminal has 80 columns and 20 rows")
    floor.says("brought forward")
    floor.terminal.resize(80, 24)
    floor.terminal.wait_gone("This terminal has")
