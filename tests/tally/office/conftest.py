"""Books of several rigs, and a PostgreSQL server of its own for the tests that want one."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from tally.book.book import Book
from tests.tally.book.invented import beginning, note, run

DEBIAN = Path("/usr/lib/postgresql")


@pytest.fixture
def book(tmp_path: Path) -> Callable[[str, int], Path]:
    """Return a function that makes a book with a name and so many joints run."""

    def make(name: str, joints: int = 2) -> Path:
        path = tmp_path / f"{name}.book"
        runs = [run(number) for number in ("SHOE", "1", "2", "3", "4")[:joints]]
        Book.create(path, [*beginning(), *runs, note(f"written on {name}")]).close()
        return path

    return make


def _program(name: str) -> str | None:
    """Return where a program of PostgreSQL lies; Debian keeps them by release, off the path."""
    places = sorted(DEBIAN.glob(f"*/bin/{name}"), reverse=True)
    return str(places[0]) if places else shutil.which(name)


def _as_server(folder: Path) -> dict[str, object]:
    """Return as whom the server runs: it refuses the superuser, who lends it another user."""
    if os.geteuid():
        return {}
    try:
        owner = pwd.getpwnam("postgres")
    except KeyError:
        owner = pwd.getpwnam("nobody")
    os.chown(folder, owner.pw_uid, owner.pw_gid)
    return {"user": owner.pw_uid, "group": owner.pw_gid, "extra_groups": []}


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """Yield the folder of a PostgreSQL server's socket; the server is this session's alone."""
    initdb, ctl = _program("initdb"), _program("pg_ctl")
    if initdb is None or ctl is None:
        pytest.skip("PostgreSQL IS NOT HERE: the office in PostgreSQL was not tested at all.")
    with tempfile.TemporaryDirectory(prefix="pg") as name:
        folder = Path(name)
        how = _as_server(folder)
        data = str(folder / "data")

        def call(*words: str) -> None:
            log = folder / "called.log"
            with log.open("ab") as out:
                done = subprocess.run(
                    words, cwd="/", stdout=out, stderr=out, timeout=60, check=False, **how
                )
            assert done.returncode == 0, log.read_text(errors="replace")

        call(
            initdb,
            "-D",
            data,
            "-U",
            "office",
            "-A",
            "trust",
            "-E",
            "UTF8",
            "--no-sync",
            "--no-locale",
        )
        options = f"-k {name} -c listen_addresses='' -c fsync=off"
        call(ctl, "-D", data, "-w", "-l", str(folder / "server.log"), "-o", options, "start")
        try:
            yield name
        finally:
            call(ctl, "-D", data, "-m", "immediate", "-w", "stop")


@pytest.fixture(scope="session")
def new_database(server: str) -> Callable[[], str]:
    """Return a function that makes an empty database and gives its address."""
    import psycopg

    numbers = count(1)

    def make() -> str:
        name = f"office{next(numbers)}"
        root = f"postgresql://office@/postgres?host={server}"
        with psycopg.connect(root, autocommit=True) as connection:
            connection.execute(f"CREATE DATABASE {name}")
        return f"postgresql://office@/{name}?host={server}"

    return make


@pytest.fixture(params=["SQLite", "PostgreSQL"])
def office_at(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Return where an office's database is to be made, in either engine."""
    if request.param == "SQLite":
        return str(tmp_path / "office.db")
    address: str = request.getfixturevalue("new_database")()
    return address
