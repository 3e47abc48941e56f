"""Running the command line, in this process and as one of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from click.testing import CliRunner, Result

from demo_db.play import FOLDER
from screens.cli import cli

ROOT = Path(__file__).parents[2]

JOB = FOLDER / "job.toml"


def run(*words: object) -> Result:
    """Run the command line in this process."""
    return CliRunner().invoke(cli, [str(word) for word in words], prog_name="shoedown")


def program(*words: object, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command line as a process of its own, its output no terminal."""
    return subprocess.run(
        [sys.executable, "-m", "screens.cli", *map(str, words)],
        cwd=ROOT,
        env=os.environ | environment,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        encoding="utf-8",
    )
