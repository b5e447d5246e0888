"""A real window with settings of its own, and a small sign open in it."""

import gc
import itertools
from pathlib import Path

import pytest
from PySide6.QtCore import QSettings
from PySide6.QtWidgets import QApplication, QMessageBox

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.evaluation import layout
from holeplacer.gui.main_window import MainWindow
from holeplacer.gui.session import Session
from holeplacer.gui.theme import Choice, Theme
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.routes import Part
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet.stock import Stock

SIGN = """<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="200mm"
  viewBox="0 0 600 200">
  <path d="M0 80 H600 V120 H0 Z"/>
  <path d="M40 150 H300 V160 H40 Z"/>
</svg>
"""
"""A bar 600 x 40 mm that takes holes, and one 260 x 10 mm too thin for any."""

UNITLESS = SIGN.replace(' width="600mm" height="200mm"', "")
"""The same without a physical size."""


_TESTS_A_COLLECTION = 15


@pytest.fixture(autouse=True, scope="package")
def _garbage():
    """Counts tests; Python's collector, which would else run on a worker's thread, is off.

    What it finds may be a window's last trace, and windows end on the thread they began on.
    """
    gc.disable()
    yield itertools.count(1)
    gc.enable()


@pytest.fixture(autouse=True)
def _collected_here(_garbage):
    """Now and then garbage is collected, here."""
    yield
    if next(_garbage) % _TESTS_A_COLLECTION == 0:
        gc.collect()


@pytest.fixture
def theme(qapp):
    """A light theme; colours and scheme are as before afterwards."""
    made = Theme(qapp, Choice.LIGHT)
    yield made
    made.choose(Choice.SYSTEM)
    made.deleteLater()


@pytest.fixture
def settings(tmp_path):
    """Settings in a file of this test."""
    return QSettings(str(tmp_path / "settings.ini"), QSettings.Format.IniFormat)


@pytest.fixture
def answers(monkeypatch):
    """What questions are answered with, in order; an unexpected one fails the test."""
    given: list[QMessageBox.StandardButton] = []

    def question(*_args):
        assert given, "a question that was not expected"
        return given.pop(0)

    monkeypatch.setattr(QMessageBox, "question", question)
    return given


@pytest.fixture
def window(qtbot, theme, settings, tmp_path, answers):
    """The window on the screen, set up, nothing open."""
    made = MainWindow(theme, settings, tmp_path / "unsaved")
    qtbot.addWidget(made, before_close_func=_give_up)
    with qtbot.waitExposed(made):
        made.show()
    made.furnish()
    yield made
    _give_up(made)
    made.close()
    QApplication.processEvents()


def _give_up(window: MainWindow) -> None:
    """What is open may go without a question."""
    bench = window.workbench
    if bench is not None:
        bench.session.evaluator.wait(30_000)
        bench.session.undo_stack.setClean()


@pytest.fixture
def bench(window):
    """All parts of the window."""
    return window.workbench


@pytest.fixture
def sign_file(tmp_path) -> Path:
    """The small sign as a file."""
    path = tmp_path / "sign.svg"
    path.write_text(SIGN, encoding="utf-8")
    return path


@pytest.fixture
def opened(bench, qtbot, sign_file):
    """The parts of the window with the small sign open and laid out."""
    bench.files.open_file(sign_file)
    qtbot.waitUntil(lambda: bench.session.evaluation is not None, timeout=20_000)
    return bench


