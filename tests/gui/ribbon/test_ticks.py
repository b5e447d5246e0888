"""Holes as ticks, spans as bars."""

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage, QPainter, QRegion

from holeplacer.evaluation.evaluate import evaluate
from holeplacer.gui.canvas.marks import hole_marks
from holeplacer.gui.canvas.stretches import Stretch, Stretches, StretchKind
from holeplacer.gui.ribbon import ticks as module
from holeplacer.gui.ribbon.scale import Scale
from holeplacer.gui.ribbon.ticks import bar, paint_bars, paint_numbers, paint_ticks, ticks
from holeplacer.gui.theme import LIGHT
from holeplacer.medial_axis.routes import Part
from holeplacer.plan import edit
from holeplacer.rules import spacing
from holeplacer.units import LengthUnit


def made(strokes, ribbon, plan=None, selected=frozenset()):
    plan = strokes.plan if plan is None else plan
    evaluation = evaluate(plan, strokes.outline, strokes.axis)
    marks = hole_marks(plan, evaluation, selected, LengthUnit.MM)
    feet = spacing.spans(plan, strokes.outline, strokes.axis).feet
    return {tick.mark.number: tick for tick in ticks(ribbon, marks, feet)}


@pytest.fixture
def image(qapp):
    """An empty strip and a painter on it."""
    picture = QImage(1000, 140, QImage.Format.Format_RGB32)
    picture.fill(QColor(LIGHT.ground))
    painter = QPainter(picture)
    yield picture, painter
    if painter.isActive():
        painter.end()


def inked(picture, rows):
    ground = QColor(LIGHT.ground).rgb()
    return {x for x in range(picture.width()) for y in rows if picture.pixel(x, y) != ground}


def test_a_tick_stands_at_the_holes_foot(strokes, ribbon):
    """100 mm from the round end at x 0."""
    tick = made(strokes, ribbon)[1]
    assert tick.x_mm == pytest.approx(tick.run.start_mm + 100.0, abs=0.1)
    assert not tick.off_axis


def test_a_hole_beside_the_axis_is_dashed_at_its_foot(strokes, ribbon, image):
    """Same place on the ribbon; the line has gaps."""
    plan = edit.with_hole_moved(strokes.plan, 1, 100.0, 106.0)
    on, off = made(strokes, ribbon)[1], made(strokes, ribbon, plan)[1]
    assert off.off_axis
    assert off.x_mm == pytest.approx(on.x_mm)
    picture, painter = image
    scale = Scale(0.4, 0.0, 1000, 140)
    paint_ticks(painter, [off], scale, 110.0, LIGHT, hovered=0)
    painter.end()
    x = round(scale.x_px(off.run, off.x_mm))
    rows = [y for y in range(40, 110) if inked(picture, [y]) & {x - 1, x}]
    assert 20 < len(rows) < 60


def test_numbers_never_run_into_each_other(strokes, ribbon, image):
    """Zoomed far out some are left out, the selected one never."""
    picture, painter = image
    shown = made(strokes, ribbon, selected=frozenset({2}))
    scale = Scale(0.02, 0.0, 1000, 140)
    whole = QRegion(0, 0, 1000, 140)
    paint_numbers(painter, shown.values(), scale, LIGHT, hovered=0, exposed=whole)
    painter.end()
    accents = {
        x for x in range(1000) for y in range(16)
        if picture.pixelColor(x, y) == QColor(LIGHT.accent)
    }  # fmt: skip
    assert accents
    assert abs(np.mean(list(accents)) - scale.x_px(shown[2].run, shown[2].x_mm)) < 6


def test_a_bar_lies_under_the_strokes_it_runs_along(strokes, ribbon, image):
    """The thin end's overhang, from hole 3 to the tip's axis end."""
    evaluation = evaluate(strokes.plan, strokes.outline, strokes.axis)
    found = Stretches().broken(strokes, evaluation, LengthUnit.MM)
    over = bar(ribbon, next(s for s in found if s.figure.startswith("560")))
    picture, painter = image
    scale = Scale(0.4, 0.0, 1000, 140)
    ((low, high),) = over.ends_px(scale)
    assert high - low == pytest.approx(553.0 * 0.4, abs=0.1)
    paint_bars(painter, [over], scale, 100.0, LIGHT)
    painter.end()
    at = inked(picture, [109])
    assert min(at) == pytest.approx(low, abs=2)
    assert max(at) == pytest.approx(high, abs=2)


def test_parts_that_meet_are_one_piece(ribbon, part, run_at):
    """Two runs of one stroke are joined, another stroke is a piece of its own."""
    junction = (395.0, 102.8)
    before, after = part((345.0, 100.0), (394.9, 102.8)), part((395.1, 102.8), (445.0, 100.0))
    up = part((395.0, 103.5), (395.0, 133.0))
    assert len({before.branch, after.branch, up.branch}) == 3, junction
    ends = {run.branch: run.length_mm - run.before_mm - run.after_mm for run in ribbon.runs}
    parts = tuple(_to_node(one, ends[one.branch]) for one in (before, after, up))
    made_bar = bar(ribbon, Stretch(StretchKind.LONG, parts, (0.0, 0.0), ""))
    assert len(made_bar.pieces) == 2
    strokes_met = {piece[0].stroke for piece in made_bar.pieces}
    assert strokes_met == {run_at(200.0, 100.0).stroke, run_at(395.0, 250.0).stroke}


def _to_node(one, length):
    """The part lengthened to the junction, whichever end of its branch that is."""
    near = [0.0 if at < 2.0 else length if at > length - 2.0 else at
            for at in (one.from_mm, one.to_mm)]  # fmt: skip
    return Part(one.branch, *near)


def test_figures_of_bars_never_cover_each_other(ribbon, image, monkeypatch, part):
    """The second of two at one place is left out."""
    drawn = []
    original = module._paint_figure

    def counted(painter, figure, piece, y, taken):
        before = len(taken)
        original(painter, figure, piece, y, taken)
        drawn.append(len(taken) > before)

    monkeypatch.setattr(module, "_paint_figure", counted)
    one = bar(
        ribbon,
        Stretch(StretchKind.LONG, (part((100.0, 100.0), (150.0, 100.0)),), (0.0, 0.0), "1 of 2 mm"),
    )
    paint_bars(image[1], [one, one], Scale(0.4, 0.0, 1000, 140), 100.0, LIGHT)
    assert drawn == [True, False]


def test_no_holes_are_no_ticks(strokes, ribbon):
    """An empty plan."""
    plan = edit.with_holes(strokes.plan, ())
    assert made(strokes, ribbon, plan) == {}
