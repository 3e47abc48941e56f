"""What stands at the head of every document: who, when, of which well, and where it comes from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tally.job.entry import Entry
from tally.release import release
from tally.reports.final_tally import FinalTally
from tally.reports.witsml.building import Builder, Content
from tally.reports.witsml.identity import uuid_of
from tally.reports.witsml.layout import NEWER, layout
from tally.reports.witsml.uom import Amount, Units

SOURCE = (
    "WITSML is a trademark of Energistics, which is the source of the standard.",
    "Not a certified product: a document written from the published standard.",
)
_LETTERS = (
    "A character that XML 1.0 cannot hold stands as its number, \\u001b;",
    "a text longer than the standard takes ends in three points.",
)
NOT_FINAL = "Not final: the string is not on depth yet, so no depth of an item is given."


@dataclass(frozen=True, slots=True)
class Given:
    """What the documents of a book are made from."""

    tally: FinalTally
    entries: Sequence[Entry]
    book: str
    """The id of the book."""

    def builder(self, version: str) -> Builder:
        """Return what builds elements of a version in the units of the book."""
        return Builder(layout(version), Units(self.tally.setup, newer=version == NEWER))

    def uuid(self, what: str) -> str:
        """Return the identifier of something of the book."""
        return uuid_of(self.book, what)

    def depth(self, steps: int) -> Amount:
        """Return a depth or a length that is counted in steps of the tally."""
        return Amount(self.tally.setup.step.si(steps), "length")

    @property
    def shoe(self) -> Amount | None:
        """The depth of the shoe, once the string is on depth."""
        return self.depth(self.tally.depths.shoe) if self.tally.final else None

    @property
    def title(self) -> str:
        """What the string is, and of which well."""
        well = self.tally.setup.well
        return f"{well.string}, {well.name}"


def comment(given: Given, version: str, *further: str) -> list[str]:
    """Return the lines of the comment in front of a document."""
    tally = given.tally
    return [
        f"Shoedown {release()} writes WITSML {version} documents.",
        *SOURCE,
        *_LETTERS,
        f"Entries {tally.entries}, last hash {tally.head}.",
        "The book names the well alone; the wellbore bears the name of the well.",
        *([] if tally.final else [NOT_FINAL]),
        *further,
    ]


def heading(given: Given, what: str, said: str = "") -> Content:
    """Return attributes and citation of an object of 2.1."""
    first, last = given.entries[0], given.entries[-1]
    return {
        "@uuid": given.uuid(what),
        "@schemaVersion": NEWER,
        "Citation": {
            "Title": f"{given.title}, {what}",
            "Originator": first.by,
            "Creation": first.at,
            "Format": f"Shoedown {release()}; WITSML: Energistics",
            "LastUpdate": last.at,
            "Description": " ".join(filter(None, (said, "" if given.tally.final else NOT_FINAL))),
        },
    }


def wellbore(given: Given) -> Content:
    """Return what points to the wellbore."""
    return _object(given, "Wellbore")


def well(given: Given) -> Content:
    """Return what points to the well."""
    return _object(given, "Well")


def _object(given: Given, kind: str) -> Content:
    return {
        "Uuid": given.uuid(kind),
        "QualifiedType": f"witsml21.{kind}",
        "Title": given.tally.setup.well.name,
    }


def component(kind: str, uid: str, name: str = "") -> Content:
    """Return what points to a part of the same document."""
    return {"QualifiedType": f"witsml21.{kind}", "Uid": uid, "Name": name}


def heading_1411(given: Given, what: str) -> Content:
    """Return attributes and names of an object of 1.4.1.1."""
    name = given.tally.setup.well.name
    return {
        "@uidWell": given.uuid("Well"),
        "@uidWellbore": given.uuid("Wellbore"),
        "@uid": given.uuid(what),
        "nameWell": name,
        "nameWellbore": name,
        "name": f"{given.title}, {what}",
    }
