"""Commas and points: which is the decimal mark of a column, and what a number then says."""

from __future__ import annotations

import re
from collections.abc import Iterable

from tally.errors import InputError
from tally.units import shown

POINT, COMMA, EITHER, UNSURE = ".", ",", "either", "unsure"
_NUMBER = re.compile(r"\d{1,3}(?:[ '\u2019]\d{3})+(?:[.,]\d+)?|\d+(?:[.,]\d+)*", re.ASCII)
_GROUPED = re.compile(r"\d{1,3}(?:[ '\u2019]\d{3})+(?=$|[.,])", re.ASCII)


def decimal_mark(texts: Iterable[str]) -> str:
    """Return the decimal mark that the numbers of a column show.

    Returns
    -------
    mark : str
        "." or ","; `EITHER` where no number has a mark or both are used and each is plain by
        itself; `UNSURE` where every mark may stand between thousands as well

    Notes
    -----
    A mark that is there twice, or with three digits behind it, may part thousands; one that has
    any other count of digits behind it, or only zeros before it, can only be decimal.

    Examples
    --------
    >>> decimal_mark(["41,35", "4,127"]), decimal_mark(["12,600", "12,714"])
    (',', 'unsure')
    """
    said = [_shown_by(number) for number in map(_first_number, texts) if number]
    sure = {each for each in said if each in (POINT, COMMA)}
    if len(sure) == 1:
        return sure.pop()
    return UNSURE if not sure and UNSURE in said else EITHER


def _first_number(text: str) -> str:
    found = _NUMBER.search(text)
    return found[0] if found else ""


def _shown_by(number: str) -> str:
    """Return the decimal mark that one number shows by itself."""
    commas, points = number.count(","), number.count(".")
    if commas and points:
        return COMMA if number.rfind(",") > number.rfind(".") else POINT
    if not commas and not points:
        return EITHER
    mark = COMMA if commas else POINT
    if commas + points > 1:
        return POINT if commas else COMMA
    whole, _, after = number.partition(mark)
    return UNSURE if len(after) == 3 and whole.strip("0") and len(whole) <= 3 else mark


def plain_number(number: str, mark: str) -> str:
    """Return a number with a decimal point and nothing between its thousands.

    Raises
    ------
    InputError
        If a mark may be decimal or stand between thousands.

    Examples
    --------
    >>> plain_number("8.412,33", ","), plain_number("12 600", "."), plain_number("4,127", ".")
    ('8412.33', '12600', '4127')
    """
    if _GROUPED.match(number):
        number = re.sub(r"[ '\u2019]", "", number)
    by_itself = _shown_by(number)
    decimal = by_itself if by_itself in (POINT, COMMA) else mark
    if by_itself == EITHER:
        return number
    if decimal not in (POINT, COMMA):
        whole, after = re.split("[.,]", number)
        raise InputError(
            f'"{shown(number)}" may be {whole}{after} or {whole}.{after}; '
            "write it without a mark between thousands."
        )
    other = COMMA if decimal == POINT else POINT
    whole, _, after = number.partition(decimal)
    if other in after or not _in_thousands(whole, other):
        raise InputError(f'"{shown(number)}" has marks that are neither decimal nor thousands.')
    return f"{whole.replace(other, '')}.{after}" if after else whole.replace(other, "")


def _in_thousands(whole: str, mark: str) -> bool:
    first, *rest = whole.split(mark)
    return not rest or (1 <= len(first) <= 3 and all(len(each) == 3 for each in rest))
