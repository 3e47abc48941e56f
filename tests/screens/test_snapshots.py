"""The pictures of screens themselves: each difference is found, and nothing is written unasked."""

import pytest
from textual.app import App
from textual.widgets import Input, Static

from tests.screens.snapshots import Snapshots, picture


class Small(App[None]):
    """Two rows of text, one of them marked; F2 changes a figure."""

    CSS = "Screen { background: #101010; color: #f0f0f0; } .marked { color: #ff8000; }"
    BINDINGS = [("f2", "change", "Change")]
    figure = "41.35"

    def compose(self):
        yield Static("joint 87", markup=False)
        yield Static(f"   {self.figure}  run", classes="marked", markup=False)

    def action_change(self):
        self.query_one(".marked", Static).update("   41.36  run")


async def test_a_picture_holds_rows_looks_and_legend():
    app = Small()
    async with app.run_test(size=(16, 3)):
        assert picture(app, "small").splitlines() == [
            "small",
            "--------",
            "joint 87",
            "   41.35  run",
            "",
            "--------",
            "aaaaaaaaaaaaaaaa",
            "bbbccccccccccccc",
            "bbbbbbbbbbbbbbbb",
            "--------",
            "a  #f0f0f0 on #101010",
            "b  blank on #101010",
            "c  #ff8000 on #101010",
        ]


async def test_a_missing_picture_fails(tmp_path):
    with pytest.raises(AssertionError, match=r"small-16x3-textual-dark\.txt is missing"):
        await Snapshots(tmp_path)(Small(), "small", size=(16, 3))
    assert not list(tmp_path.iterdir())


async def test_an_updated_picture_agrees_until_text_or_colour_changes(tmp_path):
    writer = Snapshots(tmp_path, update=True)
    await writer(Small(), "small", size=(16, 3), themes=("textual-dark", "textual-light"))
    assert [path.name for path in writer.written] == [
        "small-16x3-textual-dark.txt",
        "small-16x3-textual-light.txt",
    ]
    reader = Snapshots(tmp_path)
    await reader(Small(), "small", size=(16, 3))
    with pytest.raises(AssertionError, match=r"(?s)-   41\.35  run\n\+   41\.36  run"):
        await reader(Small(), "small", size=(16, 3), press=["f2"])

    class Paler(Small):
        CSS = Small.CSS.replace("#ff8000", "#ff9000")

    with pytest.raises(AssertionError, match="-c  #ff8000 on #101010\n\\+c  #ff9000 on #101010"):
        await reader(Paler(), "small", size=(16, 3))
    assert not reader.written


async def test_every_theme_that_differs_is_told(tmp_path):
    with pytest.raises(AssertionError) as failed:
        await Snapshots(tmp_path)(Small(), "small", themes=("textual-dark", "textual-light"))
    assert str(failed.value).count("is missing") == 2


async def test_a_cursor_is_shown_whether_it_was_on_or_off_in_its_blinking(tmp_path):
    class Field(App[None]):
        def compose(self):
            yield Input("41.35", select_on_focus=False)

    await Snapshots(tmp_path, update=True)(Field(), "field", size=(20, 3))
    app = Field()
    async with app.run_test(size=(20, 3)) as pilot:
        field = app.query_one(Input)
        field._cursor_visible = False
        await Snapshots(tmp_path).check(pilot, "field")
        assert not field.cursor_blink


async def test_the_kept_picture_of_this_harness_agrees(snapshot):
    await snapshot(Small(), "harness", size=(16, 3), themes=("textual-dark",))
