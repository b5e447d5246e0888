"""Outputs: the files a verb writes, refused early, written last, never over their own source."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from holeplacer.cli import job
from holeplacer.cli.sections import FILES, option
from holeplacer.documents import write
from holeplacer.documents.dxf_wish import VERSIONS, Wish
from holeplacer.evaluation.layout import Layout
from holeplacer.plan import plan_file

if TYPE_CHECKING:  # slow to load, and not every verb makes them
    from holeplacer.documents.report import Report
    from holeplacer.evaluation.evaluate import Evaluation

Command = Callable[..., Any]
FILE = click.Path(path_type=Path)

_FILES = {
    "report": ("--report", "Write everything that is known as JSON."),
    "dxf": ("--dxf", "Write the sign with its holes for the cutting table."),
    "csv": ("--csv", "Write the hole schedule."),
    "picture": ("--picture", "Write a picture of the sign with its holes (SVG)."),
    "save": ("--save", "Save the plan, to go on in the window or with check and make."),
}
_TITLES = {
    "report": "Report",
    "dxf": "Cut drawing",
    "csv": "Hole schedule",
    "picture": "Picture",
    "save": "Plan",
}
_DRAWING_OPTIONS = (
    option(
        FILES,
        "--dxf-version",
        type=click.Choice(VERSIONS, case_sensitive=False),
        metavar="VERSION",
        default="R2000",
        help=f"Version of the DXF file: {', '.join(VERSIONS)}. Default R2000.",
    ),
    option(
        FILES,
        "--dxf-units",
        type=click.Choice(["mm", "in"]),
        default="mm",
        help="Unit of the DXF file. Default mm.",
    ),
    option(
        FILES,
        "--marks/--no-marks",
        default=True,
        help="Numbers and centre marks on a layer of the DXF file, or none.",
    ),
)


@dataclass(frozen=True, eq=False)
class Result:
    """What a verb has to write.

    Attributes:
        layout: The plan with its outline.
        evaluation: Its findings and figures.
        report: The report of both.
    """

    layout: Layout
    evaluation: Evaluation
    report: Report


def file_options(*names: str) -> Callable[[Command], Command]:
    """Give a command the options that name files, and the DXF file's own if it is among them."""

    def decorated(command: Command) -> Command:
        if "dxf" in names:
            command = drawing_options(command)
        for name in reversed(names):
            flag, text = _FILES[name]
            command = option(FILES, flag, name, type=FILE, metavar="FILE", help=text)(command)
        return command

    return decorated


def drawing_options(command: Command) -> Command:
    """Give a command the options that say how the DXF file is wanted."""
    for add in reversed(_DRAWING_OPTIONS):
        command = add(command)
    return command


def wish_of(given: Mapping[str, Any]) -> Wish:
    """How the DXF file is wanted."""
    return Wish(
        version=given["dxf_version"].upper(),
        units=given["dxf_units"],
        numbers=given["marks"],
        centre_marks=given["marks"],
    )


def targets_of(given: Mapping[str, Any], source: Path) -> dict[str, Path]:
    """The files asked for, each checked before any work is done for it.

    Raises:
        ExportError: One can't be written, or is the source itself.
        click.UsageError: Two are the same file.
    """
    targets = {name: given[name] for name in _FILES if given.get(name) is not None}
    seen: dict[Path, str] = {}
    for name, path in targets.items():
        # Saving a plan over itself is what saving is for; everything else would destroy it.
        write.refuse_target(path, () if name == "save" and job.is_plan(source) else (source,))
        other = seen.setdefault(path.resolve(), name)
        if other != name:
            raise click.UsageError(f"--{other} and --{name} name the same file, {path}")
    return targets


def write_all(
    result: Result,
    targets: Mapping[str, Path],
    source: Path,
    wish: Wish | None = None,
) -> list[str]:
    """Write every file asked for, each proven before it replaces an old one.

    Returns:
        Lines that say where each lies.

    Raises:
        HoleplacerError: One could not be written; those before it are whole.
    """
    lines = []
    for name, path in targets.items():
        note = _write(name, result, path, (source,), wish)
        lines.append(f"{_TITLES[name]:<15} {path}")
        if note:
            lines.append(f"{'':<15} {note}")
    return lines


def _write(name: str, result: Result, path: Path, keep: tuple[Path, ...], wish: Wish | None) -> str:
    """Write one file; what a person should know about it beyond its place.

    What makes it is loaded only here: the DXF library alone takes half a second.
    """
    if name == "dxf":
        from holeplacer.documents import dxf_drawing

        layer = dxf_drawing.write_hole_drawing(result.layout, path, wish, protected=keep)
        renamed = layer != dxf_drawing.HOLES
        return f"holes on layer {layer}: the artwork has a {dxf_drawing.HOLES}" if renamed else ""
    if name == "save":
        plan_file.save_plan(result.layout.plan, path)
        return ""
    if name == "csv":
        from holeplacer.documents import hole_schedule

        data = hole_schedule.hole_schedule(result.layout, result.evaluation)
    elif name == "picture":
        from holeplacer.documents import picture

        data = picture.picture(result.layout, result.evaluation)
    else:
        from holeplacer.documents import report

        data = report.report_bytes(result.report)
    write.replace_file(path, data, protected=keep)
    return ""
