"""p-centre: the best places for a given number of holes on one piece.

Best means that the worst-served demand is served as well as can be, the next worst as well as can
be after that, and so on. `tightness` says how well: the least share of all limits (half the
spacing, the overhang) that the layout would still keep. Found from above:
a layout is evened, tighter and tighter covers are asked for until there is none with so few
holes, and the tightest is evened.
"""

from dataclasses import dataclass, replace

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import fewest, refinement
from holeplacer.placement.demands import Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes
from holeplacer.placement.watch import Watch

STEP = 0.01
"""A layout is good enough when none is tighter by this share."""

_WIDEST = 64.0
_BOLDER = 4.0
_ROUNDS = 8
_SAME = 1e-9


@dataclass(frozen=True, eq=False)
class Centred:
    """The best layout found for a number of holes.

    Attributes:
        cover: The layout.
        least: No layout with as many holes on the axis is tighter than this.
    """

    cover: Cover
    least: float


def tightened(wanted: Wanted, cover: Cover, owed: Owed, watch: Watch, *, tries: int) -> Centred:
    """Best layout with as many holes as a cover has, that keeps what holes owe each other.

    Args:
        wanted: What must be covered.
        cover: A layout to begin with.
        owed: What its holes owe each other.
        watch: The person's patience.
        tries: How many tighter covers to ask for at most.
    """
    best = _evened(wanted, cover, owed)
    high, low, step = best.tightness, 0.0, STEP
    tighter: list[Cover] = []
    for _ in range(tries):
        if high * (1 - STEP) <= low * (1 + _SAME):
            break
        asked = max(high * (1 - step), float(np.sqrt(high * low)))
        asked = min(asked, high * (1 - STEP))
        found = fewest.fewest(
            wanted,
            cover.holes.stays,
            watch,
            tightness=asked,
            at_most=len(cover.holes),
            rounds=_ROUNDS,
        )
        if found is None:
            low = asked
            continue
        if len(found.holes) > len(cover.holes):
            break
        tighter.append(found)
        high, step = min(asked, found.tightness), min(step * _BOLDER, 0.5)
    for found in reversed(tighter):
        better = _evened(wanted, _filled_up(wanted, found, len(best.holes)), owed)
        if owed.kept(better.holes) and better.tightness < best.tightness:
            best = replace(better, bound=cover.bound)
            break
    return Centred(best, min(low, best.tightness))


def centred(
    wanted: Wanted, stays: AxisPoints, count: int, owed: Owed, watch: Watch, *, tries: int
) -> Centred | None:
    """Best layout with a given number of new holes; None if the metal has no room for them."""
    tightness = 1.0
    found = None
    while (found is None or len(found.holes) > count) and tightness < _WIDEST:
        found = fewest.fewest(wanted, stays, watch, tightness=tightness, at_most=count)
        tightness *= 1.25
    if found is None or len(found.holes) > count:
        return None
    layout = _with_more(wanted, found.holes, count)
    cover = Cover(layout, found.bound, refinement.peaks(wanted, layout))
    return tightened(wanted, cover, owed, watch, tries=tries)


def _evened(wanted: Wanted, cover: Cover, owed: Owed) -> Cover:
    """As even as can be; distance and base kept if they are kept to begin with."""
    keeps = owed if owed.kept(cover.holes) else None
    free, peaks = refinement.evened(wanted, cover.holes)
    if keeps is not None and not owed.kept(free):
        free, peaks = refinement.evened(wanted, cover.holes, keeps=keeps)
    return Cover(free, cover.bound, peaks)


def _filled_up(wanted: Wanted, found: Cover, count: int) -> Cover:
    """A tighter cover may need fewer holes: keep the number by adding where most is gained."""
    if len(found.holes) >= count:
        return found
    layout = _with_more(wanted, found.holes, count)
    return Cover(layout, found.bound, refinement.peaks(wanted, layout))


def _with_more(wanted: Wanted, holes: Holes, count: int) -> Holes:
    """Holes added where they are missed most."""
    while len(holes) < count:
        now = refinement.peaks(wanted, holes)
        worst = int(np.argmax(now.way))
        branch, s = now.points.branch[worst], now.points.s[worst]
        stretch = int(wanted.room.holding(np.array([branch]), np.array([s]))[0])
        if stretch < 0:
            away = ways.reach(wanted.axis, holes.sites)
            middle = (wanted.room.low + wanted.room.high) / 2
            stretch = int(np.argmax(away.way_at(wanted.room.branch, middle)))
            s = middle[stretch]
        holes = Holes(
            holes.room, np.append(holes.stretch, stretch), np.append(holes.s, s), holes.stays
        )
    return holes
