"""Rereading: the artwork read otherwise, with holes and bosses carried along on the lettering."""

from collections.abc import Callable
from dataclasses import replace

from holeplacer.artwork import placing
from holeplacer.artwork.options import ReadOptions
from holeplacer.evaluation.layout import Layout, lay_out
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan


def reread(
    plan: Plan, layout: Layout, reading: ReadOptions, step: Callable[[str], None] | None = None
) -> Layout:
    """Lay a plan out with its artwork read otherwise: larger, level, mirrored, in other units.

    Holes and bosses stay where they are on the lettering; their diameters and radii are hardware
    and stay as they are.

    Args:
        plan: The plan, its holes in the coordinates of the layout.
        layout: A layout of the same artwork; its reading says where the holes were.
        reading: How the artwork is to be read.
        step: As in `lay_out`.

    Returns:
        The new layout; its plan has the reading and the carried holes.

    Raises:
        ArtworkError: The artwork can't be read so.
        InputError: The offset leaves no metal.
    """
    anew = edit.with_reading(plan, reading)
    fresh = lay_out(replace(anew, bosses=()), layout, step)
    by = placing.between(layout.artwork, layout.plan.reading, fresh.artwork, reading)
    return lay_out(edit.carried(anew, by), fresh, step)
