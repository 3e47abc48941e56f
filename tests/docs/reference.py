"""The README's reference, written from the program: commands, keys, settings, formulas."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

import click
from textual.binding import Binding

from screens.app import ShoedownApp, page_kind
from screens.cli import cli
from screens.dialogs.form import Form
from screens.dialogs.help import key_name
from screens.export_files import ALL_KINDS
from screens.pages.handover import HandoverPage
from screens.pages.list_text import ListTextPage
from screens.pages.page import Page
from screens.pages.ready import ReadyPage
from screens.pages.running_list import ListPage
from screens.pages.set_up import SetUpPage
from screens.pages.waiting import WaitingPage
from tally.book.schema import BOOKS, JOURNAL, TABLES, VIEWS
from tally.feeds import job_catalogue
from tally.feeds.job_words import LIKE, TOP, like
from tally.formulas import all_formulas
from tally.job.figures import all_figures
from tally.job.job import EMPTY
from tally.job.limits import LIMITS
from tally.office.views import EVERY_VIEW
from tally.steps.model import Step
from tally.steps.reading import shipped

README = Path(__file__).parents[2] / "README.md"
BEGIN, END = "<!-- reference -->", "<!-- end of reference -->"


def reference() -> str:
    """Return the whole reference as Markdown."""
    return "\n\n".join(
        (
            "## Reference",
            "### Commands",
            _table(("command", "what it does"), _commands()),
            "### Keys",
            *_keys(),
            "### job.toml",
            "Every key of a job file; a value is text in quotes unless the example shows it plain.",
            _table(("table", "key", "written like"), _job_keys()),
            "### Limits",
            "Each limit is `key = { value, owner, source }` under `[limits]`; none is built in.",
            _table(("key", "quantity", "what it limits"), _limits()),
            "### Checklists",
            _table(("list", "step", "key", "what to do"), _steps()),
            "### Exports",
            "Each is a word for `shoedown export --only`, or on F7, `e`.",
            _table(("kind", "what it writes", "without being named"), _exports()),
            "### Live figures",
            "Each is shown by `shoedown figures BOOK`, with its formula and where its inputs come "
            "from.",
            _table(("figure", "what it is"), _figures()),
            "### Tables and views",
            "Every table is keyed by `book`; the journal is the record, the rest is made from it.",
            _table(("name", "where", "columns"), _tables()),
            "### Formulas",
            "Each is run by `shoedown calc NAME input=value ...` and on the calculations page.",
            _table(("formula", "inputs", "outputs", "purpose", "source"), _formulas()),
        )
    )


def _commands() -> list[Sequence[str]]:
    context = click.Context(cli, info_name="shoedown")
    rows: list[Sequence[str]] = [("`shoedown --version`", "Print the release and leave.")]
    for name in cli.list_commands(context):
        command = cli.commands[name]
        usage = " ".join(command.collect_usage_pieces(click.Context(command))[1:])
        rows.append((f"`shoedown {name} {usage}`".replace(" `", "`"), _first(command.help)))
        for option in command.params:
            if isinstance(option, click.Option):
                rows.append((f"`{', '.join(option.opts)}`", option.help or ""))
    return rows


def _first(text: str | None) -> str:
    return " ".join((text or "").split("\n\n")[0].split())


def pages() -> list[tuple[str, type[Page]]]:
    """Return every page with its function key."""
    found = []
    for binding in ShoedownApp.BINDINGS:
        assert isinstance(binding, Binding)
        if binding.action.startswith("go("):
            page = page_kind(binding.action[4:-2])
            found.append((f"{key_name(binding.key)}, {binding.description.lower()}", page))
    return [
        *found,
        ("F2 then e, set-up", SetUpPage),
        ("F2 then h, handover", HandoverPage),
        ("F4 then g, crew and hole ready", ReadyPage),
        ("F6 then g, waiting on cement", WaitingPage),
        ("F3 then o, running list", ListPage),
        ("F3, o, then v: the running list as printed", ListTextPage),
    ]


def _keys() -> list[str]:
    parts = [
        "On every page:",
        _table(("key", "act"), [*_bindings(ShoedownApp.BINDINGS), *_bindings(Page.BINDINGS)]),
    ]
    for title, page in pages():
        parts += [f"{title}:", _table(("key", "act"), _page_bindings(page))]
    return [*parts, "In a form:", _table(("key", "act"), _bindings(Form.BINDINGS))]


def _page_bindings(page: type[Page]) -> list[Sequence[str]]:
    rows: list[Sequence[str]] = []
    for kind in page.__mro__:
        if issubclass(kind, Page) and kind is not Page and "BINDINGS" in vars(kind):
            rows += _bindings(vars(kind)["BINDINGS"])
    return rows


def _bindings(bindings: Iterable[object]) -> list[Sequence[str]]:
    return [
        (f"`{key_name(each.key)}`", each.description)
        for each in bindings
        if isinstance(each, Binding)
    ]


def _job_keys() -> list[Sequence[str]]:
    rows: list[Sequence[str]] = [("", f"`{key}`", f"`{LIKE[key]}`") for key in TOP]
    named = [(f"[{name}]", kind) for name, kind in job_catalogue.TABLES.items()]
    named += [(f"[[{name}]]", kind) for name, kind in job_catalogue.LISTS.items()]
    for title, kind in named:
        for name, info in kind.model_fields.items():
            key = info.alias or name
            rows.append((f"`{title}`", f"`{key}`", f"`{like(title, key)}`"))
    rows.append(("`[units]`", "`set`", '`"field"` or `"metric"`'))
    rows.append(("`[units]`", "a quantity", '`pressure = "bar"` shows that one in another unit'))
    return rows


def _limits() -> list[Sequence[str]]:
    return [(f"`{one.key}`", one.quantity, one.meaning) for one in LIMITS.values()]


def _steps() -> list[Sequence[str]]:
    return [
        (plan.title, f"`{step.id}`", _key(step), step.text)
        for plan in shipped()
        for step in plan.steps
    ]


def _key(step: Step) -> str:
    return f"`{step.key or ('y' if step.critical else 'Enter')}`"


def _exports() -> list[Sequence[str]]:
    return [(f"`{one.key}`", one.says, "yes" if one.usual else "") for one in ALL_KINDS]


def _figures() -> list[Sequence[str]]:
    return [(f"`{one.key}`", one.label) for one in all_figures(EMPTY)]


def _tables() -> list[Sequence[str]]:
    columns = {"books": BOOKS, "journal": JOURNAL, **{one.name: one.columns for one in TABLES}}
    tables = [
        (f"`{name}`", "a table of a book", ", ".join(f"`{each}`" for each in of if each != "book"))
        for name, of in columns.items()
    ]
    views = [
        (f"`{name}`", "a view" if name in VIEWS else "a view of an office", "")
        for name in EVERY_VIEW
    ]
    return [*tables, *views]


def _formulas() -> list[Sequence[str]]:
    return [
        (
            f"`{one.name}`",
            ", ".join(f"`{term.name}`" for term in one.inputs),
            ", ".join(f"`{term.name}`" for term in one.outputs),
            one.purpose,
            one.source,
        )
        for one in sorted(all_formulas().values(), key=lambda each: each.name)
    ]


def _table(titles: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [" | ".join(titles), " | ".join("---" for _ in titles)]
    lines += [" | ".join(cell.replace("|", "/") for cell in row) for row in rows]
    return "\n".join(f"| {each} |" for each in lines)


def written(readme: str) -> str:
    """Return a README with its reference written anew."""
    before, rest = readme.split(BEGIN)
    after = rest.split(END)[1]
    return f"{before}{BEGIN}\n{reference()}\n{END}{after}"
