"""The best seams."""

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.errors import Cancelled
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.seams import candidates, choice, cost, sections


def chosen(here):
    return choice.choose(here.plan, here.outline, here.axis)


@pytest.mark.parametrize("name", ["bar", "wedge", "fork", "ring", "handle"])
@pytest.mark.parametrize(("width", "height"), [(130, 130), (190, 100)])
def test_as_good_as_trying_everything(sign, shapes, name, width, height):
    """Fewest sections, and weld with penalties within 2 % of the least among all sets of three
    cuts on every other candidate."""
    here = sign(shapes[name], width, height)
    found = chosen(here)
    assert here.all_fit(found.seams)
    assert found.sections == len(sections.sections(here.outline, found.seams))
    cuts = candidates.candidates(here.plan, here.outline, here.axis)
    rows = np.arange(0, len(cuts), -(-len(cuts) // 16))
    number, least = here.by_trying_all(cuts, rows, cost.cost(cuts, 5.0), 3)
    assert found.lower_bound <= found.sections <= number
    if found.sections == number:
        assert found.cost_mm <= 1.02 * least


def test_what_fits_is_left_whole(sign, shapes):
    """No seam where none is needed; that is proven."""
    found = chosen(sign(shapes["fork"], 400))
    assert (found.seams, found.sections, found.proven, found.weld_mm) == ((), 1, True, 0.0)


def test_the_narrow_end_is_cut(sign, shapes):
    """The cheapest place of a wedge that still lets both parts fit is its thin side."""
    found = chosen(sign(shapes["wedge"], 210, turning="none"))
    (seam,) = found.seams
    assert 80 - 1e-6 <= seam.middle_mm[0] <= 80 + 20
    assert found.weld_mm == pytest.approx(seam.length_mm)
    assert found.least_cost


def test_a_ring_takes_two_seams(sign, shapes):
    """Two cuts part it in two; the number can't be less."""
    found = chosen(sign(shapes["ring"], 125, 160, turning="none"))
    assert (len(found.seams), found.sections, found.proven) == (2, 2, True)


def test_a_fixed_seam_stays(sign):
    """It comes first, unchanged, and the rest is divided round it."""
    here = sign(box(0, -6, 300, 6), 130, turning="none")
    stays = Seam(50.0, -6.0, 50.0, 6.0, True)
    here.plan = edit.with_seams(here.plan, [stays, Seam(70.0, -6.0, 70.0, 6.0)])
    found = chosen(here)
    assert found.seams[0] == stays
    assert Seam(70.0, -6.0, 70.0, 6.0) not in found.seams
    assert found.sections == 4
    assert here.all_fit(found.seams)


def test_pieces_are_divided_each_by_itself(sign):
    """A piece that fits stays whole beside one that does not."""
    here = sign(shapely.union_all([box(0, 0, 200, 12), box(0, 50, 90, 62)]), 130)
    found = chosen(here)
    assert (found.sections, len(found.seams), found.proven) == (3, 1, True)


def test_holes_are_kept_clear_of(sign):
    """A row of holes moves the seam into the one place left."""
    holes = tuple(Hole(n, 20.0 * n, 0.0, 6.0) for n in range(1, 15) if n not in (6, 7))
    here = sign(box(0, -10, 300, 10), 200, holes=holes, seam_clear_mm=10.0)
    (seam,) = chosen(here).seams
    assert 113 <= seam.middle_mm[0] <= 147


def test_the_work_can_be_watched_and_stopped(sign, shapes):
    """Progress is told by piece; stopping raises."""
    here = sign(shapes["handle"], 100)
    told = []
    choice.choose(
        here.plan, here.outline, here.axis, progress=lambda share, text: told.append((share, text))
    )
    assert told == [(0.0, "piece 1 of 1")]
    with pytest.raises(Cancelled, match="division"):
        choice.choose(here.plan, here.outline, here.axis, cancelled=lambda: True)


def test_when_time_is_up_the_division_still_fits(sign, shapes, monkeypatch):
    """Merging takes over; nothing is claimed that was not proven."""
    monkeypatch.setattr(choice.parting, "parting", lambda *_: None)
    here = sign(shapes["fork"], 130)
    found = chosen(here)
    assert here.all_fit(found.seams)
    assert not found.least_cost
    assert found.lower_bound <= found.sections
