"""Hole place: a hole in the sheet with its stud and the metal round it."""

from dataclasses import dataclass

from holeplacer.resistance import given


@dataclass(frozen=True)
class HolePlace:
    """A hole and the metal round it, mm.

    Attributes:
        stud_mm: Stud diameter d.
        hole_mm: Hole diameter d0.
        edge_mm: Hole's centre to the edge the stud presses towards, e or e1. The nearest edge in
            any direction is the safe choice.
        side_mm: Hole's centre to the edge beside, e2; None: as `edge_mm`.
        washers: Cap and barrel, or two washers, hold the sheet flat on both sides.

    Raises:
        InputError: A diameter is not above 0, or a distance negative.
    """

    stud_mm: float
    hole_mm: float
    edge_mm: float
    side_mm: float | None = None
    washers: bool = True

    def __post_init__(self) -> None:
        """Refuse what no hole can be."""
        given.positive(self.stud_mm, "the stud's diameter in mm")
        given.positive(self.hole_mm, "the hole's diameter in mm")
        given.not_negative(self.edge_mm, "the edge distance in mm")
        given.not_negative(self.beside_mm, "the edge distance to the side in mm")

    @property
    def beside_mm(self) -> float:
        """Distance to the edge beside, e2."""
        return self.edge_mm if self.side_mm is None else self.side_mm
