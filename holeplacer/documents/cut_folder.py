"""Cut folder: all that goes to the table: the whole, every sheet, the coupon, the cut list."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

from shapely.geometry import box

from holeplacer.cutting import coupon, cut_path, sheet_parts
from holeplacer.cutting.cut_path import CutPath, CutWish
from holeplacer.cutting.sheet_layout import SheetLayout
from holeplacer.documents import (
    coupon_drawing,
    cut_drawing,
    cut_list,
    cut_list_paper,
    whole_drawing,
    write,
)
from holeplacer.documents.cut_drawing import CutDrawing, CutStyle
from holeplacer.documents.dxf_wish import Wish
from holeplacer.errors import ExportError
from holeplacer.evaluation.layout import Layout
from holeplacer.sheet import process
from holeplacer.units import LengthUnit

_NUMBERED = re.compile(r"sheet-([1-9]\d{0,5})\.dxf")


@dataclass(frozen=True)
class FolderWish:
    """How the folder is wanted.

    Attributes:
        style: DXF version, unit and tolerance of every drawing.
        cut: Kerf offset and lead-ins of sheets and coupon.
        paper: `a4` or `letter`.
        unit: What the cut list shows lengths in.
    """

    style: CutStyle = field(default_factory=CutStyle)
    cut: CutWish = field(default_factory=CutWish)
    paper: str = "a4"
    unit: LengthUnit = LengthUnit.MM


@dataclass(frozen=True, eq=False)
class CutFolder:
    """What was written.

    Attributes:
        files: In the order they were written.
        sheets: Drawing of each sheet.
        paths: What the torch does on each sheet.
        coupon: The coupon.
        removed: Drawings of sheets that are no longer needed, taken away.
    """

    files: tuple[Path, ...]
    sheets: tuple[CutDrawing, ...]
    paths: tuple[CutPath, ...]
    coupon: coupon.Coupon
    removed: tuple[Path, ...] = ()


def names(sheets: int) -> tuple[str, ...]:
    """Names of the files in their folder."""
    numbered = (f"sheet-{number}.dxf" for number in range(1, sheets + 1))
    return ("whole.dxf", *numbered, "coupon.dxf", "coupon.txt", "cut-list.csv", "cut-list.pdf")


def write_cut_folder(
    layout: Layout,
    laid: SheetLayout,
    to: Path,
    wish: FolderWish | None = None,
    *,
    protected: Iterable[Path] = (),
) -> CutFolder:
    """Write every file, each proven before it takes an old one's place.

    Drawings of more sheets than are needed now, left from an earlier run, are taken away once all
    is written; they are known by the mark at their head, so that a person's own file stays.

    Args:
        layout: The plan with its outline.
        laid: Its sections on sheets.
        to: A folder that exists.
        wish: How it is wanted.
        protected: Files that must not be overwritten.

    Raises:
        ExportError: One could not be written, or failed its read-back.
        InputError: The version, unit or paper is not known.
    """
    wish, protected = wish or FolderWish(), tuple(protected)
    plan = layout.plan
    style = replace(wish.style, flattened_mm=plan.reading.tolerance_mm)
    files = tuple(to / name for name in names(len(laid.sheets)))
    whole, *sheet_files, coupon_file, slip, table, paper = files
    put = partial(write.replace_file, protected=protected)
    whole_drawing.write_whole_drawing(
        layout, laid.sections, whole, Wish(style.version, style.units), protected=protected
    )
    paths = tuple(sheet_path(layout, laid, index, wish.cut) for index in range(len(sheet_files)))
    drawings = tuple(cut_drawing.drawing_of(path, style) for path in paths)
    for number, (drawing, file) in enumerate(zip(drawings, sheet_files, strict=True), start=1):
        put(file, _mark(number) + cut_drawing.proven_dxf(drawing, style))
    made = coupon.planned(plan, layout.outline)
    coupon_drawing.write_coupon_drawing(
        plan, made, coupon_file, style, wish.cut, protected=protected
    )
    put(slip, coupon_drawing.slip_text(plan, made))
    listed = cut_list.cut_list(laid, plan, layout.outline)
    put(table, cut_list.as_csv(listed))
    put(paper, cut_list_paper.as_pdf(listed, paper=wish.paper, unit=wish.unit))
    left_over = tuple(remove_left_over(to, len(sheet_files), protected))
    return CutFolder(files, drawings, paths, made, left_over)


def sheet_path(layout: Layout, laid: SheetLayout, sheet: int, cut: CutWish) -> CutPath:
    """What the torch does on one sheet; it may pierce anywhere on the sheet itself."""
    plan, stock = layout.plan, laid.sheets[sheet].stock
    return cut_path.cut_path(
        sheet_parts.sheet_parts(laid, sheet, plan),
        process.process(plan.sheet.process),
        plan.sheet.thickness_mm,
        box(0.0, 0.0, stock.width_mm, stock.height_mm),
        cut,
    )


def remove_left_over(folder: Path, sheets: int, protected: Iterable[Path] = ()) -> Iterator[Path]:
    """Take away this program's drawings of sheets beyond so many; a person's own files stay.

    A drawing is this program's if its head says so and bears the number that its name does, so
    that one saved anew elsewhere, or copied to another number, is the person's.

    Args:
        folder: Where they lie.
        sheets: How many are needed.
        protected: Files that stay in any case.

    Raises:
        ExportError: One can't be taken away.
    """
    kept = {path.resolve() for path in protected}
    for path in sorted(folder.glob("sheet-*.dxf")):
        name = _NUMBERED.fullmatch(path.name)
        if name is None or int(name[1]) <= sheets or path.resolve() in kept:
            continue
        if path.is_symlink() or not path.is_file():
            continue
        try:
            with path.open("rb") as file:
                own = file.read(len(_mark(int(name[1])))) == _mark(int(name[1]))
            if own:
                path.unlink()
                yield path
        except OSError as error:
            raise ExportError(
                f"a sheet left from an earlier run can't be taken away ({error.strerror})",
                where=str(path),
                remedy="delete it before anybody cuts it",
            ) from error


def _mark(sheet: int) -> bytes:
    """What heads the drawing of a sheet: a comment, as DXF knows them."""
    return f"999\r\nHoleplacer sheet {sheet}\r\n".encode("ascii")
