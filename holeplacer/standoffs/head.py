"""Head: what holds the sheet in front: a cap on the stud, or a screw's own head."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources


@dataclass(frozen=True)
class Head:
    """One kind of head.

    Attributes:
        name: What a plan calls it.
        title: For reading.
        across: Its diameter by the stud's, for a start.
        note: What to know about it; may be empty.
        source: Where the figure comes from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    name: str
    title: str
    across: float
    note: str
    source: str
    status: str


@cache
def heads() -> tuple[Head, ...]:
    """Every kind, in the table's order."""
    return tuple(
        Head(
            name=row["head"],
            title=row["title"],
            across=float(row["across"]),
            note=row["note"],
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("heads")
    )


def head(name: str) -> Head:
    """The kind of that name.

    Raises:
        InputError: There is none.
    """
    return resources.by_name(heads(), name, "head")
