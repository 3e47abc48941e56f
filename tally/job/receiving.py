"""What came on location, counted three ways: delivery notes, bundles as counted, the book."""

from __future__ import annotations

from dataclasses import dataclass

from tally.job.job import SENT_AWAY, Job
from tally.job.rack_records import BundleCount


@dataclass(frozen=True, slots=True)
class Receipt:
    """One bundle, or all of them: joints by the note, as counted, and in the book."""

    noted: int | None
    counted: int
    in_book: int | None
    """Nothing for a bundle whose numbers were not given."""

    @property
    def difference(self) -> int:
        """In the book less counted; by the note where the bundle has no numbers."""
        if self.in_book is not None:
            return self.in_book - self.counted
        return 0 if self.noted is None else self.noted - self.counted

    @property
    def agrees(self) -> bool:
        """Whether the note, the count and the book say the same."""
        said = {self.noted, self.counted, self.in_book} - {None}
        return len(said) == 1


def receipt(job: Job, bundle: BundleCount) -> Receipt:
    """Return the three counts of one bundle."""
    found = sum(_joint(job, number) for number in bundle.numbers)
    return Receipt(bundle.noted, bundle.counted, found if bundle.numbers else None)


def receipts(job: Job) -> Receipt:
    """Return the counts of all bundles against every joint that came on location."""
    bundles = tuple(job.bundles.values())
    noted = [each.noted for each in bundles if each.noted is not None]
    whole = bool(bundles) and len(noted) == len(bundles)
    return Receipt(sum(noted) if whole else None, sum(each.counted for each in bundles), came(job))


def came(job: Job) -> int:
    """Return the joints that came on location, those sent away since among them."""
    gone = sum(item.state == SENT_AWAY and item.kind == "joint" for item in job.items.values())
    return job.received + gone


def _joint(job: Job, number: str) -> bool:
    item = job.items.get(number)
    return item is not None and item.kind == "joint"
