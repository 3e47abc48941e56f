"""Fields that the rig's stream fills in; what is typed over them is marked as typed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from screens.dialogs.form import Field
from screens.pages.page import Page

if TYPE_CHECKING:
    from tally.feeds.rig_watch import Down


def from_rig(page: Page, field: Field, *roles: str) -> Field:
    """Return a field with what the rig says now for the first of these uses that it has."""
    rig = page.shoedown.rig
    if rig is None or page.job.setup is None:
        return field
    from tally.feeds.rig_watch import NoOffer  # with the stream, where one is followed

    offer = rig.offer(*roles)
    if isinstance(offer, NoOffer):
        return replace(field, hint=_with(field.hint, offer.why))
    return replace(field, value=offer.text, hint=_with(field.hint, offer.told), offer=offer)


def weight_from_rig(page: Page, field: Field) -> Field:
    """Return a field of a weight with the hook load, where the string moves as the field says."""
    rig = page.shoedown.rig
    if rig is None or rig.watch.weighing(page.job) != field.key:
        return field
    return from_rig(page, field, "hook load")


def lowered_from_rig(field: Field, down: Down | None) -> Field:
    """Return the field of a lowering time with what was seen of the item, if it was."""
    if down is None:
        return field
    return replace(field, value=down.offer.text, hint=down.offer.told, offer=down.offer)


def _with(hint: str, more: str) -> str:
    return "; ".join(each for each in (hint, more) if each)
