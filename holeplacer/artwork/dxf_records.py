"""Records: the things a DXF file lists (layers, blocks, entities), and columns of their values.

A record is a tag with group code 0 and the tags up to the next one. Values are fetched for many
records at once: column 40 of all circles, rows 10 and 20 of all polylines.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.dxf_tags import Floats, Indices, Tags


@dataclass(frozen=True, eq=False)
class Rows:
    """A group code that repeats within records.

    Attributes:
        first: (m + 1,) row of each record's first value; the last entry is n.
        tag: (n,) where each value stands.
        value: (n,) the values.
    """

    first: Indices
    tag: Indices
    value: Floats

    def of(self, position: int) -> Floats:
        """Values of the record at a position."""
        return self.value[self.first[position] : self.first[position + 1]]


@dataclass(frozen=True, eq=False)
class Records:
    """All records of a file.

    Attributes:
        tags: The file.
        first: (n,) tag each record starts with.
        last: (n,) tag after its last.
        kind: (n,) number of its name in `names`.
        names: Names such as `LINE`, in capitals.
    """

    tags: Tags
    first: Indices
    last: Indices
    kind: NDArray[np.int32]
    names: tuple[str, ...]
    _where: dict[int, Indices] = field(default_factory=dict)

    def named(self, name: str, within: Indices | None = None) -> Indices:
        """Numbers of all records of a name, or of those among some."""
        if name not in self.names:
            return np.zeros(0, dtype=np.intp)
        number = self.names.index(name)
        if within is None:
            return np.flatnonzero(self.kind == number)
        chosen: Indices = within[self.kind[within] == number]
        return chosen

    def name(self, record: int) -> str:
        """Name of one record."""
        return self.names[int(self.kind[record])]

    def first_tag(self, records: Indices, code: int) -> Indices:
        """First tag of a group code in each record, -1 where it has none."""
        where = self._tags_of(code)
        if not len(where):
            return np.full(len(records), -1, dtype=np.intp)
        at = np.minimum(np.searchsorted(where, self.first[records]), len(where) - 1)
        tag = where[at]
        inside = (tag >= self.first[records]) & (tag < self.last[records])
        return np.where(inside, tag, -1)

    def column(self, records: Indices, code: int, default: float = float("nan")) -> Floats:
        """First value of a group code in each record as a float."""
        tag = self.first_tag(records, code)
        values = np.full(len(records), default, dtype=float)
        found = tag >= 0
        values[found] = self.tags.numbers(tag[found])
        return values

    def flags(self, records: Indices, code: int, default: int = 0) -> NDArray[np.int64]:
        """First value of a group code in each record as a whole number, 0 if it is none."""
        values = self.column(records, code, default)
        usable = np.abs(np.nan_to_num(values, nan=0.0, posinf=0.0, neginf=0.0))
        signed = np.copysign(np.minimum(usable, 2.0**31), values)
        return np.where(np.isfinite(values), signed, 0.0).astype(np.int64)

    def rows(self, records: Indices, code: int) -> Rows:
        """All values of a group code in each record."""
        where = self._tags_of(code)
        low = np.searchsorted(where, self.first[records])
        count = np.searchsorted(where, self.last[records]) - low
        first = np.concatenate([[0], np.cumsum(count)]).astype(np.intp)
        at = np.arange(first[-1]) + np.repeat(low - first[:-1], count)
        return Rows(first, where[at], self.tags.numbers(where[at]))

    def text(self, record: int, code: int) -> str:
        """First value of a group code in one record as text, "" if it has none."""
        tag = int(self.first_tag(np.array([record]), code)[0])
        return self.tags.text(tag) if tag >= 0 else ""

    def texts(self, records: Indices, code: int) -> list[str]:
        """First value of a group code in each record as text, "" where there is none."""
        tag = self.first_tag(records, code)
        values = iter(self.tags.raw(tag[tag >= 0]))
        known: dict[bytes, str] = {}
        result = []
        for there in (tag >= 0).tolist():
            value = next(values) if there else b""
            if value not in known:
                known[value] = self.tags.decoded(value)
            result.append(known[value])
        return result

    def _tags_of(self, code: int) -> Indices:
        if code not in self._where:
            self._where[code] = np.flatnonzero(self.tags.code == code)
        return self._where[code]


def records_of(tags: Tags) -> Records:
    """Group the tags of a file into records."""
    first = np.flatnonzero(tags.code == 0)
    numbers: dict[bytes, int] = {}
    kind = [numbers.setdefault(value, len(numbers)) for value in tags.raw(first)]
    names = [value.decode("ascii", errors="replace").upper() for value in numbers]
    distinct = tuple(dict.fromkeys(names))
    renumbered = np.array([distinct.index(name) for name in names], dtype=np.int32)
    return Records(
        tags=tags,
        first=first,
        last=np.append(first[1:], len(tags.code)),
        kind=renumbered[np.array(kind, dtype=np.intp)],
        names=distinct,
    )
