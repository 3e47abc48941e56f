"""What is shipped runs outside the checkout; the rooms see only what lies below them."""

from __future__ import annotations

import pkgutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import tally

ROOT = Path(__file__).parents[1]


def run(*command, cwd=ROOT, **given):
    """Run a program that must succeed; return what it printed."""
    done = subprocess.run(command, cwd=cwd, capture_output=True, text=True, **given)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Build the wheel; nothing is fetched for it."""
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", folder, ROOT)
    (built,) = folder.glob("*.whl")
    return built


def test_the_wheel_holds_what_runs_and_no_pictures(wheel):
    with zipfile.ZipFile(wheel) as file:
        names = file.namelist()
    for needed in (
        *("screens/styles/app.tcss", "demo_db/larkspur/job.toml", "tally/units/units.txt"),
        *("tally/units/at_hand.txt", "tally/steps/plug_release.toml"),
        "tally/cement/waiting_rules.toml",
        "tally/reports/pdf/fonts/DejaVuSansCondensed-Bold.ttf",
        "tally/reports/pdf/fonts/LICENSE.txt",
    ):
        assert needed in names
    tops = {name.partition("/")[0] for name in names}
    assert {top for top in tops if ".dist-info" not in top} == {"tally", "screens", "demo_db"}
    assert not [name for name in names if "pictures" in name or "tests" in name]


def test_the_wheel_plays_the_demonstration_outside_the_checkout(wheel, tmp_path):
    place = tmp_path / "installed"
    pip = (sys.executable, "-m", "pip", "--disable-pip-version-check", "install", "-q")
    run(*pip, "--no-deps", "--no-index", "--target", place, wheel)
    surroundings = {"PYTHONPATH": str(place), "PATH": "", "HOME": str(tmp_path)}
    where = "import tally, screens, demo_db; print(tally.__file__)"
    found = run(sys.executable, "-c", where, cwd=tmp_path, env=surroundings)
    assert Path(found.strip()).is_relative_to(place)
    book = tmp_path / "demo.book"
    said = run(
        place / "bin" / "shoedown",
        "demo",
        "--print",
        "--book",
        book,
        cwd=tmp_path,
        env=surroundings,
    )
    assert "FINAL CASING TALLY" in said
    assert "Written:" in said
    assert book.is_file()


def test_all_of_tally_is_imported_without_the_toolkit():
    names = [found.name for found in pkgutil.walk_packages(tally.__path__, "tally.")]
    assert len(names) > 80
    program = (
        "import importlib, sys\n"
        "for name in sys.argv[1:]: importlib.import_module(name)\n"
        "seen = {name.split('.')[0] for name in sys.modules}\n"
        "print(sorted(seen & {'textual', 'screens', 'demo_db'}))"
    )
    assert run(sys.executable, "-c", program, *names) == "[]\n"


def test_imports_point_down():
    checker = Path(sys.executable).with_name("lint-imports")
    assert "0 broken" in run(checker)
