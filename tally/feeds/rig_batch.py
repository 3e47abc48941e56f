"""The stream as it is kept: some minutes of readings in one batch, a row for each frame."""

from __future__ import annotations

from collections.abc import Iterator

from tally.feeds.rig_stream import Heard, at_second
from tally.feeds.wits_items import items
from tally.job.batch import MOST_ROWS, BatchColumn, Row, hash_of, payload_of
from tally.job.entries.readings import Readings

BATCH_SECONDS = 600.0
"""How long readings are gathered before they are kept."""
MOST_BATCHES = 100
"""Batches that wait for the book; a stream that fills more is left out from its oldest on."""
DOUBTED = ", unit in doubt"


class BatchMaker:
    """Gathers readings and makes batches of them."""

    def __init__(self, source: str, units: str) -> None:
        self._source = f"rig stream, {source}"
        self._units = units
        self._rows: list[tuple[Heard, bool]] = []
        self.lost = 0
        """Readings that were not kept because the book took none for too long."""

    def take(self, heard: Heard, *, doubted: bool) -> None:
        """Gather one reading; doubted, its unit set may be the wrong one."""
        if heard.reading.values:
            self._rows.append((heard, doubted))
        if len(self._rows) > MOST_ROWS * MOST_BATCHES:
            del self._rows[:MOST_ROWS]
            self.lost += MOST_ROWS

    def due(self, by: str, at: str, *, all_of_it: bool) -> Iterator[tuple[Readings, str]]:
        """Yield the batches that are full or old; once the book has one, the next is asked for."""
        while self._rows:
            first, doubted = self._rows[0]
            same = _as_doubted(self._rows, doubted)
            old = self._rows[-1][0].seconds - first.seconds >= BATCH_SECONDS
            ended = same < len(self._rows)
            if not (all_of_it or old or ended or same == MOST_ROWS):
                return
            rows = [heard for heard, _ in self._rows[:same]]
            yield self._batch(rows, by, at, doubted=doubted)
            del self._rows[:same]

    def _batch(self, rows: list[Heard], by: str, at: str, *, doubted: bool) -> tuple[Readings, str]:
        codes = sorted({code for heard in rows for code in heard.reading.values})
        columns = tuple(self._column(code, doubted=doubted) for code in codes)
        payload = payload_of(columns, (_row(heard, rows[0], codes) for heard in rows))
        entry = Readings(
            by=by,
            at=at,
            source=self._source,
            columns=columns,
            rows=len(rows),
            first=at_second(rows[0].at),
            last=at_second(max(rows[0].at, rows[-1].at)),
            sha256=hash_of(payload),
        )
        return entry, payload

    def _column(self, code: str, *, doubted: bool) -> BatchColumn:
        item = items()[code]
        unit = item.unit(self._units)
        name = f"{code} {item.meaning}"
        if unit is None or doubted:
            return BatchColumn(name + (DOUBTED if doubted and unit else ""))
        return BatchColumn(name, unit.words)


def _as_doubted(rows: list[tuple[Heard, bool]], doubted: bool) -> int:
    """Return how many of the first rows are alike in doubt, at most a batch of them."""
    batch = rows[:MOST_ROWS]
    return next((at for at, (_, each) in enumerate(batch) if each != doubted), len(batch))


def _row(heard: Heard, first: Heard, codes: list[str]) -> Row:
    values = heard.reading.values
    numbers = tuple(values[code].number if code in values else None for code in codes)
    return (heard.at - first.at).total_seconds(), numbers
