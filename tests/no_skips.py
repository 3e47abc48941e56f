"""A pytest plug-in: where CI is set, a check that was skipped fails the run.

A check that is expected to fail (xfail) holds nothing either and counts as skipped.
"""

from __future__ import annotations

import os

import pytest


class NoSkips:
    """Note every skipped test and module; make the run fail at the end."""

    def __init__(self) -> None:
        self.skipped: list[str] = []

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Note a skipped test."""
        self._note(report)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        """Note a skipped module."""
        self._note(report)

    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        """Turn a passing run with skipped checks into a failing one."""
        if self.skipped and session.exitstatus == pytest.ExitCode.OK:
            session.exitstatus = pytest.ExitCode.TESTS_FAILED

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        """Say which checks were skipped."""
        if self.skipped:
            terminalreporter.section("skipped checks are failures here (CI is set)", red=True)
            for name in self.skipped:
                terminalreporter.line(name)

    def _note(self, report: pytest.TestReport | pytest.CollectReport) -> None:
        if report.skipped or hasattr(report, "wasxfail"):
            self.skipped.append(report.nodeid)


def in_ci() -> bool:
    """Tell whether this is a run of the continuous checks."""
    return bool(os.environ.get("CI"))


def pytest_configure(config: pytest.Config) -> None:
    """Switch the rule on where CI is set."""
    if in_ci() and not config.pluginmanager.has_plugin("no-skips-rule"):
        config.pluginmanager.register(NoSkips(), "no-skips-rule")
