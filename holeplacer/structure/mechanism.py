"""Mechanism: a piece whose standoffs leave it free to move without bending, named, not reckoned."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.structure.body import Body

RATIO = 1e-6
"""Least to greatest singular value of the standoffs' hold on the three rigid movements, below
which the piece counts as free to move."""
WEAK = 0.01
"""The same below which it counts as hardly held."""


@dataclass(frozen=True)
class Mechanism:
    """A piece that its standoffs don't hold.

    Attributes:
        piece: Index of the piece.
        why: In words.
        certain: False where it is held, but so weakly that its figures mean little.
        holes: Number of holes that hold it.
    """

    piece: int
    why: str
    certain: bool = True
    holes: int = 0

    @property
    def loose(self) -> bool:
        """Whether no two holes are there that caps could keep from turning."""
        return self.holes < 2


def mechanism(body: Body, xy: Points, *, clamped: bool) -> Mechanism | None:
    """Whether a piece can move without bending.

    Args:
        body: The piece.
        xy: (k, 2) its standoffs.
        clamped: Whether they hold the slopes too.
    """
    count = len(xy)
    if count == 0:
        return Mechanism(body.piece, "no hole holds it")
    if clamped:
        return None
    if count == 1:
        return Mechanism(body.piece, "one hole holds it: it can tilt any way about it", holes=1)
    values = np.linalg.svd(body.place.rigid_at(xy), compute_uv=False)
    ratio = values[2] / values[0] if len(values) == 3 else 0.0
    if ratio > WEAK:
        return None
    words = "two holes hold it" if count == 2 else f"its {count} holes lie in one line"
    if ratio <= RATIO:
        return Mechanism(
            body.piece, f"{words}: it can turn about the line through them", holes=count
        )
    why = f"its {count} holes lie nearly in one line: it can all but turn about it"
    return Mechanism(body.piece, why, certain=False, holes=count)
