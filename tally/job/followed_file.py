"""A file that another program writes while the job goes on, and how far it is read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class FollowedFile:
    """The pump file that is followed, and what was answered about its columns."""

    seq: int
    path: str
    by: str
    at: str
    asked: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ReadUpTo:
    """How far a source is kept: the place in the words of its reader, and the time of that row."""

    seq: int
    place: str
    last: str
