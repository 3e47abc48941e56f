"""What every test may ask for, and the same surroundings for all of them."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

for _name in [name for name in os.environ if name.startswith("TEXTUAL")] + ["NO_COLOR"]:
    os.environ.pop(_name, None)  # Textual reads these once, when it is imported
os.environ["TEXTUAL_ANIMATIONS"] = "none"
os.environ["TZ"] = "UTC"
time.tzset()

from tests import no_skips  # noqa: E402  # after the surroundings are set
from tests.drive.terminal import Terminal  # noqa: E402
from tests.screens.snapshots import Snapshots  # noqa: E402
from tests.tally.reports.witsml import schemas  # noqa: E402

FROZEN = "2026-03-14T03:12:00+01:00"
"""The moment at which every clock in a test stands still (ISO 8601, as entries hold it)."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that writes the kept pictures of screens anew."""
    parser.addoption(
        "--update-snapshots",
        action="store_true",
        help="write the kept pictures of screens anew (look at them before you commit them)",
    )


def pytest_configure(config: pytest.Config) -> None:
    """Refuse to write pictures in CI; make skipped checks fail there."""
    if config.getoption("--update-snapshots") and no_skips.in_ci():
        raise pytest.UsageError("--update-snapshots is refused where CI is set.")
    no_skips.pytest_configure(config)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say at the end what could not be held against a published schema."""
    reports = [each for some in terminalreporter.stats.values() for each in some]
    told = schemas.notice([str(getattr(each, "nodeid", "")) for each in reports])
    if told:
        terminalreporter.line(told, yellow=True, bold=True)


@pytest.fixture
def frozen_clock() -> Callable[[], str]:
    """Return a clock that stands still."""
    return lambda: FROZEN


@pytest.fixture
def snapshot(request: pytest.FixtureRequest) -> Snapshots:
    """Return what compares a screen with its kept picture."""
    return Snapshots(update=request.config.getoption("--update-snapshots"))


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Callable[..., Terminal]]:
    """Return a function that starts a program in a terminal, with a home folder of its own."""
    terminals: list[Terminal] = []

    def start_one(*command: str | Path, **given: object) -> Terminal:
        home = {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path / "config")}
        given["env"] = home | dict(given.get("env") or {})
        terminals.append(Terminal(command, **given))
        return terminals[-1]

    yield start_one
    for terminal in terminals:
        terminal.stop()
