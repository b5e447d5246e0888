"""Found blocked: what can be done about a hole that can't be drilled where the template has it.

Before the sign is cut the hole is moved along its stroke. Afterwards it can be skipped, its
standoff glued on without a fastener, or its work given to one or two holes drilled on site close
by. Every other hole stays. Each way is judged whole: what it breaks that was not broken before is
told.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import hypot
from typing import Literal

import numpy as np

from holeplacer.errors import InputError
from holeplacer.evaluation import comparison, evaluate
from holeplacer.evaluation.comparison import Figures
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import elsewhere
from holeplacer.placement.elsewhere import Places
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import wall
from holeplacer.rules.finding import Finding
from holeplacer.wall.as_found import AsFound, Revision

Kind = Literal["move", "skip", "glue", "add"]

_PITCH_MM = 2.0
_PAIR_PITCH_MM = 8.0
_PAIRS_TRIED = 40
_HALVINGS = 5


@dataclass(frozen=True)
class Alternative:
    """One way out for a blocked hole.

    Attributes:
        kind: `move` (not cut yet), `skip`, `glue`, `add` (cut, or where no move will do).
        plan: The plan as it would be, with what was found marked on its wall.
        words: What is done, in a sentence.
        changes: What changed, for the papers.
        way_mm: How far along the stroke the place, or the further of two, is from the lost one.
        added: Numbers of new holes.
        before, after: Figures as if nothing were blocked, and of this way.
        breaks: What is broken that was not before; none: every rule is kept as it was.
        beside: Those of them that the find itself brings, whichever way is taken: other holes too
            near what was found. They are to be probed, too.
    """

    kind: Kind
    plan: Plan
    words: str
    changes: tuple[str, ...]
    way_mm: float
    added: tuple[int, ...]
    before: Figures
    after: Figures
    breaks: tuple[Finding, ...]
    beside: tuple[Finding, ...] = ()

    @property
    def passes(self) -> bool:
        """Whether it breaks nothing that was not broken before."""
        return not self.breaks


def marked(plan: Plan, number: int, what: str = "") -> Plan:
    """The plan with a hole marked as blocked where it is; an older mark there is replaced.

    Raises:
        InputError: No hole bears the number, or it is only glued on.
    """
    hole = edit.hole_numbered(plan, number)
    if not hole.fastened:
        raise InputError(f"hole {number} has no fastener", remedy="nothing is drilled for it")
    others = (mark for mark in plan.wall.as_found if not _at(mark, hole))
    marks = (*others, AsFound(number, what, hole.x_mm, hole.y_mm))
    return edit.with_wall(plan, replace(plan.wall, as_found=marks))


def taken(plan: Plan, alternative: Alternative, date: str = "") -> Plan:
    """The plan after an alternative, its papers one revision on.

    Args:
        plan: The plan it was offered for.
        alternative: The one chosen.
        date: As the person wrote it; may be empty.
    """
    number = max((revision.number for revision in plan.wall.revisions), default=0) + 1
    revisions = (*plan.wall.revisions, Revision(number, alternative.changes, date))
    wall = replace(alternative.plan.wall, revisions=revisions)
    return edit.with_wall(alternative.plan, wall)


def alternatives(
    plan: Plan,
    outline: Outline,
    axis: Axis,
    number: int,
    *,
    cut: bool | None = None,
    progress: Callable[[float, str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> tuple[Alternative, ...]:
    """What can be done about a hole; first what breaks nothing of itself, the nearest first.

    Args:
        plan: The plan; what was found may be marked already (`marked`).
        outline: The cut outline.
        axis: Its medial axis.
        number: The hole.
        cut: Whether the sign is cut; None takes the plan's word.
        progress: Told the share done and what is being done.
        cancelled: Asked now and then whether to stop.

    Raises:
        InputError: No hole bears the number, or it has no fastener.
        Cancelled: The person stopped the work.
    """
    is_cut = plan.wall.sign_cut if cut is None else cut
    site = _site(plan, outline, axis, number, is_cut, Watch(0.0, cancelled, progress))
    found = _with_sign_cut(site) if is_cut else _with_sign_whole(site)
    site.watch.tell(1.0, "done")
    return tuple(sorted(found, key=lambda item: (item.breaks != item.beside, item.way_mm)))


@dataclass(frozen=True, eq=False)
class _Site:
    """What all ways start from: the blocked hole, the plan marked, and what was broken before."""

    outline: Outline
    axis: Axis
    watch: Watch
    marked: Plan
    lost: Hole
    what: str
    findings: tuple[Finding, ...]
    beside: tuple[Finding, ...]
    before: Figures

    def keeps(self, plan: Plan) -> bool:
        """Whether nothing more is broken than before and by the find itself."""
        self.watch.look()
        known = (*self.findings, *self.beside)
        return comparison.breaks_nothing(known, plan, self.outline, self.axis)

    def alternative(
        self,
        kind: Kind,
        plan: Plan,
        words: str,
        way_mm: float = 0.0,
        added: tuple[int, ...] = (),
        judged: Plan | None = None,
    ) -> Alternative:
        """Judged whole; `judged` where the metal is weaker than the plan tells."""
        self.watch.look()
        evaluation = evaluate.evaluate(judged or plan, self.outline, self.axis)
        breaks = comparison.worse(self.findings, evaluation.findings)
        return Alternative(
            kind=kind,
            plan=plan,
            words=words,
            changes=(f"Hole {self.lost.number} was found blocked{self.what}", words),
            way_mm=way_mm,
            added=added,
            before=self.before,
            after=comparison.figures(judged or plan, evaluation),
            breaks=breaks,
            beside=tuple(item for item in breaks if item in self.beside),
        )


def _site(plan: Plan, outline: Outline, axis: Axis, number: int, cut: bool, watch: Watch) -> _Site:
    watch.tell(0.0, "judging the plan as it was")
    lost = edit.hole_numbered(plan, number)
    marks = [mark for mark in plan.wall.as_found if _at(mark, lost)]
    others = tuple(mark for mark in plan.wall.as_found if mark not in marks)
    unmarked = edit.with_wall(plan, replace(plan.wall, as_found=others, sign_cut=cut))
    made = marked(unmarked, number, marks[-1].what if marks else "")
    evaluation = evaluate.evaluate(unmarked, outline, axis)
    what = made.wall.as_found[-1].what
    known = _but_of_wall(evaluation.findings, number)
    near = wall.check(edit.without_hole(made, number), outline, axis)
    return _Site(
        outline=outline,
        axis=axis,
        watch=watch,
        marked=made,
        lost=lost,
        what=f": {what}" if what else "",
        findings=known,
        beside=comparison.worse(known, near),
        before=comparison.figures(unmarked, evaluation),
    )


def _but_of_wall(findings: tuple[Finding, ...], number: int) -> tuple[Finding, ...]:
    """Without what the wall already said of the lost hole: its way out has to cure that."""
    return tuple(
        item for item in findings if not (item.rule == wall.NAME and item.place.index == number)
    )


def _at(mark: AsFound, hole: Hole) -> bool:
    return mark.hole == hole.number and hypot(mark.x_mm - hole.x_mm, mark.y_mm - hole.y_mm) < 1e-6


def _with_sign_whole(site: _Site) -> list[Alternative]:
    """Move the hole either way; where neither will do, all else that there is."""
    without = edit.without_hole(site.marked, site.lost.number)
    places = elsewhere.places(without, site.outline, site.axis, site.lost, pitch_mm=_PITCH_MM)
    site.watch.tell(0.2, "looking along the stroke")
    found = []
    for onward in (False, True):
        side = places[places.onward == onward]
        best = _nearest(site, side, lambda at: _moved(site, at))
        if best is not None:
            found.append(_as_moved(site, best))
    if found:
        return found
    site.watch.tell(0.5, "looking for two holes in its stead")
    failing = [_as_moved(site, places[np.array([0])])] if len(places) else []
    return [*failing, *_added(site, without), *_left(site)]


def _moved(site: _Site, place: Places) -> Plan:
    x, y = place.xy[0].tolist()
    return edit.with_hole_moved(site.marked, site.lost.number, x, y)


def _as_moved(site: _Site, place: Places) -> Alternative:
    (x, y), way = place.xy[0].tolist(), float(place.way_mm[0])
    right, up = x - site.lost.x_mm, y - site.lost.y_mm
    words = (
        f"Move hole {site.lost.number} by {way:.1f} mm along the stroke ({right:+.1f} mm across, "
        f"{up:+.1f} mm up) to x {x:.1f}, y {y:.1f} mm"
    )
    return site.alternative("move", _moved(site, place), words, way)


def _with_sign_cut(site: _Site) -> list[Alternative]:
    """Skip the hole, glue its standoff on, or drill one or two on site."""
    left = _left(site)
    site.watch.tell(0.3, "looking for a place to drill on site")
    return [*left, *_added(site, edit.with_hole_fastened(site.marked, site.lost.number, False))]


def _left(site: _Site) -> list[Alternative]:
    """Nothing holds where the hole was: it is skipped, or its standoff glued on."""
    number = site.lost.number
    glued = edit.with_hole_fastened(site.marked, number, False)
    skipped = edit.without_hole(site.marked, number)
    # Once cut, an empty hole still weakens the sheet: it is judged as if a standoff were glued on.
    judged = glued if site.marked.wall.sign_cut else skipped
    empty = f"Leave hole {number} empty, without standoff"
    glue = f"Glue the standoff of hole {number} on, without fastener: it counts for nothing"
    return [
        site.alternative("skip", skipped, empty, judged=judged),
        site.alternative("glue", glued, glue),
    ]


def _added(site: _Site, base: Plan) -> list[Alternative]:
    """One hole more, or two if one can't do it; the nearest failing one if neither can."""
    places = elsewhere.places(base, site.outline, site.axis, site.lost, pitch_mm=_PITCH_MM)
    one = _nearest(site, places, lambda at: _with(site, base, at)[0])
    if one is not None:
        return [_as_added(site, base, one)]
    coarse = elsewhere.places(base, site.outline, site.axis, site.lost, pitch_mm=_PAIR_PITCH_MM)
    whole, bare = site.marked, edit.without_hole(site.marked, site.lost.number)
    pairs = elsewhere.pairs(whole, bare, site.outline, site.axis, coarse)
    for pair in pairs[:_PAIRS_TRIED]:
        both = coarse[np.array(pair)]
        if site.keeps(_with(site, base, both)[0]):
            return [_as_added(site, base, both)]
    return [_as_added(site, base, places[np.array([0])])] if len(places) else []


