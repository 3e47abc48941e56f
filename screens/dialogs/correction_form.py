"""The form of a correction: what is not touched stays; for striking only the reason is asked."""

from __future__ import annotations

from typing import Any, Final

from textual.widgets import Input

from screens.dialogs.form import Field, Form, read_field
from tally.errors import InputError, ShoedownError
from tally.units import clean

CHANGE, STRIKE = "change it", "strike it: it did not happen"
ACT, REASON = "act", "reason"
UNTOUCHED: Final = object()
"""Stands for a field as it was offered: the entry keeps what it has there, as it was typed."""


class CorrectionForm(Form):
    """The fields of an entry between the question what is done and the reason for it."""

    def on_input_changed(self, _event: Input.Changed) -> None:
        """Hide what does not matter for striking; what a form does with a key is done as well."""
        striking = self.striking
        for field in self._between():
            for part in ("label", "field", "fault"):
                self.query_one(f"#{part}-{field.key}").display = not striking
            for choices in self.query(f"#choices-{field.key}"):
                choices.display = not striking

    def _go_on(self, place: int) -> None:
        """Go from striking straight to the reason."""
        last = len(self.fields) - 1
        super()._go_on(max(place, last - 1) if self.striking and place < last else place)

    @property
    def striking(self) -> bool:
        """Whether the entry is to be struck, as the form stands."""
        asked = [field for field in self.fields if field.key == ACT]
        try:
            return bool(asked) and read_field(asked[0], self._typed(ACT)) == STRIKE
        except InputError:
            return False

    def _between(self) -> list[Field]:
        return [field for field in self.fields if field.key not in (ACT, REASON)]

    def read_all(self) -> tuple[dict[str, Any], dict[str, str]]:
        """Read only what was touched; for striking none of the fields of the entry."""
        values: dict[str, Any] = {}
        faults: dict[str, str] = {}
        striking = self.striking
        for field in self.fields:
            asked = field.key in (ACT, REASON)
            if not asked and (striking or self._typed(field.key) == clean(field.value)):
                values[field.key] = UNTOUCHED
                continue
            try:
                values[field.key] = read_field(field, self._typed(field.key))
            except ShoedownError as fault:
                faults[field.key] = str(fault)
        return values, faults
