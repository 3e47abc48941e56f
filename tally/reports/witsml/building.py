"""A document by the table: every element in its order, what is not known left out.

What is written is a mapping by the names of the elements; the table says where each stands, how it
is written and whether it must be there. Attributes are named "@uid".
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from xml.etree.ElementTree import Element

from tally.errors import InputError
from tally.reports.witsml.layout import CUSTOM, OPEN, Layout, Part
from tally.reports.witsml.markup import kept
from tally.reports.witsml.uom import Amount, Units

Content = Mapping[str, Any]
"""What an element of a type holds, by the names of its own elements."""
LONGEST_VALUE = 2000


@dataclass(frozen=True, slots=True)
class Builder:
    """Builds the elements of one version in the units of one book."""

    layout: Layout
    units: Units

    def root(self, tag: str, content: Content) -> Element:
        """Return the root element of a document.

        Raises
        ------
        InputError
            If something that the standard asks for is not in the book; it is named.
        """
        element = self._built(tag, tag, content, tag)
        element.set("xmlns", self.layout.namespace)
        for prefix, name in self.layout.prefixes.items():
            element.set(f"xmlns:{prefix}", name)
        return element

    def _built(self, tag: str, holds: str, content: Content, path: str) -> Element:
        shape = self.layout.shapes[holds]
        known = {*(part.name for part in shape.parts), *(f"@{name}" for name in shape.attributes)}
        if strange := content.keys() - known:
            raise LookupError(f"{path} has no {', '.join(sorted(strange))} in the table.")
        element = Element(tag)
        for name in shape.attributes:
            element.set(name, self._required(content.get(f"@{name}"), f"{path}, {name}"))
        for part in shape.parts:
            self._fill(element, part, content.get(part.name), f"{path}, {part.name}")
        return element

    def _fill(self, parent: Element, part: Part, value: Any, path: str) -> None:
        """Put an element into its parent, once or as often as there is something of it."""
        values = _listed(value) if part.repeats else [value]
        made = [each for one in values if (each := self._one(part, one, path)) is not None]
        if part.needed and not made:
            self._required(None, path)
        parent.extend(made)

    def _one(self, part: Part, value: Any, path: str) -> Element | None:
        if value is None or value == "":
            return None
        if part.holds in self.layout.shapes:
            return self._built(part.tag, part.holds, value, path)
        element = Element(part.tag)
        if isinstance(value, Amount) and not part.holds.startswith(("bare ", "unit ")):
            self._measured(element, value)
        else:
            element.text = _word(part, value) if part.words else self._written(part.holds, value)
        return element

    def _measured(self, element: Element, value: Amount) -> None:
        element.set("uom", self.units.symbol(value.quantity))
        element.text = self.units.number(value.value, value.quantity)

    def _written(self, holds: str, value: Any) -> str:
        """Return what is no figure with a unit as the text that stands for it."""
        kind, _, rest = holds.partition(" ")
        if kind == "bare":
            return self.units.number(value.value, rest)
        if kind == "unit":
            return self.units.symbol(rest)
        if kind == "bool":
            return "true" if value else "false"
        return kept(str(value), int(rest) if kind == "text" else LONGEST_VALUE)

    def _required(self, value: Any, path: str) -> str:
        if value is None or value == "":
            raise InputError(
                f"The WITSML {self.layout.version} document is not written because the standard "
                f'asks for "{path}", which the book does not have.'
            )
        return str(value)


def _word(part: Part, value: str) -> str:
    """Return a word of a list, or of our own where the list may be added to."""
    if value in part.words or (part.holds.startswith(OPEN) and value.startswith(CUSTOM)):
        return value
    raise LookupError(f'"{value}" is not among {", ".join(part.words)}.')


def _listed(value: Any) -> Sequence[Any]:
    return [] if value is None else list(value)
