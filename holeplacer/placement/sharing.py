"""Sharing: a number of holes given out to the pieces, so that the worst-served fares best.

Each piece has its own best layout for every number of holes; the next hole goes to the piece that
is served worst, or can turn.
"""

import numpy as np

from holeplacer.placement import fewest, piece_holes
from holeplacer.placement.piece_holes import PieceHoles
from holeplacer.placement.piece_task import PieceTask
from holeplacer.placement.watch import Watch

_TRIES = 6
_LOOSEST, _TIGHTEST = 64.0, 1.0 / 64
_HALVINGS = 9


class Sharing:
    """Layouts of all pieces at a number of new holes that only grows.

    Attributes:
        least: New holes the pieces need at least: one each, where they have room and none stays.
    """

    def __init__(self, tasks: tuple[PieceTask, ...], watch: Watch) -> None:
        """Begin without any layout."""
        self._tasks, self._watch = tasks, watch
        self._layout: list[PieceHoles | None] = [None] * len(tasks)
        self._full = [False] * len(tasks)
        for index, job in enumerate(tasks):
            if job.wanted is None or not len(job.wanted.room):
                self._layout[index] = piece_holes.solve(job, np.empty((0, 2)), watch, tries=0)
                self._full[index] = True
        self.least = sum(self._least(index) for index in range(len(tasks)))

    @property
    def count(self) -> int:
        """New holes given out."""
        return sum(len(layout.centres) for layout in self._layout if layout is not None)

    @property
    def tightness(self) -> float:
        """That of the worst-served piece."""
        return max((layout.tightness for layout in self.holes()), default=0.0)

    def holes(self) -> list[PieceHoles]:
        """The layouts, in the order of the pieces."""
        return [layout for layout in self._layout if layout is not None]

    def start(self, count: int) -> None:
        """Give out as many as the tightest limits take that `count` holes can keep."""
        loose, tight = _LOOSEST, _TIGHTEST
        needed = self._needed(loose, count) or [self._least(i) for i in range(len(self._tasks))]
        for _ in range(_HALVINGS):
            middle = float(np.sqrt(loose * tight))
            trial = self._needed(middle, count)
            if trial is None:
                tight = middle
            else:
                loose, needed = middle, trial
        for index, number in enumerate(needed):
            self._take(index, number)

    def add(self) -> bool:
        """One hole more where it helps most; False if no piece has room for one."""
        order = sorted(
            (index for index, full in enumerate(self._full) if not full), key=self._urgency
        )
        for index in reversed(order):
            layout = self._layout[index]
            if self._take(index, 1 if layout is None else len(layout.centres) + 1):
                return True
            self._full[index] = True
        return False

    def _urgency(self, index: int) -> float:
        layout = self._layout[index]
        if layout is None:
            return np.inf
        can_turn = not layout.held and self._tasks[index].owed.base_mm is not None
        return max(layout.tightness, 1.0) if can_turn else layout.tightness

    def _least(self, index: int) -> int:
        layout = self._layout[index]
        if layout is not None:
            return len(layout.centres)
        return 0 if len(self._tasks[index].stay_feet) else 1

    def _needed(self, tightness: float, at_most: int) -> list[int] | None:
        """New holes of each piece at a tightness; None if they are too many in all.

        Where the limits can be kept, two holes that keep a piece from turning go before tighter
        spans elsewhere.
        """
        left = at_most - self.least
        needed = []
        for index, job in enumerate(self._tasks):
            least = self._least(index)
            if self._full[index] or job.wanted is None:
                needed.append(least)
                continue
            cover = fewest.fewest(
                job.wanted, job.stay_feet, self._watch, tightness=tightness, at_most=least + left
            )
            held = 2 - len(job.stay_feet) if job.owed.base_mm is not None else 0
            asked = max(least, held) if tightness <= 1.0 else least
            if cover is None or max(len(cover.holes), asked) > least + left:
                return None
            needed.append(max(len(cover.holes), asked))
            left -= needed[-1] - least
        return needed

    def _take(self, index: int, number: int) -> bool:
        if self._full[index]:
            return False
        self._watch.look()
        solved = piece_holes.solve_count(self._tasks[index], number, self._watch, tries=_TRIES)
        if solved is None or len(solved[0].centres) != number:
            return False
        self._layout[index] = solved[0]
        return True
