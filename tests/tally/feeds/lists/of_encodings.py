"""Lists that are nasty by their marks, their encoding or their language."""

from __future__ import annotations

from collections.abc import Sequence

from tests.tally.feeds.lists.invented import (
    a_list,
    feet,
    lines,
    numbers,
    plain,
)

# Marks between cells, encodings


@a_list("commas.csv")
def _() -> str:
    return plain()


@a_list("semicolons-decimal-comma.csv")
def _() -> str:
    return plain(mark=";", point=",")


@a_list("tabs.txt")
def _() -> str:
    return plain(mark="\t", point=",")


@a_list("bars.csv")
def _() -> str:
    return plain(mark="|")


@a_list("sep-line.csv")
def _() -> str:
    return "sep=;\r\n" + plain(mark=";", point=",")


@a_list("utf8-mark.csv")
def _() -> bytes:
    return plain(("Nr.", "L\u00e4nge"), ";", ",").encode("utf-8-sig")


@a_list("utf16-tabs.txt")
def _() -> bytes:
    return b"\xff\xfe" + plain(("Nr.", "L\u00e4nge"), "\t", ",").encode("utf-16-le")


@a_list("utf16-big.txt")
def _() -> bytes:
    return b"\xfe\xff" + plain(("Nr.", "L\u00e4nge"), "\t", ",").encode("utf-16-be")


@a_list("utf16-no-mark.txt")
def _() -> bytes:
    return plain(mark="\t").encode("utf-16-le")


@a_list("old-line-ends.csv")
def _() -> str:
    return plain().replace("\r\n", "\r")


@a_list("quoted.csv")
def _() -> str:
    head = '"Joint\r\nNo.","Length,\r\nft","Remarks"\r\n'
    rows = (f'"{n}","{feet(n)}","protector ""loose"",\r\nlook again"\r\n' for n in numbers())
    return head + "".join(rows)


# Languages and code pages


def _list_in(head: Sequence[str], remark: str, mark: str = ";") -> str:
    rows = ((n, feet(n, ","), f"77A{n % 3}", remark if n == 4 else "") for n in numbers())
    return lines(head, *rows, mark=mark)


@a_list("german-1252.csv")
def _() -> bytes:
    head = ("Rohr-Nr.", "Rohrl\u00e4nge (ft)", "Schmelze", "Bemerkungen")
    return _list_in(head, "Gewinde besch\u00e4digt").encode("cp1252")


@a_list("german-dos.csv")
def _() -> bytes:
    head = ("Lfd. Nr.", "L\u00e4nge [Fu\u00df]", "Charge", "Bemerkung")
    return _list_in(head, "Schutzkappe fehlt, Gewinde besch\u00e4digt").encode("cp850")


@a_list("french-1252.csv")
def _() -> bytes:
    head = ("N\u00b0 tube", "Longueur (pieds)", "Coul\u00e9e", "Remarques")
    return _list_in(head, "filetage ab\u00eem\u00e9").encode("cp1252")


@a_list("spanish.csv")
def _() -> str:
    head = ("N\u00ba de junta", "Longitud (pies)", "Colada", "Observaciones")
    return _list_in(head, "rosca da\u00f1ada")


@a_list("portuguese-1252.csv")
def _() -> bytes:
    head = ("Tubo n\u00ba", "Comprimento (p\u00e9s)", "Corrida", "Observa\u00e7\u00f5es")
    return _list_in(head, "rosca com dano na conex\u00e3o").encode("cp1252")


@a_list("norwegian-dos.csv")
def _() -> bytes:
    head = ("R\u00f8r nr.", "Lengde (fot)", "Smeltenr.", "Merknader")
    return _list_in(head, "gjengen m\u00e5 sl\u00e5s").encode("cp865")


@a_list("dutch.csv")
def _() -> str:
    head = ("Buisnummer", "Lengte (voet)", "Smeltnummer", "Opmerkingen")
    return _list_in(head, "draad beschadigd")


RUSSIAN = (
    "\u2116 \u0442\u0440\u0443\u0431\u044b",
    "\u0414\u043b\u0438\u043d\u0430, \u0444\u0442",
    "\u041f\u043b\u0430\u0432\u043a\u0430",
    "\u041f\u0440\u0438\u043c\u0435\u0447\u0430\u043d\u0438\u0435",
)
WORN = "\u0440\u0435\u0437\u044c\u0431\u0430 \u0438\u0437\u043d\u043e\u0448\u0435\u043d\u0430"


@a_list("russian.csv")
def _() -> str:
    return _list_in(RUSSIAN, WORN)


@a_list("russian-1251.csv")
def _() -> bytes:
    return _list_in(RUSSIAN, WORN).encode("cp1251")


@a_list("russian-dos.csv")
def _() -> bytes:
    head = ("\u043d\u043e\u043c\u0435\u0440", *RUSSIAN[1:])
    return _list_in(head, WORN).encode("cp866")
