"""Books that several tests of the screens and of the command line look at."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_db.play import play


@pytest.fixture(scope="module")
def third(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a book with a third of its string run."""
    return play(tmp_path_factory.mktemp("third") / "job.db", until="third")
