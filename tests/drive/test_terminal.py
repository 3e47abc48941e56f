"""The driver itself: what it presses arrives, what it reads was painted, how it kills is proved."""

import os
import re
import sys
import time

import pytest

from tests.drive.escapes import foreign_sequences
from tests.drive.surroundings import environment
from tests.drive.terminal import ScreenFailure, Terminal

TINY = [sys.executable, "-m", "tests.drive.tiny"]
QUIT_BY_ITSELF = [sys.executable, "-c", "print('left by itself')"]


def test_keys_arrive_one_by_one_and_the_screen_is_read_back():
    with Terminal(TINY, size=(80, 24)) as terminal:
        terminal.wait_for("size 80x24.")
        for count, key in enumerate(["f4", "escape", "ctrl+p", "shift+up", "enter"], start=1):
            terminal.press(key)
            terminal.wait_for(f"key {count} {key}.")
        terminal.press("escape", "a")
        terminal.wait_for("key 7 a.")
        terminal.type("41.35")
        terminal.wait_for("key 12 5.")
        assert terminal.screen()[0] == "key 12 5."
        assert len(terminal.screen()) == 24


def test_the_program_hears_of_a_new_size_and_leaves_with_its_code():
    with Terminal(TINY, size=(80, 24)) as terminal:
        terminal.wait_for("size 80x24.")
        terminal.resize(120, 40)
        terminal.wait_for("size 120x40.")
        terminal.wait_gone("80x24")
        terminal.resize(40, 10)
        terminal.wait_for("size 40x10.")
        assert len(terminal.screen()) == 10
        terminal.press("Q")
        assert terminal.wait_exit() == 3
        assert "size" not in terminal.text(), "the alternate screen is left at the end"
        assert not foreign_sequences(terminal.raw)


def test_ten_thousand_characters_pass_without_a_jam():
    with Terminal(TINY) as terminal:
        terminal.wait_for("size")
        terminal.paste("x" * 10_000)
        terminal.wait_for("pasted 10000.")


def test_kill9_proves_the_signal_and_keeps_the_last_screen():
    with Terminal(TINY) as terminal:
        terminal.wait_for("size 80x24.")
        death = terminal.kill9()
        assert death.by_sigkill
        assert death.signal == 9
        assert death.exit_code is None
        assert "size 80x24." in terminal.text()


def test_kill9_is_no_proof_when_the_program_had_ended_by_itself():
    with Terminal(QUIT_BY_ITSELF) as terminal:
        terminal.wait_for("left by itself")
        assert terminal.wait_exit() == 0
        with pytest.raises(ScreenFailure, match="had ended before it was killed"):
            terminal.kill9()


def test_kill9_fails_when_the_program_ended_unseen():
    with Terminal(QUIT_BY_ITSELF) as terminal:
        os.waitid(os.P_PID, terminal.pid, os.WEXITED | os.WNOWAIT)
        with pytest.raises(ScreenFailure, match="signal 9 is not what ended"):
            terminal.kill9()


def test_the_time_to_a_text_ends_with_the_piece_that_completes_it():
    program = (
        "import sys, time, tty; tty.setraw(0); print('up', flush=True); sys.stdin.read(1);"
        "print('\x1b[?2026hjoint ', end='', flush=True); time.sleep(0.3);"
        "print('87\x1b[?2026l', end='', flush=True); time.sleep(0.5); print('later')"
    )
    with Terminal([sys.executable, "-c", program]) as terminal:
        terminal.wait_for("up")
        began = time.perf_counter()
        taken = terminal.time_to("joint 87", "x")
        terminal.wait_for("later")
        assert 0.3 <= taken < terminal.last_read - began - 0.1


def test_the_time_to_a_text_that_never_comes_is_a_failure():
    with Terminal(QUIT_BY_ITSELF) as terminal, pytest.raises(ScreenFailure, match="never showed"):
        terminal.time_to("no such text")


def test_a_failed_wait_shows_the_screen():
    with Terminal(TINY, size=(40, 6)) as terminal:
        terminal.wait_for("size 40x6.")
        with pytest.raises(ScreenFailure) as failed:
            terminal.wait_for("no such text", timeout=0.1)
    message = str(failed.value)
    assert "never showed 'no such text'" in message
    assert "still running; 40x6" in message
    assert re.search(r"^\|size 40x6\. +\|$", message, re.M)


def test_a_wait_ends_at_once_when_the_program_ends():
    with Terminal(QUIT_BY_ITSELF) as terminal:
        with pytest.raises(ScreenFailure, match="ended with exit code 0"):
            terminal.wait_for("no such text", timeout=60)
        assert terminal.text() == "left by itself" + "\n" * 23


def test_the_environment_is_the_same_everywhere(monkeypatch):
    for name in ("NO_COLOR", "TEXTUAL_THEME", "LC_ALL", "COLUMNS", "PYTHONDONTWRITEBYTECODE"):
        monkeypatch.setenv(name, "1")
    made = environment({"HOME": "/nowhere"})
    assert not {"NO_COLOR", "TEXTUAL_THEME", "LC_ALL", "COLUMNS"} & set(made)
    assert "PYTHONDONTWRITEBYTECODE" not in made
    assert (made["TERM"], made["HOME"]) == ("xterm-256color", "/nowhere")
