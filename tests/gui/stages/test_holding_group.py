"""How the sheet is held, what it may do, heat and anchors."""

from dataclasses import fields

import pytest

from holeplacer.gui.stages.strength import StrengthStage
from holeplacer.loads.loading import Loading, Temperature, WallFixing, WoodScrew


@pytest.fixture
def stage(qtbot, windy):
    made = StrengthStage(windy)
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made._refresh()
    return made


def row(stage, name):
    return next(b.row for b in stage._rows._bound if b.row.label.text() == name)


def test_a_screw_brings_its_rows_and_takes_them_along(stage):
    """One step either way."""
    assert row(stage, "Thread in the wood").entry.isHidden()
    stage.holding._screw.click()
    stage._refresh()
    assert stage.session.plan.loading.fixing.screw == WoodScrew()
    assert stage.session.undo_stack.undoText() == "Screw into wood"
    assert not row(stage, "Thread in the wood").entry.isHidden()
    stage.holding._screw.click()
    assert stage.session.plan.loading.fixing.screw is None


def test_a_limit_in_millimetres_takes_the_ratios_place(stage):
    """Cleared, the ratios hold again."""
    limit = row(stage, "Deflection limit").entry
    limit.entered.emit(3.0, False)
    stage._refresh()
    assert row(stage, "Span over deflection").entry.isHidden()
    limit.entered.emit(None, False)
    stage._refresh()
    assert not row(stage, "Span over deflection").entry.isHidden()


def test_temperatures_keep_their_order(stage):
    """A lowest above the others is told in place."""
    lowest = row(stage, "Lowest")
    lowest.entry.entered.emit(70.0)
    assert "do not rise" in lowest.error.text()
    assert stage.session.plan.loading.temperature == Temperature()
    lowest.entry.entered.emit(-30.0)
    assert stage.session.plan.loading.temperature.lowest_c == -30.0


def test_anchors_are_asked_of_their_maker(stage):
    """Never guessed: empty says whom to ask."""
    tension = row(stage, "Allowable tension").entry
    assert (tension.text(), tension.placeholderText()) == ("", "ask its maker")
    tension.entered.emit(900.0)
    assert stage.session.plan.loading.fixing.tension_n == 900.0


def test_everything_decided_about_loads_has_an_entry(stage, monkeypatch):
    """Every field of the loading is bound to a row, or chosen by one."""
    paths = set()
    stage.session.show_plan(stage.session.plan)
    original = type(stage._rows)
    for name in ("quantity", "length", "choice", "tick"):
        made = getattr(original, name)

        def noted(self, title, path, *args, made=made, **more):
            paths.add(path)
            return made(self, title, path, *args, **more)

        monkeypatch.setattr(original, name, noted)
    StrengthStage(stage.session).deleteLater()
    parts = {"asce7", "en1991", "temperature", "fixing"}
    whole = {field.name for field in fields(Loading)} - parts
    whole |= {f"temperature.{field.name}" for field in fields(Temperature)}
    whole |= {f"fixing.{field.name}" for field in fields(WallFixing)} - {"fixing.screw"}
    whole |= {f"fixing.screw.{field.name}" for field in fields(WoodScrew)}
    assert whole <= paths
