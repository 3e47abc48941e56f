"""The emulated screen: the unknown leaves no trace, frames are whole, queries are answered."""

import pytest
from textual._xterm_parser import XTermParser
from textual.events import Key

from tests.drive.emulator import Emulator
from tests.drive.escapes import foreign_sequences
from tests.drive.keys import key_bytes


def shown(*pieces: bytes, size=(12, 3)):
    """Return the rows after the pieces, and the answers that were sent."""
    answers: list[bytes] = []
    emulator = Emulator(*size, answer=answers.append)
    for piece in pieces:
        emulator.feed(piece)
    return emulator.lines(), answers


@pytest.mark.parametrize(
    "unknown",
    [b"\x1b[<u", b"\x1b[>25u", b"\x1b[?2048$p", b"\x1b[4:3m", b"\x1b]0;title\x07", b"\x1bPq\x1b\\"],
)
def test_what_pyte_does_not_know_leaves_no_trace(unknown):
    assert shown(b"a" + unknown + b"b")[0] == ["ab", "", ""]


def test_a_sequence_may_arrive_in_pieces():
    sent = b"\x1b[?1049h\x1b[<u\x1b[38;2;1;2;3mjoint \x1b[2;3H\xe2\x96\x8e 41\x1b]22;x\x1b\\.35"
    whole = shown(sent)[0]
    assert whole == ["joint", "  \u258e 41.35", ""]
    assert all(shown(sent[:cut], sent[cut:])[0] == whole for cut in range(len(sent)))


def test_a_synchronized_frame_appears_whole():
    emulator = Emulator(12, 1, answer=lambda _: None)
    emulator.feed(b"old\x1b[?2026h\x1b[1;1Hnew")
    assert emulator.lines() == ["old"]
    emulator.feed(b" row\x1b[?2026l")
    assert emulator.lines() == ["new row"]


def test_a_frame_cut_off_by_the_end_is_shown_as_far_as_it_came():
    emulator = Emulator(12, 1, answer=lambda _: None)
    emulator.feed(b"\x1b[?2026hsaved")
    emulator.finish()
    assert emulator.lines() == ["saved"]


def test_the_main_screen_comes_back():
    assert shown(b"shell\x1b[?1049hpage\x1b[?1049l")[0][0] == "shell"


def test_text_after_a_character_without_width_is_kept():
    assert shown("a\u200db".encode())[0][0] == "ab"


def test_queries_are_answered():
    _, answers = shown(b"\x1b[?2026$p\x1b[?2048$p", b"ab\x1b[6n\x1b[c")
    assert answers == [b"\x1b[?2026;2$y", b"\x1b[?2048;0$y", b"\x1b[1;3R", b"\x1b[?62;22c"]


KEYS = (
    *("enter", "escape", "tab", "shift+tab", "space", "backspace", "insert", "delete"),
    *("pageup", "pagedown", "home", "end", "up", "down", "right", "left"),
    *(f"f{number}" for number in range(1, 13)),
    *("ctrl+p", "ctrl+q", "shift+up", "ctrl+right", "a"),
)


@pytest.mark.parametrize("key", KEYS)
def test_the_toolkit_reads_each_key_as_it_is_called(key):
    parser = XTermParser()
    events = [*parser.feed(key_bytes(key).decode()), *parser.feed("")]
    assert [event.key for event in events if isinstance(event, Key)] == [key]


def test_an_unknown_key_is_refused():
    with pytest.raises(ValueError, match="'hyper' is no key of"):
        key_bytes("hyper")


def test_foreign_sequences_are_found():
    sent = b"\x1b[1mjoint\x1b[0m \x1b]52;c;aGVsbG8=\x07\x1b[2J\x07\xc2\x9b"
    assert foreign_sequences(sent) == {"C0 07": 1, "C1 9b": 1, "CSI J": 1, "OSC 52": 1}
