"""Wall: everything the person knows and decided about the wall, as one value of the plan.

Wall coordinates are millimetres from the wall's lower left corner, x to the right, y up. The sign
is hung upright, so that a translation leads from sign coordinates to them: see `placing`.
"""

from dataclasses import dataclass, field
from typing import Literal, get_args

from holeplacer.wall.as_found import AsFound, Revision
from holeplacer.wall.fastener import Fastener
from holeplacer.wall.layer import Layer
from holeplacer.wall.photo import Photo
from holeplacer.wall.zone import Studs, Zone

Across = Literal["centred", "left", "right"]
"""What of the sign is placed sideways by what of the wall: middle, left edge, right edge."""

Up = Literal["centred", "bottom", "top", "ground", "level"]
"""The same upwards: middle, lower edge, upper edge; or the sign's lower edge, or its level line,
above the ground."""

Landing = Literal["any", "prefer", "only"]
"""What holes do about good zones: nothing, lie there where that costs no hole, lie nowhere else."""

ACROSS: tuple[Across, ...] = get_args(Across)
UP: tuple[Up, ...] = get_args(Up)
LANDINGS: tuple[Landing, ...] = get_args(Landing)


@dataclass(frozen=True)
class Elevation:
    """The wall seen from in front.

    Attributes:
        width_mm, height_mm: Its size.
        ground_mm: Height of the ground over the wall's lower edge; negative: below it.
    """

    width_mm: float
    height_mm: float
    ground_mm: float = 0.0


@dataclass(frozen=True)
class Placing:
    """Where on the wall the sign hangs.

    Attributes:
        across: What is placed sideways.
        across_mm: From the wall's middle to the sign's, to the right; or from the wall's left or
            right edge inwards to the sign's.
        up: What is placed upwards.
        up_mm: From the wall's middle to the sign's, up; or from the wall's lower or upper edge
            inwards to the sign's; or above the ground.
        level_mm: The level line's y in sign coordinates, the line that must be horizontal; None:
            the sign's lower edge.
        datum_mm: Origin of all listed dimensions in sign coordinates; None: where the level line
            meets the sign's left edge.
    """

    across: Across = "centred"
    across_mm: float = 0.0
    up: Up = "centred"
    up_mm: float = 0.0
    level_mm: float | None = None
    datum_mm: tuple[float, float] | None = None


@dataclass(frozen=True)
class Wall:
    """The wall, all of it optional.

    Attributes:
        elevation: Its size; None: not entered, the sign's own coordinates are then the wall's.
        placing: Where the sign hangs on it.
        zones: What is where.
        studs: Framing at an even spacing, in rows; each is a number of good zones.
        clear_mm: Least distance from the drilled hole's edge to a blocked zone (common practice,
            no source).
        inside_mm: A hole is held by a good zone if its centre is at least this far inside.
        landing: What holes do about good zones.
        layers: What a fastener passes, from outside to inside; none: not entered.
        fastener: What holds each standoff.
        photo: A photograph as backdrop.
        sign_cut: The sign is cut: no hole can be moved any more.
        as_found: Holes that could not be drilled.
        revisions: Issues of the papers, in order.
    """

    elevation: Elevation | None = None
    placing: Placing = field(default_factory=Placing)
    zones: tuple[Zone, ...] = ()
    studs: tuple[Studs, ...] = ()
    clear_mm: float = 25.0
    inside_mm: float = 9.5
    landing: Landing = "prefer"
    layers: tuple[Layer, ...] = ()
    fastener: Fastener = field(default_factory=Fastener)
    photo: Photo | None = None
    sign_cut: bool = False
    as_found: tuple[AsFound, ...] = ()
    revisions: tuple[Revision, ...] = ()