def _with(site: _Site, base: Plan, places: Places) -> tuple[Plan, tuple[int, ...]]:
    """New holes bear numbers that none has borne: on site, two of one number would be mixed up."""
    first = edit.next_number(site.marked)
    new = tuple(
        Hole(number, x, y, site.lost.diameter_mm)
        for number, (x, y) in enumerate(places.xy.tolist(), start=first)
    )
    return edit.with_holes(base, (*base.holes, *new)), tuple(hole.number for hole in new)


def _as_added(site: _Site, base: Plan, places: Places) -> Alternative:
    plan, numbers = _with(site, base, places)
    where = " and ".join(
        f"{number} at x {x:.1f}, y {y:.1f} mm, {way:.1f} mm along the stroke"
        for number, (x, y), way in zip(
            numbers, places.xy.tolist(), places.way_mm.tolist(), strict=True
        )
    )
    lost = site.lost.number
    kept = any(hole.number == lost for hole in base.holes)
    stead = f"glue the standoff of hole {lost} on" if kept else f"leave hole {lost} out"
    drill = "Drill on site" if kept else "Place"
    words = f"{drill} hole{'s' if len(numbers) > 1 else ''} {where}; {stead}"
    return site.alternative("add", plan, words, float(places.way_mm.max()), numbers)


def _nearest(site: _Site, places: Places, made: Callable[[Places], Plan]) -> Places | None:
    """The nearest place where nothing more is broken, found finer between it and the one before."""
    for index in range(len(places)):
        here = places[np.array([index])]
        if not site.keeps(made(here)):
            continue
        return _finer(site, places, index, made)
    return None


def _finer(site: _Site, places: Places, index: int, made: Callable[[Places], Plan]) -> Places:
    best = places[np.array([index])]
    if index == 0 or abs(places.way_mm[index] - places.way_mm[index - 1]) > 2 * _PITCH_MM:
        return best
    near = places[np.array([index - 1])]
    for _ in range(_HALVINGS):
        middle = near.halfway(best)
        if middle is None:
            break
        if site.keeps(made(middle)):
            best = middle
        else:
            near = middle
    return best
