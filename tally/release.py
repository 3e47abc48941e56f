"""Which release of the program this is."""

from __future__ import annotations

from pathlib import Path


def release() -> str:
    """Return the number of this release: as installed, else as the checkout has it."""
    from importlib.metadata import PackageNotFoundError
    from importlib.metadata import version as version_of

    try:
        return version_of("shoedown")
    except PackageNotFoundError:
        return _of_checkout()


def _of_checkout() -> str:
    import tomllib

    text = (Path(__file__).parent.parent / "pyproject.toml").read_text("utf-8")
    return str(tomllib.loads(text)["project"]["version"])
