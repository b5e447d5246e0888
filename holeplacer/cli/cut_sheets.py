"""Cut sheets: the folder that goes to the table, as `make` writes it."""

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

from holeplacer.cli.dividing import Divided
from holeplacer.cli.sections import FILES, option
from holeplacer.evaluation.layout import Layout
from holeplacer.units import LengthUnit

Command = Callable[..., Any]

_LIST_PAPER = {"A4": "a4", "A3": "a4", "letter": "letter", "tabloid": "letter"}
"""Paper of the cut list by the template's, which may be larger than a list needs."""

_OPTIONS = (
    option(
        FILES,
        "--kerf-offset/--no-kerf-offset",
        default=False,
        help="Draw sheets with paths half a kerf beside the contours; else the table offsets.",
    ),
    option(
        FILES,
        "--lead-ins/--no-lead-ins",
        default=True,
        help="Pierces and lead-ins on a layer of each sheet, or none.",
    ),
)


def cutting_options(command: Command) -> Command:
    """Give a command the options that say how sheets are drawn."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def write(
    layout: Layout,
    parted: Divided,
    folder: Path,
    given: Mapping[str, Any],
    keep: tuple[Path, ...],
) -> list[str]:
    """Write the folder if sections lie on sheets; lines that say where and what.

    Args:
        layout: The plan with its outline.
        parted: Its sections on sheets.
        folder: Where to; it exists.
        given: What the command line says.
        keep: Files that must not be overwritten.

    Raises:
        HoleplacerError: One could not be written; those before it are whole.
    """
    if parted.division is None:
        return []
    if parted.division.layout is None:
        return ["Cut folder      no sheets drawn, for sections can't be laid on them"]
    from holeplacer.cutting.cut_path import CutWish  # slow to load, and few jobs cut
    from holeplacer.documents import cut_folder
    from holeplacer.documents.cut_drawing import CutStyle

    wish = cut_folder.FolderWish(
        style=CutStyle(
            version=given["dxf_version"].upper(), units=given["dxf_units"], labels=given["marks"]
        ),
        cut=CutWish(offset=given["kerf_offset"], leads=given["lead_ins"]),
        paper=_LIST_PAPER[given["paper"]],
        unit=LengthUnit.INCH if given["dxf_units"] == "in" else LengthUnit.MM,
    )
    made = cut_folder.write_cut_folder(layout, parted.division.layout, folder, wish, protected=keep)
    return list(_told(made.files, made.removed))


def _told(files: tuple[Path, ...], removed: tuple[Path, ...]) -> Iterator[str]:
    for index, path in enumerate(files):
        yield f"{'' if index else 'Cut folder':<15} {path}"
    if removed:
        names = ", ".join(path.name for path in removed)
        yield f"{'':<15} taken away, left from an earlier run: {names}"
