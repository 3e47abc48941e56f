"""Harmed files by the thousand: `python -m tests.fuzzing [TARGET] [COUNT] [SEED]`.

With `--atheris` the library of that name, where it is installed, looks for new ways through the
code by itself: `python -m tests.fuzzing --atheris TARGET [ITS OPTIONS]`.
"""

from __future__ import annotations

import secrets
import sys
import tempfile
from pathlib import Path

from tests.fuzzing.refusals import once, tried
from tests.fuzzing.targets import targets


def main(arguments: list[str]) -> int:
    """Try one reader, or all of them, and print a line each."""
    if arguments[:1] == ["--atheris"]:
        return by_atheris(*arguments[1:])
    name, count, seed = (*arguments, "", "", "")[:3]
    wrong = 0
    for each, target in targets().items():
        if name in ("", each):
            with tempfile.TemporaryDirectory() as folder:
                drawn = int(seed or secrets.randbits(32))
                told = tried(target, int(count or 1000), drawn, Path(folder))
            wrong += len(told.wrong)
            print(  # noqa: T201
                f"{each:<20}{told.taken:>8} taken {told.refused:>8} refused "
                f"{len(told.wrong):>4} wrong   slowest {told.slowest:.2f} s   seed {drawn}",
                *told.wrong[:5],
                sep="\n  ",
            )
    return 1 if wrong else 0


def by_atheris(name: str, *options: str) -> int:
    """Let atheris drive a reader until it is stopped or something breaks."""
    import atheris

    target, folder = targets()[name], Path(tempfile.mkdtemp())

    def one(content: bytes) -> None:
        _, told = once(target, content, folder)
        if told:
            raise AssertionError(told)

    corpus = folder / "corpus"
    corpus.mkdir()
    for number, seed in enumerate(target.seeds):
        (corpus / str(number)).write_bytes(seed)
    atheris.instrument_all()
    atheris.Setup([sys.argv[0], str(corpus), *options], one)
    atheris.Fuzz()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
