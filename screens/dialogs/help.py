"""Help: the keys of the page, from its bindings, and what the marks mean."""

from __future__ import annotations

from textual.content import Content

from screens.dialogs.panel import Panel
from screens.ink import BOLD, QUIET, Line, line, wrap
from screens.pages.page import Page

WIDTH = 71
"""Columns of the panel beside its scroll bar."""

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
    ("expected", "calculated from what was run and typed, or a limit"),
    ("seen", "read off or typed by a person, or read from the rig's stream"),
    ("agrees", "the difference is inside its limit; the limit stands in brackets"),
    ("check", "look at it; it is near its limit or waits for somebody"),
    ("outside", "the difference is outside its limit"),
    ("OUT BY", "the count of the joints does not agree, and by how much"),
    ("GAIN LOSS", "the trip tank is outside its limit: more or less came back than expected"),
    ("TOO FAST", "the last item was lowered in less than the least time"),
    ("speed not measured", "no lowering time was entered for the last item"),
    ("missing", "wanted by the programme or the list and not there"),
    ("no limit set", "nobody has set a limit to hold it against"),
    ("witness to confirm", "done and stored; the witness has still to confirm it"),
    ("ESTIMATE", "the reading it rests on is old; read again"),
    ("hidden", "shown once the second person has given a figure of their own"),
    ("in doubt", "a zone or a shoe for which nobody can claim more"),
    ("on rack", "here and not run; set aside: it has no turn"),
    ("run", "made up and in the string"),
    ("rejected", "failed before make-up; kept with its reason"),
    ("laid down", "taken off the floor or the top of the string and put aside"),
    ("sent away", "left the location"),
    ("done", "a step that is entered; not done, not applicable: passed over, with a reason"),
    (". !", "steps: a routine one, a critical one; nothing entered yet"),
    ("x ? -", "steps: done; waits for its witness; passed over"),
    ("+ F .", "checks on the rack: passed, failed, not made"),
    ("! * =", "running list: to look at; another item than a joint; locked"),
    (">", "the cursor; on a list of rules the one that governs"),
    ("# : |", "margin: old casing, open hole, pipe; v the shoe, = the collar, . empty pipe"),
    ("( ) * *", "margin, running: beside the pipe a centralizer, scratchers alone"),
    ("s l t B T", "margin, pumping: fluids by their first letters, bottom and top plug"),
)
EVENTS = "o f a p d u s b"
ELSEWHERE = (
    ("a", "F2 person, F3 receive, F4 auto-fill float"),
    ("b", "F3 bundle, F4 weights drawn; list: build; set-up: begin again"),
    ("d", "F3 check, F4 on depth"),
    ("e", "F2 set-up, F4 tank emptied, F6 pump file, F7 write; list: earlier"),
    ("f", "F4 F5 fill the pipe; set-up: a survey from a file"),
    ("g", "F2 rig, F4 crew and hole ready, F6 waiting; list: look at"),
    ("h", "F2 handover, F4 hung off, F5 F6 read a list"),
    ("i", "F4 install, F6 try a change"),
    ("k", "F2 PIN, F4 weight, F5 F6 witness, F7 close; list: lock"),
    ("l", "F4 lay down, F6 mixing log; list: later"),
    ("m", "F3 pipe list, F4 F5 F6 pipe moved"),
    ("o", "F3 running list, F4 flow check, F7 exceptions"),
    ("p", "F4 pull out; list: put in"),
    ("q", "F3 equipment, F4 F6 the well to scale"),
    ("r", "F2 records, F4 tank, F5 rate, F6 counts; waiting: rules"),
    ("s", "F3 send away, F4 what holds it, F7 sign; list: space out"),
    ("t", "F3 totals, F4 F6 trouble, F5 mud in full; list: take out"),
    ("v", "F4 volumes, F6 pressure drawn; list: as printed"),
    ("x", "F3 F4 reject, F6 zones; set-up: take out"),
    ("y", "F4 gain and loss, F5 F6 critical step"),
    ("z", "F4 large figures, F5 F6 pass over"),
    (EVENTS, "F6, from the slurry to the bump: the events of the list, as they are due"),
)
"""Letters whose act is another one on another page, and what it is there."""


ONLY_LOOKS = "This station only watches: what is said below of entering is done at another one."
LETTERS = "steps.letters"
"""The letters that steps claim, as one act."""


class HelpPanel(Panel):
    """The keys of a page and the marks."""

    def __init__(self, of: Page) -> None:
        super().__init__("Help", _lines(of), "every act is in the palette too, ctrl+p")


def _lines(of: Page) -> list[Content]:
    lines = wrap(ONLY_LOOKS, 70, BOLD) if of.shoedown.WATCHES else []
    for question, answer in of.HELP_TEXT.answers():
        lines += [line(question, BOLD), *wrap(answer, 70), line("")]
    lines += [line("Keys of this page", BOLD)]
    lines += [each for key, what in page_keys(of) for each in _key(key, what)]
    lines += [line(""), line("On every page", BOLD)]
    lines += [each for key, what in app_keys(of) for each in _key(key, what)]
    lines += [line(""), line("Words and marks", BOLD)]
    lines += [each for mark, meaning in MARKS for each in _marked(mark, meaning)]
    lines += [line(""), line("A letter that does something else on another page", BOLD)]
    lines += [each for letter, pages in ELSEWHERE for each in _marked(letter, pages)]
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


def _key(key: str, what: str) -> list[Content]:
    return _told(key, what, 16)


def _marked(mark: str, meaning: str) -> list[Content]:
    return _told(mark, meaning, max(20, len(mark) + 2))


def _told(name: str, what: str, column: int) -> list[Content]:
    """Return a key or a mark and what it means, on as many lines as that takes."""
    first, *more = (each.plain for each in wrap(what, WIDTH - column))
    head = Line(WIDTH).put(1, name, BOLD).put(column, first).content()
    return [head, *(Line(WIDTH).put(column, each).content() for each in more)]
