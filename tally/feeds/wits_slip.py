"""Whether a stream is read in the wrong unit set: what it says held against what is known.

Level 0 does not say its units. A hook load, a depth, a mud density or a block position that fits
the job only in the other unit set is a slip of the setting.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from tally.feeds.wits_items import FIELD, METRIC, Item, WitsUnit
from tally.feeds.wits_values import Reading, Value

HOOK_LOADS = ("0114", "0514", "1713")
HOLE_DEPTHS = ("0110", "0510", "1108", "1708")
BLOCKS = ("0112", "0515", "1714")
DENSITIES = ("0132", "0131")
SUSPECTED_SECONDS = 10.0
"""How long a hook load must fit the other set only; while pipe is set it passes through all."""
HIGHEST_BLOCK = 60.0
"""[m]; no derrick is higher."""
LOAD_SHARE, LOAD_MORE = 0.3, 40_000.0
"""A hook load fits within this share and this much [N]: the units are 2.25 times apart."""
SHARE = 0.05


@dataclass(frozen=True, slots=True)
class Known:
    """What the job knows, in SI; nothing where it does not."""

    loads: tuple[float, ...] = ()
    """What the indicator may show: the blocks alone, the string going down, coming up."""
    hole_depth: float | None = None
    mud_weight: float | None = None


class SlipWatch:
    """Takes readings; tells the slip in a sentence while there is one."""

    def __init__(self, units: str) -> None:
        self._units = units
        self._loads_since: float | None = None
        self._sentences: dict[str, str] = {}
        self._suspected = False

    @property
    def doubted(self) -> bool:
        """Whether the last reading fits the other unit set only."""
        return self._suspected or bool(self._sentences)

    @property
    def told(self) -> str:
        """The slip in a sentence, or nothing."""
        return next(iter(self._sentences.values()), "")

    def take(self, reading: Reading, known: Known, seconds: float) -> None:
        """Hold a reading against what is known."""
        depths = () if known.hole_depth is None else (known.hole_depth,)
        weights = () if known.mud_weight is None else (known.mud_weight,)
        self._hold("hole depth", reading, HOLE_DEPTHS, depths, SHARE)
        self._hold("mud density", reading, DENSITIES, weights, 2 * SHARE)
        self._block(reading.values)
        self._load(reading, known.loads, seconds)

    def _hold(
        self,
        what: str,
        reading: Reading,
        codes: Iterable[str],
        wanted: tuple[float, ...],
        share: float,
    ) -> None:
        value = _first(reading.values, codes)
        if value is None or not wanted:
            return
        other = self._other(value)
        if _fits(value.si, wanted, share) or not _fits(other, wanted, share):
            self._sentences.pop(what, None)
        else:
            self._sentences[what] = self._sentence(what, value)

    def _block(self, values: Mapping[str, Value]) -> None:
        value = _first(values, BLOCKS)
        if value is None:
            return
        if value.si > HIGHEST_BLOCK >= self._other(value):
            self._sentences["block position"] = self._sentence("block position", value)
        else:
            self._sentences.pop("block position", None)

    def _load(self, reading: Reading, loads: tuple[float, ...], seconds: float) -> None:
        value = _first(reading.values, HOOK_LOADS)
        if value is None or not loads:
            return
        as_set = _fits(value.si, loads, LOAD_SHARE, LOAD_MORE)
        self._suspected = not as_set and _fits(self._other(value), loads, LOAD_SHARE / 2)
        if not self._suspected:
            self._loads_since = None
            if as_set:
                self._sentences.pop("hook load", None)
            return
        self._loads_since = seconds if self._loads_since is None else self._loads_since
        if seconds - self._loads_since >= SUSPECTED_SECONDS:
            self._sentences["hook load"] = self._sentence("hook load", value)

    def _other(self, value: Value) -> float:
        unit = _unit(value.item, self._other_set)
        return unit.si(value.number)

    @property
    def _other_set(self) -> str:
        return METRIC if self._units == FIELD else FIELD

    def _sentence(self, what: str, value: Value) -> str:
        as_set = _unit(value.item, self._units).words
        fits = _unit(value.item, self._other_set).words
        return (
            f"The {what} {value.number:g} fits this job in {fits} only, and the stream is read in "
            f"{as_set}: set its units to {self._other_set}. Nothing of it is offered until then."
        )


def _unit(item: Item, units: str) -> WitsUnit:
    unit = item.unit(units)
    assert unit is not None, item.code  # the items looked at here all have units
    return unit


def _first(values: Mapping[str, Value], codes: Iterable[str]) -> Value | None:
    return next((values[code] for code in codes if code in values), None)


def _fits(value: float, wanted: Iterable[float], share: float, more: float = 0.0) -> bool:
    return any(abs(value - each) <= share * abs(each) + more for each in wanted)
