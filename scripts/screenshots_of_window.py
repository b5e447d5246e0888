"""Takes pictures of the window as a person would see it while doing the main job."""

import shutil
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication

from holeplacer.gui.main_window import MainWindow
from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.gui.stages.stage import Stage
from holeplacer.gui.strength_shown import Colouring, StrengthShown
from holeplacer.gui.theme import Choice, Theme
from holeplacer.gui.workbench import Workbench
from holeplacer.plan import edit
from holeplacer.resources import resource_path
from holeplacer.sheet.stock import Stock

SIZES = ((1280, 800), (1920, 1080))
PATIENCE_S = 60.0


def main(arguments: list[str]) -> int:
    """Take the pictures asked for."""
    app = QApplication([sys.argv[0]])
    demo = resource_path("demo", "thistledown.svg")
    if arguments == ["--readme"]:
        picture = demo.parent.parent / "window.png"
        shoot(app, demo, Choice.LIGHT, SIZES[0], lambda name: picture if name == "holes" else None)
        return 0
    if not arguments:
        print("Say a folder for the pictures, or --readme.", file=sys.stderr)
        return 2
    folder = Path(arguments[0])
    folder.mkdir(parents=True, exist_ok=True)
    artwork = Path(arguments[1]) if len(arguments) > 1 else demo
    for theme in (Choice.LIGHT, Choice.DARK):
        for size in SIZES:

            def named(name: str, theme: Choice = theme, width: int = size[0]) -> Path:
                return folder / f"{theme.value}-{width}-{name}.png"

            shoot(app, artwork, theme, size, named)
    return 0


def shoot(
    app: QApplication,
    artwork: Path,
    theme: Choice,
    size: tuple[int, int],
    named: Callable[[str], Path | None],
) -> None:
    """One run of the job, a picture at each stop; `named` says where it goes, or None."""
    folder = Path(tempfile.mkdtemp(prefix="holeplacer-pictures-"))
    settings = QSettings(str(folder / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(Theme(app, theme), settings, folder / "unsaved")
    window.resize(*size)
    window.show()
    bench = window.furnish()

    def take(name: str) -> None:
        path = named(name)
        if path is not None:
            settle(app)
            window.grab().save(str(path))

    take("start")
    bench.files.open_file(artwork)
    wait(app, lambda: bench.session.evaluation is not None)
    for row, stage in enumerate(bench.stages):
        bench.rail.setCurrentIndex(bench.rail.model().index(row, 0))
        if stage.NAME not in ("Holes", "Strength", "Sections"):
            take(stage.NAME.lower())
    bench.propose()
    wait(app, lambda: not bench.proposer.working)
    select_first(bench)
    take("holes")
    bench.holes_dock.raise_()
    take("table")
    blow(app, bench)
    take("strength")
    StrengthShown.of(bench.session).set_colouring(Colouring.STRESS)
    StrengthShown.of(bench.session).set_deflected(True)
    stage_of(bench, "Strength").verticalScrollBar().setValue(420)
    bench.states_dock.raise_()
    take("reckoned")
    bench.reactions_dock.raise_()
    take("reactions")
    bench.ribbon_dock.raise_()
    divide(app, bench)
    take("sections")
    SectionsShown.of(bench.session).set_on_sheets(True)
    stage_of(bench, "Sections").verticalScrollBar().setValue(560)
    take("sheets")
    shutil.rmtree(folder, ignore_errors=True)
    window.hide()


def blow(app: QApplication, bench: Workbench) -> None:
    """Enter 1 kPa and open the Strength stage."""
    plan = bench.session.committed
    if plan is None:
        return
    loading = replace(plan.loading, method="entered", pressure_out_pa=1000.0)
    bench.session.push(edit.with_loading(plan, loading), "Enter a pressure")
    bench.rail.setCurrentRow(bench.stages.index(stage_of(bench, "Strength")))
    bench.ribbon_dock.raise_()
    wait(app, lambda: bench.strength_layer.legend.isVisible())


def divide(app: QApplication, bench: Workbench) -> None:
    """Divide the sign onto sheets that are a third of its size, and weigh the other ways."""
    plan, layout = bench.session.committed, bench.session.layout
    if plan is None or layout is None:
        return
    left, bottom, right, top = layout.outline.bounds_mm
    side = max((right - left) / 3, 1.2 * (top - bottom))
    choice = replace(plan.sections, stock=(Stock(side, side, measured=True),))
    bench.session.push(edit.with_sections(plan, choice), "Sheets at hand")
    bench.propose_seams()
    wait(app, lambda: bool(bench.divider.compared) and bench.divider.division is not None)


def stage_of(bench: Workbench, name: str) -> Stage:
    """The stage of that name."""
    return bench.stages[[stage.NAME for stage in bench.stages].index(name)]


def select_first(bench: Workbench) -> None:
    """Select one hole, so that its figures show."""
    plan = bench.session.plan
    if plan is not None and plan.holes:
        bench.session.select_holes({plan.holes[len(plan.holes) // 2].number})


def settle(app: QApplication, seconds: float = 0.4) -> None:
    """Let the window draw itself."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        app.processEvents()
        time.sleep(0.01)


def wait(app: QApplication, done: Callable[[], bool]) -> None:
    """Let the window work until something is done."""
    end = time.monotonic() + PATIENCE_S
    while not done():
        if time.monotonic() > end:
            raise TimeoutError("the window did not finish its work")
        app.processEvents()
        time.sleep(0.01)
    settle(app)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
