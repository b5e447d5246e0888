"""Fastener: what holds one standoff in the wall, as the person wishes it."""

from dataclasses import dataclass
from typing import Literal, get_args

FastenerKind = Literal[
    "lag screw", "wood screw", "adhesive anchor", "sleeve anchor", "through bolt"
]
"""A screw into wood by the lag screws' or the wood screws' rules (a hanger bolt counts as a lag
screw); a threaded stud set in adhesive; one held by an expanding or plastic sleeve; a bolt through
everything with washer and nut behind."""

Reach = Literal["sheet", "barrel"]
"""Whether the fastener itself goes on through barrel and sheet to the cap (a stud), or ends in the
barrel's foot (a screw that holds the barrel, whose own thread takes the cap)."""

FASTENER_KINDS: tuple[FastenerKind, ...] = get_args(FastenerKind)
REACHES: tuple[Reach, ...] = get_args(Reach)


@dataclass(frozen=True)
class Fastener:
    """The fastener of every standoff.

    Attributes:
        kind: How it holds.
        reach: How far out it goes.
        diameter_mm: Of thread or shank; None: the standoff's stud.
        embedment_mm: Least length held in the bearing layer; None: by table.
        drill_mm: Of the hole in the bearing layer; None: by table.
        engagement_mm: Of thread in the cap, or of the screw's head and the barrel's foot it
            passes, whichever end is out; None: one diameter.
    """

    kind: FastenerKind = "lag screw"
    reach: Reach = "sheet"
    diameter_mm: float | None = None
    embedment_mm: float | None = None
    drill_mm: float | None = None
    engagement_mm: float | None = None

    @property
    def title(self) -> str:
        """What it is bought as: a screw in wood that goes on to the cap is a hanger bolt."""
        screwed = self.kind in ("lag screw", "wood screw")
        return "hanger bolt" if screwed and self.reach == "sheet" else self.kind
