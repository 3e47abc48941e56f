"""Help: the keys of the page, from its bindings, and what the marks mean."""

from __future__ import annotations

from textual.content import Content

from screens.dialogs.panel import Panel
from screens.ink import BOLD, QUIET, Line, line, wrap
from screens.pages.page import Page

NAMES = {
    "question_mark": "?",
    "slash": "/",
    "full_stop": ".",
    "plus": "+",
    "enter": "Enter",
    "escape": "Esc",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "home": "Home",
    "end": "End",
}
MARKS = (
    ("agrees", "the difference is inside its limit"),
    ("check", "look at it; it is near its limit or waits for somebody"),
    ("outside", "the difference is outside its limit"),
    ("GAIN LOSS", "the trip tank is outside its limit: more or less came back than expected"),
    ("missing", "wanted by the programme and not there"),
    ("no limit set", "nobody has set a limit to hold it against"),
    ("expected", "calculated from what was run and typed, or a limit"),
    ("seen", "read off or typed by a person"),
    (". !", "steps: a routine one, a critical one; nothing entered yet"),
    ("x ? -", "steps: done; waits for its witness; passed over"),
    ("# : |", "margin: old casing, open hole, pipe; v the shoe, = the collar, . empty pipe"),
    ("( ) * *", "margin, running: beside the pipe a centralizer, scratchers alone"),
    ("s l t B T", "margin, pumping: fluids by their first letters, bottom and top plug"),
)


ONLY_LOOKS = "This station only watches: what is said below of entering is done at another one."
LETTERS = "steps.letters"
"""The letters that steps claim, as one act."""


class HelpPanel(Panel):
    """The keys of a page and the marks."""

    def __init__(self, of: Page) -> None:
        super().__init__("Help", _lines(of), "every act is in the palette too, ctrl+p")


def _lines(of: Page) -> list[Content]:
    only = wrap(ONLY_LOOKS, 70, BOLD) if of.shoedown.WATCHES else []
    lines = [*only, *wrap(of.HELP_TEXT, 70), line("")]
    lines += [_key(key, what) for key, what in page_keys(of)]
    lines += [line(""), line("On every page", BOLD)]
    lines += [_key(key, what) for key, what in app_keys(of)]
    lines += [line(""), line("Words and marks", BOLD)]
    lines += [_key(mark, meaning) for mark, meaning in MARKS]
    lines += [line("")]
    lines += wrap(
        "Shoedown is a record and a calculator. It is not a gauge, a barrier or a licensed "
        "person's decision; local codes and the programme come first.",
        70,
        QUIET,
    )
    return lines


def page_keys(of: Page) -> list[tuple[str, str]]:
    """Return the keys and acts of a page, then the letters of its steps, then what moves."""
    kinds = [kind for kind in type(of).__mro__ if issubclass(kind, Page) and kind is not Page]
    own = [each for kind in kinds for each in vars(kind).get("BINDINGS", ())]
    here = [each for each in own if of.shoedown.possible(each.id or "")]
    acts, moves = [each for each in here if each.show], [each for each in here if not each.show]
    letters = of.letters() if of.shoedown.possible(LETTERS) else []
    return [*_described(acts), *letters, *_described(moves)]


def app_keys(of: Page) -> list[tuple[str, str]]:
    """Return the keys and acts of the app."""
    bindings = [each for each in of.app.BINDINGS if of.shoedown.possible(_id(each))]
    return [*_described(bindings), ("ctrl+p", "Palette: every act by name")]


def _id(binding: object) -> str:
    return getattr(binding, "id", None) or ""


def _described(bindings: object) -> list[tuple[str, str]]:
    from textual.binding import Binding

    assert isinstance(bindings, list)
    shown = [each for each in bindings if isinstance(each, Binding) and each.id]
    return [(key_name(each.key), each.description) for each in shown]


def key_name(key: str) -> str:
    """Return a key as it is written on the keyboard."""
    parts = [
        NAMES.get(each, each.upper() if each[:1] == "f" and each[1:].isdigit() else each)
        for each in key.split(",")
    ]
    return " ".join(parts)


def _key(key: str, what: str) -> Content:
    return Line(72).put(1, key, BOLD).put(16, what).content()
