"""Shipped tables, demo artwork, icons and fonts, wherever the program is installed."""

import csv
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Protocol, TypeVar

from holeplacer.errors import InputError


class Named(Protocol):
    """A row of a table, made a value."""

    @property
    def name(self) -> str:
        """What a person calls it."""


NamedT = TypeVar("NamedT", bound=Named)

_PACKAGE = Path(__file__).resolve().parent


def resource_path(*parts: str) -> Path:
    """Path of a shipped file.

    Args:
        *parts: Folder and file names below `resources/`.

    Raises:
        FileNotFoundError: The program is installed without its resources.
    """
    for root in (_PACKAGE / "_resources", _PACKAGE.parent / "resources"):
        path = root.joinpath(*parts)
        if path.exists():
            return path
    raise FileNotFoundError("/".join(parts))


@cache
def table(name: str) -> tuple[Mapping[str, str], ...]:
    """Rows of `resources/tables/NAME.csv`, one mapping of column to text each.

    Lines that begin with `#` are notes. Every table has the columns `source` and `status`
    (`P` read on a public page, `R` recomputed here, `M` from memory: verify).
    """
    text = resource_path("tables", f"{name}.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    return tuple(csv.DictReader(lines))


def by_name(items: Sequence[NamedT], name: str, kind: str) -> NamedT:
    """The item of that name.

    Args:
        items: To choose from.
        name: The name wanted.
        kind: What they are, in words, for the error.

    Raises:
        InputError: There is none.
    """
    for item in items:
        if item.name == name:
            return item
    listed = "; ".join(item.name for item in items)
    raise InputError(f"there is no {kind} {name!r}", remedy=f"take one of: {listed}")
