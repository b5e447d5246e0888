"""Layout: a plan with the artwork as read, the cut outline and its medial axis."""

from collections.abc import Callable
from dataclasses import dataclass

from holeplacer.artwork import read
from holeplacer.artwork.account import Entry
from holeplacer.artwork.artwork import Artwork
from holeplacer.errors import InputError
from holeplacer.medial_axis import medial_axis
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline import boss, offset
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan


@dataclass(frozen=True, eq=False)
class Layout:
    """All that is computed from a plan apart from its holes. Compared by identity.

    Attributes:
        plan: The plan.
        artwork: What reading made of its file.
        outline: The cut outline: the artwork's with offset and bosses applied.
        axis: Medial axis of the cut outline.
        changes: What offset and bosses did to the outline beyond moving its edge: counters
            closed, pieces joined or lost, bosses that could not be applied and why.
    """

    plan: Plan
    artwork: Artwork
    outline: Outline
    axis: Axis
    changes: tuple[Entry, ...] = ()


def lay_out(
    plan: Plan, previous: Layout | None = None, step: Callable[[str], None] | None = None
) -> Layout:
    """Read, offset, swell and find the axis; what the change does not touch is taken over.

    Args:
        plan: The plan.
        previous: An earlier layout, of any plan.
        step: Called as each step begins that has to be done: `read`, `change`, `axis`.

    Raises:
        ArtworkError: The artwork can't be read.
        InputError: The offset leaves no metal.
    """
    begin = step or (lambda _: None)
    artwork = _artwork(plan, previous, begin)
    if previous is not None and artwork is previous.artwork and _same_edits(plan, previous.plan):
        return Layout(plan, artwork, previous.outline, previous.axis, previous.changes)
    begin("change")
    outline, changes = _cut_outline(plan, artwork.outline)
    begin("axis")
    return Layout(plan, artwork, outline, medial_axis.medial_axis(outline), changes)


def _artwork(plan: Plan, previous: Layout | None, begin: Callable[[str], None]) -> Artwork:
    if (
        previous is not None
        and plan.reading == previous.plan.reading
        and plan.artwork == previous.plan.artwork
    ):
        return previous.artwork
    begin("read")
    return read.read_artwork(plan.artwork, plan.reading)


def _same_edits(plan: Plan, other: Plan) -> bool:
    return plan.offset_mm == other.offset_mm and plan.bosses == other.bosses


def _cut_outline(plan: Plan, drawn: Outline) -> tuple[Outline, tuple[Entry, ...]]:
    outline, changes = drawn, list[Entry]()
    if plan.offset_mm:
        outline = offset.offset(drawn, plan.offset_mm)
        changes += (
            Entry(change.what, f"by the offset of {plan.offset_mm:g} mm", xy_mm=change.xy_mm)
            for change in offset.changes(drawn, outline)
        )
    for item in plan.bosses:
        try:
            outline = boss.with_boss(outline, item.x_mm, item.y_mm, item.radius_mm, item.blend_mm)
        except InputError as error:
            changes.append(Entry("boss left out", str(error), xy_mm=(item.x_mm, item.y_mm)))
    return outline, tuple(changes)
