"""Template papers: the folder that goes to the wall, as `make` writes it."""

from collections.abc import Callable, Iterator, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from holeplacer.cli import quantities
from holeplacer.cli.sections import FILES, option
from holeplacer.evaluation.layout import Layout
from holeplacer.paper import size
from holeplacer.units import LengthUnit

Command = Callable[..., Any]

PAPERS = tuple(paper.name for paper in size.paper_sizes())

_OPTIONS = (
    option(
        FILES,
        "--paper",
        type=click.Choice(PAPERS, case_sensitive=False),
        metavar="PAPER",
        default="letter",
        help=f"Sheets of the template and the lists: {', '.join(PAPERS)}. Default letter.",
    ),
    option(
        FILES,
        "--roll",
        type=quantities.POSITIVE,
        metavar="WIDTH",
        help="Width of the plotter's roll for the template. Default 36 in (914 mm).",
    ),
    option(
        FILES,
        "--grid",
        type=quantities.POSITIVE,
        metavar="LENGTH",
        help="Grid on the template. Default 50 mm, or 1 in where the drawing is in inches.",
    ),
    option(
        FILES,
        "--overlap",
        type=quantities.POSITIVE,
        metavar="LENGTH",
        help="How far neighbouring pages of the template show the same. Default 12 mm.",
    ),
    option(
        FILES,
        "--section-templates/--no-section-templates",
        default=False,
        help="Template papers of each section too, where the sign has seams.",
    ),
    option(FILES, "--revision", metavar="TEXT", default="", help="Revision of the papers."),
    option(
        FILES,
        "--date",
        metavar="TEXT",
        help="Date on the papers as it is to be printed. Default today.",
    ),
)


def template_options(command: Command) -> Command:
    """Give a command the options that say how the template is wanted."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def write(
    layout: Layout, folder: Path, given: Mapping[str, Any], keep: tuple[Path, ...]
) -> list[str]:
    """Write the template in every form; lines that say where.

    Args:
        layout: The plan with its outline.
        folder: Where to; it exists.
        given: What the command line says.
        keep: Files that must not be overwritten.

    Raises:
        HoleplacerError: One could not be written; those before it are whole.
    """
    from holeplacer.cli import outputs  # both are loaded late, with what they write by
    from holeplacer.documents import template_files
    from holeplacer.documents.template import TemplateWish

    wish = TemplateWish(
        unit=LengthUnit(given["dxf_units"]),
        grid_mm=given["grid"],
        paper=given["paper"],
        revision=given["revision"],
        date=today() if given["date"] is None else given["date"],
        **{name: given[key] for name, key in _LENGTHS.items() if given[key] is not None},
    )
    files = template_files.write_template(
        layout,
        folder,
        wish,
        outputs.wish_of(given),
        by_section=given["section_templates"],
        protected=keep,
    )
    return list(_told(files))


_LENGTHS = {"roll_mm": "roll", "overlap_mm": "overlap"}


def today() -> str:
    """The date where the person is, year first."""
    return datetime.now().astimezone().date().isoformat()


def _told(files: tuple[Path, ...]) -> Iterator[str]:
    for index, path in enumerate(files):
        yield f"{'' if index else 'Template':<15} {path}"
