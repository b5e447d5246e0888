"""Hole: centre, diameter, piece, number; drilled or cut."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Hole:
    """One mounting hole.

    Attributes:
        number: Unique in the plan; what the drill list and the person call it.
        x_mm, y_mm: Centre in sign coordinates.
        diameter_mm: Its own diameter; None takes the plan's.
        fixed: Stays where it is when holes are proposed anew.
        fixed_point: The person wants the sheet to grow and shrink about this hole; without one
            in a piece, the hole nearest to the piece's centre of gravity is proposed.
        fastened: A fastener holds it in the wall; False where its standoff is only glued on, which
            counts as no support at all.
    """

    number: int
    x_mm: float
    y_mm: float
    diameter_mm: float | None = None
    fixed: bool = False
    fixed_point: bool = False
    fastened: bool = True


@dataclass(frozen=True)
class Boss:
    """A local swelling of the stroke that gives one hole its edge distance.

    Attributes:
        x_mm, y_mm: Centre.
        radius_mm: Metal all round the centre reaches at least this far.
        blend_mm: Radius of the fillets that lead back into the stroke.
    """

    x_mm: float
    y_mm: float
    radius_mm: float
    blend_mm: float