STROKES = """<svg xmlns="http://www.w3.org/2000/svg" width="1400mm" height="500mm"
  viewBox="0 0 1400 500">
  <path d="M20 380 H380 V180 A15 15 0 0 1 410 180 V380 H900 V393 H1200 V407 H900 V420 H20
    A20 20 0 0 1 20 380 Z"/>
  <path d="M600 120 m-30 0 a30 30 0 1 0 60 0 a30 30 0 1 0 -60 0 Z"/>
  <path fill-rule="evenodd" d="M900 180 m-120 0 a120 120 0 1 0 240 0 a120 120 0 1 0 -240 0 Z
    M900 180 m-88 0 a88 88 0 1 0 176 0 a88 88 0 1 0 -176 0 Z"/>
</svg>
"""
"""A 40 mm stroke with a 30 mm branch upwards at x 395, going on 14 mm thin from x 900 to 1200;
a dot; a ring. In sign coordinates (y up) the stroke's axis lies at y 100."""

PLACES = ((100.0, 100.0), (380.0, 100.0), (640.0, 100.0), (395.0, 290.0), (896.0, 216.0))
"""Holes 1 to 5: three on the stroke, one on its branch, one on the ring, a little off its axis."""


@pytest.fixture(scope="session")
def strokes():
    """The layout of a sign with branch, thin part, dot and ring, and five holes on it."""
    plan = Plan(
        ArtworkFile("strokes.svg", STROKES.encode()),
        limits=Limits(edge_distance_mm=9.5, spacing_mm=300.0, overhang_mm=100.0),
        holes=tuple(Hole(i, x, y) for i, (x, y) in enumerate(PLACES, start=1)),
    )
    return layout.lay_out(plan)


@pytest.fixture(scope="session")
def foot(strokes):
    """The axis point nearest to a place of that sign."""
    return lambda x, y: ways.foot(strokes.axis, (x, y))[0]


@pytest.fixture(scope="session")
def part(foot):
    """The stretch of one branch between the feet of two places."""

    def between(one, two):
        start, end = foot(*one), foot(*two)
        assert start.branch == end.branch
        return Part(start.branch, start.s_mm, end.s_mm)

    return between


@pytest.fixture
def session(qapp, strokes):
    """A session with that sign laid out; nothing runs when it ends."""
    made = Session()
    made.evaluator.layout = strokes
    made.evaluator.keep(strokes)
    made.show_plan(strokes.plan)
    yield made
    assert made.evaluator.wait(10_000)
    made.deleteLater()


@pytest.fixture
def divided(opened, qtbot):
    """The window on the small sign, two seams across its bar, sections laid on their sheets."""
    stock = (Stock(280.0, 300.0, measured=True),)
    plan = edit.with_sections(opened.session.committed, SectionsChoice(stock=stock))
    seams = tuple(Seam(x, 80.0, x, 120.0) for x in (200.0, 400.0))
    opened.session.push(edit.with_seams(plan, seams), "Two seams")
    opened.rail.setCurrentRow(opened.stages.index(opened.sections_stage))
    qtbot.waitUntil(lambda: bool(opened.divider.compared), timeout=60_000)
    return opened


@pytest.fixture
def windy(session, strokes):
    """The session of that sign with 1 kPa of wind entered."""
    loading = Loading(method="entered", pressure_out_pa=1000.0)
    session.show_plan(edit.with_loading(strokes.plan, loading))
    assert session.evaluation.strength is not None
    return session


@pytest.fixture
def strength(windy):
    """What the wind does to it."""
    return windy.evaluation.strength


@pytest.fixture
def blown(opened, qtbot):
    """The window with the small sign, three holes on its bar, 1 kPa, the Strength stage open."""
    plan = opened.session.committed
    for x in (60.0, 300.0, 540.0):
        plan = edit.with_hole_added(plan, x, 100.0)
    loading = Loading(method="entered", pressure_out_pa=1000.0)
    opened.session.push(edit.with_loading(plan, loading), "Blow")
    (row,) = [row for row, stage in enumerate(opened.stages) if stage.NAME == "Strength"]
    opened.rail.setCurrentRow(row)
    qtbot.waitUntil(lambda: opened.session.evaluation.strength is not None, timeout=20_000)
    qtbot.waitUntil(lambda: opened.strength_layer.legend.isVisible(), timeout=20_000)
    return opened
