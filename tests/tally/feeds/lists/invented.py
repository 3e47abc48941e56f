"""What the nasty lists are made of: invented joints, lines, sheets, and the table of lists."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tests.tally.feeds.lists.sheets import Value, numbered, sheet_xml, workbook

JOINTS = 12
LISTS: dict[str, Callable[[], bytes]] = {}


def hundredths(number: int) -> int:
    """Return the length of a joint in hundredths of a foot: 39.60 to 42.09."""
    return 3960 + number * 37 % 250


def feet(number: int, mark: str = ".") -> str:
    """Return the length of a joint as it is typed in feet."""
    return f"{hundredths(number) / 100:.2f}".replace(".", mark)


def metres(number: int, mark: str = ".") -> str:
    """Return the length of a joint as it is typed in metres: 12.07 to 12.81."""
    return f"{(1207 + number * 11 % 75) / 100:.2f}".replace(".", mark)


def numbers(last: int = JOINTS) -> range:
    """Return the numbers of the joints."""
    return range(1, last + 1)


def total(of: Callable[[int], str] = feet, last: int = JOINTS) -> str:
    """Return the sum of the joints as typed."""
    return f"{sum(round(float(of(number)) * 100) for number in numbers(last)) / 100:.2f}"


def lines(*rows: Sequence[object], mark: str = ",", end: str = "\r\n") -> str:
    """Return rows as the text of a CSV file; nothing is quoted."""
    return "".join(mark.join(str(cell) for cell in row) + end for row in rows)


def plain(head: Sequence[str] = ("Number", "Length"), mark: str = ",", point: str = ".") -> str:
    """Return the plainest list there is."""
    return lines(head, *((number, feet(number, point)) for number in numbers()), mark=mark)


def a_list(name: str) -> Callable[[Callable[[], str | bytes]], Callable[[], str | bytes]]:
    """Enter a function under the name of the list that it writes."""

    def enter(make: Callable[[], str | bytes]) -> Callable[[], str | bytes]:
        def made() -> bytes:
            content = make()
            return content.encode("utf-8") if isinstance(content, str) else content

        LISTS[name] = made
        return make

    return enter


def sheet(*rows: Sequence[Value]) -> bytes:
    """Return a spreadsheet of one sheet."""
    return workbook({"Tally": sheet_xml(numbered(rows))})
