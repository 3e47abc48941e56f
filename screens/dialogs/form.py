"""One dialog for every act that wants more than a key: fields, and all faults at once."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, ClassVar, Protocol, runtime_checkable

from textual.app import ComposeResult
from textual.await_complete import AwaitComplete
from textual.binding import Binding
from textual.containers import Vertical, VerticalScroll
from textual.events import DescendantFocus
from textual.geometry import Region
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from screens.half_typed import KeepsTyping
from screens.ink import ATTENTION, BOLD, QUIET, STOP, line
from screens.widgets.typed import LONGEST, Typed
from tally.errors import InputError, ShoedownError
from tally.job.in_clear import pin_in_clear
from tally.job.origin import TYPED, Origin
from tally.units import clean

if TYPE_CHECKING:
    from tally.feeds.rig_watch import Offer
    from tally.job.job import Job

Read = Callable[[str], Any]
WIDTH = 76
"""Columns of a form, its frame among them; fewer where the screen has fewer."""


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to type."""

    key: str
    label: str
    read: Read = clean
    """Reads the typed text, or raises a sentence."""
    value: str = ""
    choices: tuple[str, ...] = ()
    """What may be chosen, by number or by word; free text is taken too where `open` is set."""
    open: bool = False
    optional: bool = False
    hint: str = ""
    secret: bool = False
    """Shown as dots, and never echoed in a fault."""
    longest: int = LONGEST
    offer: Offer | None = None
    """What the rig's stream offers here; the field begins with it."""


@runtime_checkable
class HasPeople(Protocol):
    """An app that knows the people of a job and who is at the keys."""

    who: str

    @property
    def job(self) -> Job:
        """The job as it stands."""


class FormBody(VerticalScroll, inherit_bindings=False):
    """What a form scrolls in; it takes no key itself, so that up and down go to the fields."""


