"""What goes to the table, as it is wanted."""

from dataclasses import replace

import pytest

from holeplacer.plan import edit


@pytest.fixture
def group(laid):
    return laid.folder


def test_choices_are_the_exporters(group):
    """Version, unit, offset, lead-ins."""
    group._version.chosen.emit("R12")
    group._units.chosen.emit("in")
    group.offset.setChecked(True)
    group.leads.setChecked(False)
    wanted = group._exporter.wanted
    assert (wanted.version, wanted.units) == ("R12", "in")
    assert (wanted.kerf_offset, wanted.leads) == (True, False)


def test_it_can_be_written_once_sections_lie_on_sheets(group, session, laid, refresh):
    """The button asks where; without sheets it waits."""
    asked = []
    group.wanted.connect(lambda: asked.append(1))
    group.write.click()
    assert asked == [1]
    plan = session.committed
    session.push(edit.with_sections(plan, replace(plan.sections, stock=())), "No sheets")
    refresh(laid)
    assert not group.write.isEnabled()
