"""How large a list from outside may be; a file beyond one of these is refused, not read."""

from __future__ import annotations

MEGABYTE = 1024 * 1024
MOST_MEGABYTES = 10
"""Of the file itself."""
MOST_UNPACKED_MEGABYTES = 40
"""Of the parts of a spreadsheet that are read, once unpacked."""
MOST_PARTS = 1_000
"""Parts in a spreadsheet file."""
MOST_ELEMENTS = 4_000_000
"""Elements in one part of a spreadsheet."""
MOST_ROWS = 20_000
"""Rows with something in them."""
MOST_COLUMNS = 256
MOST_CELLS = 2_000_000
"""Cells of a sheet from its first to its last one, empty ones with them."""
