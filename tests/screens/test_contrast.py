"""The contrast check itself, against published ratios and a screen with a known fault."""

import pytest
from textual.app import App
from textual.widgets import Static

from tests.screens.cells import GROUND, INK, cells
from tests.screens.contrast import assert_contrast, luminance, pairs, ratio

XTERM = {INK: "#e5e5e5", GROUND: "#000000", "ansi 1": "#cd0000"}
W3C = "WCAG 2.1, https://www.w3.org/TR/WCAG21/#dfn-contrast-ratio: ratios range from 1 to 21"
SLIM = "slimutils.com/blog/wcag-contrast-ratio-explained, quick reference table"
MATH = "Math for Web Design, Manning, section 7.4.1, as quoted at livebook.manning.com"


@pytest.mark.parametrize(
    ("one", "other", "published", "source"),
    [
        ("#000000", "#ffffff", 21.0, W3C),
        ("#ffffff", "#ffffff", 1.0, W3C),
        ("#767676", "#ffffff", 4.54, SLIM),
        ("#0000ff", "#ffffff", 8.59, MATH),
        ("#0000ff", "#ff0000", 2.15, MATH),
    ],
)
def test_ratio_agrees_with_published_value(one, other, published, source):
    assert round(ratio(one, other), 2) == published, source
    assert ratio(one, other) == ratio(other, one)


@pytest.mark.parametrize(("color", "published"), [("#0000ff", 0.0722), ("#ff0000", 0.2126)])
def test_luminance_agrees_with_published_value(color, published):
    assert round(luminance(color), 4) == published, MATH


class Painted(App[None]):
    """Good text, poor text, a poor line, and poor colours on blanks that nobody sees."""

    CSS = """
    Screen { background: #ffffff; color: #000000; }
    #poor { color: #999999; }
    #line { color: #eeeeee; }
    #blank { color: #fefefe; background: #eeeeee; }
    """
    poor = "grey words"

    def compose(self):
        yield Static("black words")
        yield Static(self.poor, id="poor")
        yield Static("\u2502", id="line")
        yield Static("   ", id="blank")


class Sound(Painted):
    """The same without the poor text."""

    poor = ""


async def test_every_pair_with_ink_is_found():
    app = Painted()
    async with app.run_test(size=(20, 6)):
        found = {(pair.foreground, pair.graphic): pair for pair in pairs(app)}
        assert set(found) == {("#000000", False), ("#999999", False), ("#eeeeee", True)}
        poor = found["#999999", False]
        assert (poor.column, poor.row, poor.sample) == (0, 1, "grey words")
        assert poor.ratio == pytest.approx(2.85, abs=0.005)


async def test_weak_text_fails_and_is_named():
    app = Painted()
    async with app.run_test(size=(20, 6)):
        with pytest.raises(AssertionError, match=r"2\.85:1  #999999 on #ffffff .*'grey words'"):
            assert_contrast(app, text=4.5)
        assert_contrast(app, text=2.8)
        with pytest.raises(AssertionError, match="#eeeeee"):
            assert_contrast(app, text=2.8, graphics=3.0)


async def test_sound_text_passes():
    app = Sound()
    async with app.run_test(size=(20, 6)):
        assert_contrast(app, text=7.0)


async def test_reverse_and_wide_characters_are_read_as_shown():
    app = Sound()
    async with app.run_test(size=(20, 6)) as pilot:
        await pilot.app.mount(Static("[#111111 on #eeeeee reverse]a\u4e2de\u0301"))
        await pilot.pause()
        row = cells(app)[4]
    assert [cell.text for cell in row[:4]] == ["a", "\u4e2d", "", "e\u0301"]
    assert (row[0].look.foreground, row[0].look.background) == ("#eeeeee", "#111111")
    assert len(row) == 20


def test_a_colour_left_to_the_terminal_needs_a_palette():
    with pytest.raises(ValueError, match="'ansi 1' has no fixed value"):
        luminance("ansi 1")


async def test_a_theme_of_terminal_colours_is_measured_with_a_palette():
    class Plain(App[None]):
        def compose(self):
            yield Static("plain [on ansi_red]marked")

    app = Plain()
    async with app.run_test(size=(20, 6)) as pilot:
        app.theme = "ansi-dark"
        await pilot.pause()
        assert {(p.foreground, p.background) for p in pairs(app, XTERM)} == {
            (INK, GROUND),
            (INK, "ansi 1"),
        }
        assert_contrast(app, text=3.0, palette=XTERM)
