"""Heads."""

import pytest

from holeplacer.errors import InputError
from holeplacer.standoffs import head


@pytest.mark.parametrize("item", head.heads(), ids=lambda item: item.name)
def test_every_head_is_wider_than_its_stud(item):
    """It could not hold the sheet otherwise; each row has title and source."""
    assert 1.3 < item.across < 2.5
    assert item.title
    assert item.source


def test_a_countersunk_head_comes_with_a_warning():
    """Thin sheet has no room for a countersink."""
    assert "knife edge" in head.head("countersunk").note


def test_unknown_head_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="countersunk"):
        head.head("crown")
