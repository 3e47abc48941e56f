"""The keys and the texts that a walk over the pages draws from."""

from __future__ import annotations

from tests.screens.driving import HOSTILE

LEAVE = ("f10", "ctrl+q")
TURNS = ("f2", "f3", "f4", "f4", "f4", "f5", "f6", "f6", "f6", "f7", "f8")
READS = ("question_mark", "f9", "ctrl+p", "up", "pageup", "home", "end")
"""Keys that only show something: they come from ANY_KEY often enough."""

PIN = "2468"
ODD = (*HOSTILE, "two\nlines", "\t", "\x00\x07", "e\u0301", "\u4e95\u6238", "'; --", "=1+1", "")
WORDS = ("as told", "thread", "1", "12", "41.35", "88", "10.2 lb/gal", "9 5/8 in", "0", "-1", "1-5")
FILES = ("pipe_list.csv", "no such file", "pumping.csv", "job.toml")

AMOUNTS = {
    "bbl": ("0.5", "4", "60", "212.4", "1 m3"),
    "psi": ("0", "350", "900", "3600", "15 bar"),
    "klbf": ("20", "180", "310"),
    "bbl/min": ("0", "2", "6"),
    "lb/gal": ("8.33", "10.2", "15.8"),
    "ft": ("3.22", "41.35", "900", "12 m"),
    "in": ("8.525", "8 1/2"),
    "%": ("5", "20"),
    "min": ("5", "90"),
}

ANY_KEY = (
    *(f"f{number}" for number in range(2, 10)),
    *("up", "down", "left", "right", "home", "end", "pageup", "pagedown", "tab", "shift+tab"),
    *("enter", "escape", "backspace", "delete", "space", "insert", "f1", "f11", "f12"),
    *("ctrl+a", "ctrl+c", "ctrl+k", "ctrl+u", "ctrl+w", "ctrl+v", "ctrl+x", "ctrl+p", "ctrl+e"),
    *"abcdefghijklmnopqrstuvwxyzABCXYZ0123456789?/.,-+*'\"[]",
)
