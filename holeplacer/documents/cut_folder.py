"""Cut folder: all that goes to the table: the whole, every sheet, the coupon, the cut list."""

from collections.abc import Iterable
from dataclasses import dataclass, field
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
from holeplacer.evaluation.layout import Layout
from holeplacer.sheet import process
from holeplacer.units import LengthUnit


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
    """

    files: tuple[Path, ...]
    sheets: tuple[CutDrawing, ...]
    paths: tuple[CutPath, ...]
    coupon: coupon.Coupon


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

    Drawings of more sheets left from an earlier run stay; they are not this program's to delete.

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
    plan, style = layout.plan, wish.style
    files = tuple(to / name for name in names(len(laid.sheets)))
    whole, *sheet_files, coupon_file, slip, table, paper = files
    put = partial(write.replace_file, protected=protected)
    whole_drawing.write_whole_drawing(
        layout, laid.sections, whole, Wish(style.version, style.units), protected=protected
    )
    paths = tuple(sheet_path(layout, laid, index, wish.cut) for index in range(len(sheet_files)))
    drawings = tuple(
        cut_drawing.write_cut_drawing(path, file, style, protected=protected)
        for path, file in zip(paths, sheet_files, strict=True)
    )
    made = coupon.coupon(plan, coupon.least_ligament(plan, layout.outline))
    coupon_drawing.write_coupon_drawing(
        plan, made, coupon_file, style, wish.cut, protected=protected
    )
    put(slip, coupon_drawing.slip_text(plan, made))
    listed = cut_list.cut_list(laid, plan)
    put(table, cut_list.as_csv(listed))
    put(paper, cut_list_paper.as_pdf(listed, paper=wish.paper, unit=wish.unit))
    return CutFolder(files, drawings, paths, made)


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
