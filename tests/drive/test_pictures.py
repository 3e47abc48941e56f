"""The picture maker: every word at its column, no address in it, the same picture each time."""

import re
import subprocess
import sys

from textual.app import App
from textual.widgets import Static

from tests.drive.pictures import PAGES, PICTURES, Page, draw, stale

CELL = 12.2


class Two(App[None]):
    """Two rows with wide gaps; F2 changes one of them."""

    BINDINGS = [("f2", "change", "Change")]

    def compose(self):
        yield Static("   87     41.35 <&>", markup=False)
        yield Static("[bold]88[/]", id="second")

    def action_change(self):
        self.query_one("#second", Static).update("89")


PLAIN = Page("plain", Two, size=(40, 4))
CHANGED = Page("plain", Two, keys=("f2",), size=(40, 4), theme="textual-light")


def words(picture):
    """Return the column of each group of words."""
    pattern = r"<text class=\"\S+-r\d+\" x=\"(\S+)\" y=[^>]+>(.+?)</text>"
    return {text: round(float(x) / CELL, 2) for x, text in re.findall(pattern, picture)}


def test_every_word_stands_at_its_column(tmp_path):
    (path,) = draw([PLAIN], tmp_path)
    picture = path.read_text("utf-8")
    assert words(picture) == {"87": 3, "41.35&#160;&lt;&amp;&gt;": 10, "88": 0}
    assert "url(http" not in picture
    assert "@font-face" not in picture
    assert "Fira" not in picture


def test_keys_and_theme_reach_the_picture(tmp_path):
    (path,) = draw([CHANGED], tmp_path)
    assert "89" in words(path.read_text("utf-8"))


def test_a_picture_of_an_older_screen_is_stale(tmp_path):
    assert stale([PLAIN], tmp_path) == ["plain"]
    draw([PLAIN], tmp_path)
    assert stale([PLAIN], tmp_path) == []
    assert stale([CHANGED], tmp_path) == ["plain"]


def test_the_command_refuses_to_draw_nothing(tmp_path):
    program = "from tests.drive import pictures as p; p.PAGES.clear(); p.main()"
    command = [sys.executable, "-c", program]
    done = subprocess.run([*command, tmp_path], capture_output=True, text=True)
    assert done.returncode == 2
    assert "no page is listed" in done.stderr


def test_the_pictures_of_the_readme_are_of_the_screens_as_they_are():
    assert stale(PAGES, PICTURES) == [], "run: python -m tests.drive.pictures screens/pictures"
