"""Finding: where a plan breaks a rule or calls for care, by how much, and what would cure it."""

from dataclasses import dataclass
from enum import Enum


class PlaceKind(Enum):
    """What a finding is about."""

    HOLE = "hole"
    STRETCH = "stretch"
    PIECE = "piece"
    PLAN = "plan"


@dataclass(frozen=True)
class Place:
    """Where on the sign.

    Attributes:
        kind: What is meant.
        index: Hole number, or piece index counted from 1; 0 where neither applies.
        xy_mm: Point to jump to.
        length_mm: Length of a stretch; 0 otherwise.
    """

    kind: PlaceKind
    index: int
    xy_mm: tuple[float, float]
    length_mm: float = 0.0


@dataclass(frozen=True)
class Finding:
    """One rule in one place: broken, or a note to be known.

    Attributes:
        rule: Name of the rule, that of its module.
        place: Where.
        value: What it is, in `unit`.
        limit: What it must be, in `unit`.
        message: One sentence for a person, with both figures.
        way_out: What would cure it, with its figure.
        unit: `mm`, or empty for counts and shares.
        broken: Whether the rule is broken; False is a note, such as a hole that is drilled
            because the process can't cut it.
    """

    rule: str
    place: Place
    value: float
    limit: float
    message: str
    way_out: str
    unit: str = "mm"
    broken: bool = True
