"""Exporter: writes drawings and lists, each read back before it replaces a file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from holeplacer.errors import Cancelled, HoleplacerError
from holeplacer.gui.document import Document
from holeplacer.gui.session import Session
from holeplacer.gui.workers import Task
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.cutting.sheet_layout import SheetLayout
    from holeplacer.evaluation.evaluate import Evaluation
    from holeplacer.evaluation.layout import Layout

VERSIONS = ("R2000", "R12")


@dataclass(frozen=True)
class Wanted:
    """How the drawing is wanted.

    Attributes:
        version: DXF version.
        units: `mm` or `in`.
        numbers: Hole numbers on the mark layer.
        centre_marks: Centre marks in holes that are cut.
        kerf_offset: Whether paths on sheets lie half a kerf beside their contours.
        leads: Whether pierces and lead-ins are drawn on sheets.
    """

    version: str = "R2000"
    units: str = "mm"
    numbers: bool = True
    centre_marks: bool = True
    kerf_offset: bool = False
    leads: bool = True


class Exporter(QObject):
    """Writes files by a worker.

    Attributes:
        written: A file is written and proven: its path.
        failed: It could not be: the error; the old file is as it was.
    """

    written = Signal(object)
    failed = Signal(object)

    def __init__(self, session: Session, document: Document) -> None:
        super().__init__(session)
        self._session, self._document = session, document
        self.wanted = Wanted()

    @property
    def ready(self) -> bool:
        """Whether there is something to write."""
        plan, layout = self._session.plan, self._session.layout
        return bool(plan is not None and plan.holes and layout is not None
                    and self._session.problem is None)  # fmt: skip

    def suggested(self, suffix: str) -> str:
        """A file name beside the document."""
        source = self._document.source
        name = Path(self._document.name).stem or "sign"
        folder = source.parent if source is not None else Path.home()
        return str(folder / f"{name}-holes{suffix}")

    def write_drawing(self, path: Path) -> None:
        """Write the whole sign with its holes as DXF."""

        def write(layout: Layout, _evaluation: Evaluation) -> None:
            from holeplacer.documents import dxf_drawing, dxf_wish

            wanted = self.wanted
            wish = dxf_wish.Wish(wanted.version, wanted.units, wanted.numbers, wanted.centre_marks)
            dxf_drawing.write_hole_drawing(layout, path, wish, protected=self._protected())

        self._write(path, write)

    def write_schedule(self, path: Path) -> None:
        """Write the list of holes as CSV."""

        def work(layout: Layout, evaluation: Evaluation) -> None:
            from holeplacer.documents import hole_schedule, write

            data = hole_schedule.hole_schedule(layout, evaluation)
            write.replace_file(path, data, protected=self._protected())

        self._write(path, work)

    def in_the_way(self, folder: Path, sheets: int) -> tuple[str, ...]:
        """Names of files in a folder that writing the cut folder there would replace."""
        from holeplacer.documents import cut_folder

        return tuple(name for name in cut_folder.names(sheets) if (folder / name).exists())

    def write_cut_folder(self, folder: Path, laid: SheetLayout) -> None:
        """Write all that goes to the table: whole, sheets, coupon, cut list."""
        wanted, unit = self.wanted, self._session.unit

        def work(layout: Layout, _evaluation: Evaluation) -> None:
            from holeplacer.cutting.cut_path import CutWish
            from holeplacer.documents import cut_folder
            from holeplacer.documents.cut_drawing import CutStyle

            wish = cut_folder.FolderWish(
                style=CutStyle(wanted.version, wanted.units),
                cut=CutWish(offset=wanted.kerf_offset, leads=wanted.leads),
                paper="letter" if unit is LengthUnit.INCH else "a4",
                unit=unit,
            )
            cut_folder.write_cut_folder(layout, laid, folder, wish, protected=self._protected())

        self._write(folder, work)

    def _write(self, path: Path, write: Callable[[Layout, Evaluation], None]) -> None:
        layout, evaluation = self._session.layout, self._session.evaluation
        if layout is None or evaluation is None:
            return

        def work(_task: Task[Any]) -> None:
            write(layout, evaluation)

        def failed(error: HoleplacerError) -> None:
            if not isinstance(error, Cancelled):
                self.failed.emit(error)

        self._session.evaluator.run(
            f"Writing {path.name}", work, lambda _none: self.written.emit(path), failed
        )

    def _protected(self) -> tuple[Path, ...]:
        kept = (self._document.path, self._document.source)
        return tuple(path for path in kept if path is not None)
