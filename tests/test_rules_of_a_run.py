"""The rules of a test run: nothing is skipped in CI, pictures are never written there."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PASSES = "def test_passes():\n    assert True\n"
SKIPS = "import pytest\n\ndef test_skips():\n    pytest.skip('no such tool')\n"
XFAILS = "import pytest\n\n@pytest.mark.xfail\ndef test_is_let_off():\n    assert False\n"
MODULE_SKIPS = "import pytest\n\npytest.importorskip('no_such_module')\n" + PASSES


def run(folder, *texts, ci, options=()):
    """Run pytest on test files with these texts; return exit code and output."""
    for number, text in enumerate(texts):
        (folder / f"test_{number}.py").write_text(text)
    surroundings = {name: value for name, value in os.environ.items() if name != "CI"}
    surroundings |= {"CI": "true"} if ci else {}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "tests.no_skips", "--rootdir", folder]
    done = subprocess.run(
        [*command, *options, folder], cwd=ROOT, env=surroundings, capture_output=True, text=True
    )
    return done.returncode, done.stdout + done.stderr


def test_skipped_checks_fail_where_ci_is_set(tmp_path):
    texts = (PASSES, SKIPS, XFAILS, MODULE_SKIPS)
    code, said = run(tmp_path, *texts, ci=True)
    assert code == 1
    listed = said.partition("skipped checks are failures here")[2]
    assert [name for name in ("test_0", "test_1", "test_2", "test_3") if name in listed] == [
        "test_1",
        "test_2",
        "test_3",
    ]
    assert run(tmp_path, *texts, ci=False)[0] == 0


def test_a_run_without_skips_passes_in_ci(tmp_path):
    assert run(tmp_path, PASSES, ci=True)[0] == 0


def test_pictures_are_never_written_in_ci():
    command = [sys.executable, "-m", "pytest", "-q", "--update-snapshots", "tests/screens"]
    surroundings = os.environ | {"CI": "true"}
    done = subprocess.run(command, cwd=ROOT, env=surroundings, capture_output=True, text=True)
    assert done.returncode == pytest.ExitCode.USAGE_ERROR
    assert "refused where CI is set" in done.stdout + done.stderr