class Form(ModalScreen[dict[str, Any] | None]):
    """Ask for some fields; dismiss with what was read by key, or None when cancelled.

    Enter goes to the next field, and enters the form on the last one.
    """

    BINDINGS = [
        Binding("escape", "cancel", "Cancel", id="form.cancel"),
        Binding("up", "previous", "Previous field", id="form.previous"),
        Binding("down", "next", "Next field", id="form.next"),
    ]
    AUTO_FOCUS = "Input"
    ENTERS: ClassVar[str] = "save"
    """What Enter does on the last field, as the foot of the form says it."""
    ESCAPES: ClassVar[str] = "cancel"
    KEPT: ClassVar[bool] = True
    """Whether what is half typed is kept in case the program ends; never what is secret."""

    def __init__(
        self,
        title: str,
        fields: Sequence[Field],
        *,
        says: str = "",
        caution: str = "",
        about: Sequence[str] = (),
    ) -> None:
        super().__init__()
        self.about = tuple(about)
        self.typed: dict[str, str] = {}
        """The texts as they were typed, once the form was entered."""
        self.heading = title
        self.fields = tuple(fields)
        self.says = says
        self.caution = caution

    def compose(self) -> ComposeResult:
        """Lay out the heading, each field with its choices and its fault, and the keys."""
        with Vertical(id="form"):
            yield Static(line(self.heading, BOLD), id="form-title")
            with FormBody(id="form-body", can_focus=False):
                if self.says:
                    yield Static(line(self.says, ATTENTION), classes="form-says")
                if self.caution:
                    yield Static(line(f"Caution: {self.caution}", QUIET), classes="form-says")
                room = min(WIDTH, self.app.size.width * 98 // 100) - 4
                for field in self.fields:
                    yield from self._field(field, room)
            yield Static(
                line(
                    f"Enter next, on the last field: {self.ENTERS}    up, down    "
                    f"Esc {self.ESCAPES}",
                    QUIET,
                ),
                id="form-keys",
            )

    @staticmethod
    def _field(field: Field, room: int) -> ComposeResult:
        label = field.label + (f"  ({field.hint})" if field.hint else "")
        yield Static(line(label), id=f"label-{field.key}", classes="form-label")
        if field.choices:
            told = line(numbered(field.choices, room), QUIET)
            yield Static(told, id=f"choices-{field.key}", classes="form-choices")
        yield Typed(
            value=field.value,
            id=f"field-{field.key}",
            compact=True,
            max_length=field.longest,
            password=field.secret,
        )
        yield Static("", id=f"fault-{field.key}", classes="form-fault")

    def on_mount(self) -> None:
        """Fill in what was half typed here when the program ended."""
        if not (self.KEPT and isinstance(self.app, KeepsTyping)):
            return
        texts = self.app.half_typed.take(self.heading)
        for field in self.fields:
            if field.key in texts and not field.secret:
                self.query_one(f"#field-{field.key}", Input).value = texts[field.key]

    def on_input_changed(self, event: Input.Changed) -> None:
        """Keep what is half typed."""
        event.stop()
        typed = self._texts()
        as_offered = {field.key: field.value for field in self.fields if not field.secret}
        if self.KEPT and typed != as_offered and isinstance(self.app, KeepsTyping):
            self.app.half_typed.keep(self.heading, typed)

    def dismiss(self, result: dict[str, Any] | None = None) -> AwaitComplete:
        """Leave; what was half typed is entered or given up."""
        if isinstance(self.app, KeepsTyping):
            self.app.half_typed.drop()
            if result is not None and self.KEPT:
                self.app.half_typed.entered(self.heading, self._texts())
        return super().dismiss(result)

    def _texts(self) -> dict[str, str]:
        """Return what stands in the fields, but for what is secret."""
        return {
            field.key: self.query_one(f"#field-{field.key}", Input).value
            for field in self.fields
            if not field.secret
        }

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go to the next field; on the last one enter the form."""
        event.stop()
        self._go_on([f"field-{field.key}" for field in self.fields].index(event.input.id or ""))

    def _go_on(self, place: int) -> None:
        """Go on from the field at a place."""
        if place + 1 < len(self.fields):
            self._focus(place + 1)
        else:
            self._enter()

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        """Keep what a field asks for in sight with it; with the first one, what the form says."""
        self.call_after_refresh(self._keep_in_sight, (event.widget.id or "").partition("-")[2])

    def _keep_in_sight(self, key: str) -> None:
        parts = [f"#{part}-{key}" for part in ("label", "field", "fault")]
        found = [each.virtual_region for part in parts for each in self.query(part)]
        if not found:
            return
        body = self.query_one("#form-body", VerticalScroll)
        whole = Region.from_union(found)
        if key == self.fields[0].key and whole.bottom <= body.size.height:
            body.scroll_home(animate=False)
        else:
            body.scroll_to_region(whole, animate=False)

    def on_typed_not_taken(self, event: Typed.NotTaken) -> None:
        """Say beside the field what it did not take."""
        event.stop()
        key = (event.field.id or "").removeprefix("field-")
        self.query_one(f"#fault-{key}", Static).update(line(event.sentence, STOP))

    def _enter(self) -> None:
        values, faults = self.read_all()
        faults = faults or self._pins_in_clear(values)
        self._show(faults)
        if not faults:
            self.typed = {field.key: self._typed(field.key) for field in self.fields}
            self.dismiss(values | self._origins(values))

    def _pins_in_clear(self, values: dict[str, Any]) -> dict[str, str]:
        """Refuse a PIN of somebody named here where it would stand in clear; the field is emptied.

        It is looked for only in free text that looks like one, for those named in the form, by
        the entry that it is for, and at the keys.
        """
        if not isinstance(self.app, HasPeople):
            return {}
        told = (one for one in values.values() if isinstance(one, str))
        names = (*self.about, self.app.who, *told)
        found = {
            field.key: pin_in_clear(self.app.job.pins, values[field.key], names)
            for field in self.fields
            if _free(field) and isinstance(values[field.key], str)
        }
        faults = {key: fault for key, fault in found.items() if fault}
        for key in faults:
            self.query_one(f"#field-{key}", Input).value = ""
        return faults

    def _origins(self, values: dict[str, Any]) -> dict[str, Any]:
        """Return where the values come from that the rig's stream offered: from it, or typed."""
        offered = [field for field in self.fields if field.offer and values[field.key] is not None]
        origins = tuple(
            field.offer.origin(field.key)
            if field.offer and self._typed(field.key) == field.offer.text
            else Origin(field.key, TYPED)
            for field in offered
        )
        return {"origins": origins} if origins else {}

    def _typed(self, key: str) -> str:
        return clean(self.query_one(f"#field-{key}", Input).value)

    def read_all(self) -> tuple[dict[str, Any], dict[str, str]]:
        """Return what the fields mean, and what is wrong with those that cannot be taken."""
        values: dict[str, Any] = {}
        faults: dict[str, str] = {}
        for field in self.fields:
            text = self.query_one(f"#field-{field.key}", Input).value
            try:
                values[field.key] = read_field(field, text)
            except ShoedownError as fault:
                faults[field.key] = str(fault)
        return values, faults

    def _show(self, faults: dict[str, str]) -> None:
        for field in self.fields:
            if field.secret and faults:  # dots cannot be put right; they are typed anew
                self.query_one(f"#field-{field.key}", Input).value = ""
            self.query_one(f"#fault-{field.key}", Static).update(
                line(faults.get(field.key, ""), STOP)
            )
        wanting = (n for n, f in enumerate(self.fields) if f.key in faults or (f.secret and faults))
        first = next(wanting, None)
        if first is not None:
            self._focus(first)

    def _focus(self, place: int) -> None:
        self.query_one(f"#field-{self.fields[place].key}", Input).focus()

    def action_previous(self) -> None:
        """Go to the field before."""
        self.focus_previous("Input")

    def action_next(self) -> None:
        """Go to the field after."""
        self.focus_next("Input")

    def action_cancel(self) -> None:
        """Leave without entering anything."""
        self.dismiss(None)


def _free(field: Field) -> bool:
    """Whether a field takes words of one's own."""
    return field.read is clean and not field.secret and (field.open or not field.choices)


def numbered(choices: Sequence[str], room: int) -> str:
    """Return choices with their numbers, in lines that part none of them.

    >>> numbered(("thread", "wobble at make-up", "pipe body damaged"), 40)
    '1 thread   2 wobble at make-up\\n3 pipe body damaged'
    """
    lines = [""]
    for number, choice in enumerate(choices, 1):
        longer = f"{lines[-1]}   {number} {choice}" if lines[-1] else f"{number} {choice}"
        if len(longer) <= room or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(f"{number} {choice}")
    return "\n".join(lines)


def read_field(field: Field, text: str) -> Any:
    """Return what a field's text means; raise a sentence where it cannot be taken."""
    typed = clean(text)
    if not typed:
        if field.optional:
            return None
        raise InputError(f"{field.label} is wanted.")
    if field.choices:
        return field.read(_chosen(field, typed))
    return field.read(typed)


def _chosen(field: Field, typed: str) -> str:
    if typed.isdigit() and 1 <= int(typed) <= len(field.choices):
        return field.choices[int(typed) - 1]
    exact = [each for each in field.choices if each.casefold() == typed.casefold()]
    if exact:
        return exact[0]
    if field.open and not typed.isdigit():
        return typed
    raise InputError(f"'{typed}' is none of the choices; type 1 to {len(field.choices)}.")
