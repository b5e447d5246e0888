"""What the sheet bears, in the Strength stage's form."""

import pytest
from PySide6.QtCore import Qt

from holeplacer.errors import Cancelled
from holeplacer.gui.stages.loading_rows import changed
from holeplacer.placement import sheet_limits, strip_span


@pytest.fixture
def group(blown):
    (stage,) = [stage for stage in blown.stages if stage.NAME == "Strength"]
    stage._refresh()
    return stage.limits


def press(qtbot, group, button):
    group._stage.ensureWidgetVisible(button)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)


@pytest.fixture
def answered(group, qtbot):
    press(qtbot, group, group.button)
    qtbot.waitUntil(lambda: not group.spacing.entry.isHidden(), timeout=60_000)
    return group


def test_the_strip_stands_there_at_once(group, blown):
    """Without a wait, with its unit; gone without a wind."""
    span_mm = strip_span.strip_span_mm(blown.session.plan)
    assert group._strip.entry.text() == group._stage.shown(span_mm)
    assert group.spacing.entry.isHidden()
    blown.session.push(changed(blown.session.committed, "method", "none"), "Calm")
    group._stage._refresh()
    assert group._strip.entry.isHidden()
    assert group.button.isHidden()


def test_answers_say_what_governs(answered):
    """Limit state and utilisation, for the answer and for the next that fails."""
    found = answered.asker.found
    for row, limit in ((answered.spacing, found.spacing), (answered.gauge, found.gauge)):
        assert limit.verdict.governs.utilisation.check in row.note.text()
        assert f"{limit.verdict.utilisation:.2f} of 1" in row.note.text()
        if limit.beyond is not None:
            assert f"{limit.beyond.utilisation:.2f} of 1" in row.note.text()
        assert row.entry.accessibleName().startswith(row.label.text())
    assert found.spacing.beyond or found.gauge.beyond
    assert "anchor in the wall" in answered._not_judged.text()


def test_the_spacing_is_taken_by_its_button(answered, blown, qtbot):
    """As one step; the answer is then marked as another plan's."""
    found = answered.asker.found
    press(qtbot, answered, answered.spacing.entry)
    assert blown.session.committed.limits.spacing_mm == found.spacing.spacing_mm
    qtbot.waitUntil(lambda: "ask again" in answered._not_judged.text())
    assert answered.spacing.entry.isHidden()
    blown.session.undo_stack.undo()
    qtbot.waitUntil(lambda: not answered.spacing.entry.isHidden())


def test_the_button_stops_while_it_works(group, qtbot, monkeypatch):
    """Progress is shown meanwhile."""

    def endless(*_args, progress, cancelled):
        progress(0.25, "trying")
        while not cancelled():
            pass
        raise Cancelled("stopped")

    monkeypatch.setattr(sheet_limits, "sheet_limits", endless)
    press(qtbot, group, group.button)
    qtbot.waitUntil(lambda: group._bar.value() == 250)
    assert group.button.text() == "Stop"
    press(qtbot, group, group.button)
    qtbot.waitUntil(lambda: group.button.text().startswith("Find"))
    assert group._bar.isHidden()
