"""Job: from a named file to a layout and its evaluation, timed and shown step by step."""

from __future__ import annotations

import time
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from holeplacer.artwork import source
from holeplacer.cli import choices, dividing, loading, reading, wall
from holeplacer.cli.progress import Progress
from holeplacer.errors import UnitsMissing
from holeplacer.evaluation import layout, rereading
from holeplacer.evaluation.layout import Layout
from holeplacer.plan import edit, plan_file, validity
from holeplacer.plan.plan import Plan

if TYPE_CHECKING:  # the rules are slow to load, and not every job comes to them
    from holeplacer.evaluation.evaluate import Evaluation

_STEPS = {
    "read": (0.05, "reading the artwork"),
    "change": (0.2, "changing the outline"),
    "axis": (0.25, "finding the strokes"),
    "place": (0.4, "placing holes"),
    "divide": (0.0, "dividing into sections"),
    "check": (0.9, "checking"),
    "write": (0.95, "writing"),
}


class Steps:
    """Times the steps of a job and shows each as it begins.

    Args:
        progress: Where they are shown.

    Attributes:
        seconds: Time of each step that has ended, by name.
    """

    def __init__(self, progress: Progress) -> None:
        self.seconds: dict[str, float] = {}
        self._progress = progress
        self._name = ""
        self._began = time.perf_counter()

    def __call__(self, name: str) -> None:
        """End the present step and begin the named one; an empty name only ends."""
        now = time.perf_counter()
        if self._name:
            self.seconds[self._name] = self.seconds.get(self._name, 0.0) + now - self._began
        self._name, self._began = name, now
        if name:
            self._progress(*_STEPS[name])


def is_plan(path: Path) -> bool:
    """Whether a file is a plan, by its name or by how it begins."""
    if path.suffix.lower() == plan_file.SUFFIX:
        return True
    try:
        if not path.is_file():  # a pipe would wait for ever
            return False
        with path.open("rb") as file:
            return file.read(64).lstrip().startswith(b"{")
    except (OSError, ValueError):
        return False


def opened(path: Path, given: Mapping[str, Any] | None = None) -> Plan:
    """The plan in a file, or a new one for artwork.

    Args:
        path: The file.
        given: What the command line says; for artwork it must say what only a plan knows.

    Raises:
        HoleplacerError: The file can't be read, or a gauge is given without a metal.
    """
    if is_plan(path):
        return plan_file.load_plan(path)
    if given is not None:
        choices.refuse_gauge_alone(given)
    return Plan(source.load_file(path))


def laid_out(plan: Plan, given: Mapping[str, Any], steps: Steps) -> Layout:
    """A plan with what the command line says, its outline and its axis.

    Where artwork is to be read otherwise than the plan says, its holes and bosses stay where they
    are on the lettering.

    Raises:
        HoleplacerError: The artwork can't be read so, or a figure can't be meant.
    """
    wanted = reading.reading(plan.reading, given)
    plan = dividing.chosen(loading.loaded(choices.chosen(plan, given), given), given)
    plan = validity.checked(wall.walled(plan, given))
    try:
        if wanted != plan.reading and (plan.holes or plan.bosses):
            made = rereading.reread(plan, layout.lay_out(plan, step=steps), wanted, steps)
        else:
            checked = validity.checked(edit.with_reading(plan, wanted))
            made = layout.lay_out(checked, step=steps)
    except UnitsMissing as error:
        raise UnitsMissing(
            error.what, where=error.where, remedy="give its unit, such as --units mm or --units in"
        ) from error
    steps("")
    return made


def laid_out_as_saved(plan: Plan, steps: Steps, given: Mapping[str, Any] | None = None) -> Layout:
    """A plan's outline and axis.

    Args:
        plan: The plan.
        steps: Told as each begins.
        given: Loads to judge it by, sheets and process to cut it from, the wall it hangs on, in
            place of its own.

    Raises:
        HoleplacerError: Its artwork can't be read, or a figure can't be meant.
    """
    if given is not None:
        tried = wall.walled(dividing.chosen(loading.loaded(plan, given), given), given)
        plan = validity.checked(choices.cut_otherwise(tried, given))
    made = layout.lay_out(plan, step=steps)
    steps("")
    return made


def with_plan(made: Layout, plan: Plan) -> Layout:
    """The layout of a plan that differs only in its holes and seams."""
    return layout.lay_out(plan, made)


def evaluated(made: Layout, steps: Steps) -> Evaluation:
    """Findings and figures of the layout's holes."""
    from holeplacer.evaluation import evaluate

    steps("check")
    evaluation = evaluate.evaluate(made.plan, made.outline, made.axis)
    steps("")
    return evaluation
