"""Dividing on the command line: sheets at hand, and how the sign is divided and laid on them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import click

from holeplacer.cli.progress import Progress
from holeplacer.cli.quantities import NOT_NEGATIVE
from holeplacer.cli.sections import DIVIDING, option
from holeplacer.errors import InputError
from holeplacer.evaluation.layout import Layout, lay_out
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.plan.sections import PREPARATIONS, TURNINGS, SectionsChoice
from holeplacer.sheet import stock
from holeplacer.sheet.stock import Stock

if TYPE_CHECKING:  # slow to load, and most jobs divide nothing
    from holeplacer.cutting.division import Compared, Division
    from holeplacer.cutting.sheet_layout import SheetLayout
    from holeplacer.evaluation.evaluate import Evaluation
    from holeplacer.seams.choice import SeamChoice

Command = Callable[..., Any]

_NOMINAL = " nominal"
_CHOOSING, _LAYING, _COMPARING = (0.0, 0.3), (0.3, 0.6), (0.6, 1.0)


class Sheet(click.ParamType[Stock]):
    """A sheet's size as measured, such as `48 x 47 1/8 in`; as bought with `nominal` behind it."""

    name = "size"

    def convert(
        self, value: str | Stock, param: click.Parameter | None, ctx: click.Context | None
    ) -> Stock:
        """The sheets that were typed."""
        if isinstance(value, Stock):
            return value
        size = value.strip()
        measured = not size.casefold().endswith(_NOMINAL)
        size = size if measured else size[: -len(_NOMINAL)]
        try:
            return stock.parse_stock(size, measured=measured)
        except InputError as error:
            self.fail(f"{error.what}; {error.remedy}", param, ctx)


_OPTIONS = (
    option(
        DIVIDING,
        "--stock",
        type=Sheet(),
        multiple=True,
        metavar="SIZE",
        help="A sheet at hand as measured, such as '48 x 47 1/8 in' or '3 of 1250 x 2500 mm'; "
        "'48 x 48 in nominal' if nobody measured it. May be given again.",
    ),
    option(DIVIDING, "--margin", type=NOT_NEGATIVE, help="Kept free along every side of a sheet."),
    option(
        DIVIDING,
        "--seam-clear",
        type=NOT_NEGATIVE,
        help="Least distance of a seam from hole, tip and junction.",
    ),
    option(
        DIVIDING, "--apart", type=NOT_NEGATIVE, help="Least distance of two sections on a sheet."
    ),
    option(
        DIVIDING,
        "--turning",
        type=click.Choice(TURNINGS),
        help="How sections may be turned on a sheet; quarter or none for a brushed one.",
    ),
    option(DIVIDING, "--root-gap", type=NOT_NEGATIVE, help="Left open for the weld in every seam."),
    option(
        DIVIDING,
        "--preparation",
        type=click.Choice(PREPARATIONS),
        help="Edges of a seam: square, or ground to a bevel.",
    ),
)

_FIELDS = {
    "margin": "margin_mm",
    "seam_clear": "seam_clear_mm",
    "apart": "apart_mm",
    "turning": "turning",
    "root_gap": "root_gap_mm",
    "preparation": "preparation",
}


@dataclass(frozen=True, eq=False)
class Divided:
    """What dividing the sign came to.

    Attributes:
        division: Sections on their sheets; None where no sheet is at hand.
        choice: Where the seams come from, if they were chosen just now.
        compared: The usual ways to divide it, beside.
    """

    division: Division | None = None
    choice: SeamChoice | None = None
    compared: tuple[Compared, ...] = ()

    @property
    def reported(self) -> dict[str, Any]:
        """What the report takes of it."""
        return {"division": self.division, "choice": self.choice, "compared": self.compared}


def dividing_options(command: Command) -> Command:
    """Give a command every option that decides on sheets at hand and sections."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def chosen(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given of sheets and sections; itself where a verb takes none.

    Raises:
        click.UsageError: Something of it was given, but no sheet is at hand.
    """
    if "stock" not in given:
        return plan
    fields = {field: given[name] for name, field in _FIELDS.items() if given[name] is not None}
    if given["stock"]:
        fields["stock"] = tuple(given["stock"])
    if not fields:
        return plan
    wanted: SectionsChoice = replace(plan.sections, **fields)
    if not wanted.stock and plan.seams == () and set(fields) - {"seam_clear_mm"}:
        name = next(name for name, field in _FIELDS.items() if field in fields)
        raise click.UsageError(
            f"--{name.replace('_', '-')} goes with --stock: no sheet is at hand yet"
        )
    if wanted == plan.sections:
        return plan
    return edit.with_laid(edit.with_sections(plan, wanted), ())


def without_free_seams(layout: Layout) -> Layout:
    """The layout whose holes may be placed anew: seams that will be chosen anew give way to them.

    Raises:
        InputError: No sheet at hand has anything left within its margin.
    """
    plan = layout.plan
    if not plan.sections.stock:
        return layout
    from holeplacer.seams import unfit

    unfit.usable_or_told(plan)  # before long work is done for it
    fixed = [seam for seam in plan.seams if seam.fixed]
    return lay_out(edit.with_seams(plan, fixed), layout)


def with_seams_chosen(layout: Layout, progress: Progress) -> tuple[Layout, SeamChoice | None]:
    """The layout with the best seams for its holes and sheets; fixed seams stay.

    Raises:
        InputError: Something can't be divided so that it fits.
    """
    plan = layout.plan
    if not plan.sections.stock:
        return layout, None
    from holeplacer.seams import choice

    found = choice.choose(plan, layout.outline, layout.axis, progress=progress.within(*_CHOOSING))
    return lay_out(edit.with_seams(plan, found.seams), layout), found


def divided(layout: Layout, progress: Progress, choice: SeamChoice | None = None) -> Divided:
    """The plan's sections on its sheets, and the usual ways to divide it beside."""
    plan = layout.plan
    if not plan.sections.stock:
        return Divided()
    from holeplacer.cutting import division

    made = division.division(plan, layout.outline, progress=progress.within(*_LAYING))
    beside = division.compared(
        plan, layout.outline, layout.axis, progress=progress.within(*_COMPARING)
    )
    return Divided(made, choice, beside)


def laid(layout: Layout, progress: Progress) -> SheetLayout | None:
    """The plan's sections on its sheets; None where no sheet is at hand or they can't be laid."""
    plan = layout.plan
    if not plan.sections.stock:
        return None
    from holeplacer.cutting import division

    return division.division(plan, layout.outline, progress=progress.within(*_LAYING)).layout


def joined(evaluation: Evaluation, parted: Divided) -> Evaluation:
    """The evaluation with what is wrong about the sections on their sheets."""
    found = parted.division.findings if parted.division else ()
    return replace(evaluation, findings=(*evaluation.findings, *found)) if found else evaluation
