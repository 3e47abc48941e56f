"""The length ranges of casing: how long the joints of one delivery may be."""

from __future__ import annotations

LENGTH_RANGES = {1: ("16 ft", "25 ft"), 2: ("25 ft", "34 ft"), 3: ("34 ft", "48 ft")}
"""Shortest and longest joint of ranges 1, 2 and 3, over all.

Source: API Specification 5CT, length ranges of casing, as several pipe makers quote it; the
specification itself was not opened.
"""
