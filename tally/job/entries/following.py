"""A pump file that another program writes is followed from here on, or no more."""

from __future__ import annotations

from dataclasses import dataclass, field

from tally.job.entry import Entry, entry_kind
from tally.job.followed_file import FollowedFile
from tally.job.job import Job


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class FileFollowed(Entry):
    """A person named the file, and said what was in doubt about its columns."""

    KIND = "file followed"

    path: str
    asked: dict[str, str] = field(default_factory=dict)
    """By what was in doubt ("unit of pressure"), the answer."""

    def check(self, job: Job) -> str:
        """Refuse before the job is set up, and a file without a name."""
        if job.setup is None:
            return "The job is not set up yet; a pump file is followed after that."
        return "" if self.path.strip() else "Name the file that another program writes."

    def apply(self, job: Job) -> Job:
        """Keep which file it is; one followed before is followed no more."""
        return job.but(followed=FollowedFile(self.seq, self.path, self.by, self.at, self.asked))

    def said(self) -> str:
        """Return the entry in words."""
        told = ", ".join(f"{what}: {answer}" for what, answer in self.asked.items())
        return f"pump file followed: {self.path}" + (f" ({told})" if told else "")


@entry_kind
@dataclass(frozen=True, slots=True, kw_only=True)
class FileLeft(Entry):
    """The pump file is followed no more."""

    KIND = "file left"

    reason: str = ""

    def check(self, job: Job) -> str:
        """Refuse where none is followed."""
        return "" if job.followed else "No pump file is followed."

    def apply(self, job: Job) -> Job:
        """Follow no file any more; what was read is kept."""
        return job.but(followed=None)

    def said(self) -> str:
        """Return the entry in words."""
        return "pump file left" + (f" ({self.reason})" if self.reason else "")
