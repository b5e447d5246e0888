"""What a wall's figures can be."""

from dataclasses import replace

import pytest

from holeplacer.errors import InputError
from holeplacer.wall import photo, validity
from holeplacer.wall.as_found import AsFound, Revision
from holeplacer.wall.fastener import Fastener
from holeplacer.wall.layer import Layer
from holeplacer.wall.photo import Photo, PhotoPoint
from holeplacer.wall.wall import Elevation, Placing, Wall
from holeplacer.wall.zone import Studs, Zone

NAN = float("nan")
WALL = Wall(
    Elevation(6000.0, 3000.0, -150.0),
    Placing("left", 300.0, "ground", 2600.0, 40.0, (0.0, 40.0)),
    (Zone("blocked", "conduit", "band", ((0.0, 0.0), (0.0, 900.0)), 12.0),),
    (Studs(200.0),),
    layers=(Layer("cladding", 12.0), Layer("structure", 90.0, "studs")),
    photo=Photo("front.jpg", b"\xff\xd8", (PhotoPoint(1, 2, 3, 4), PhotoPoint(9, 2, 30, 4))),
    as_found=(AsFound(3, "steel", 10.0, 20.0),),
    revisions=(Revision(1, ("hole 3 moved",), "May"),),
)


def test_a_sound_wall_comes_back_itself():
    """Nothing is changed."""
    assert validity.checked(WALL) is WALL
    assert validity.checked(Wall()) == Wall()


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"elevation": Elevation(0.0, 3000.0)}, "wall, width"),
        ({"elevation": Elevation(6000.0, NAN)}, "wall, height"),
        ({"elevation": Elevation(6000.0, 3000.0, float("inf"))}, "ground"),
        ({"placing": Placing("middling")}, "across"),
        ({"placing": Placing(up="high")}, "up"),
        ({"placing": Placing(across_mm=NAN)}, "across"),
        ({"placing": Placing(level_mm=NAN)}, "level line"),
        ({"placing": Placing(datum_mm=(0.0, NAN))}, "datum"),
        ({"landing": "hopefully"}, "hopefully"),
        ({"clear_mm": -1.0}, "blocked"),
        ({"inside_mm": NAN}, "good"),
        ({"zones": (Zone("fine", "beam", "rectangle", ((0, 0), (1, 1))),)}, "fine"),
        ({"zones": (Zone("good", "beam", "circle", ((0, 0), (1, 1))),)}, "circle"),
        ({"zones": (Zone("good", "beam", "rectangle", ((0, 0),)),)}, "2 points, not 1"),
        ({"zones": (Zone("good", "beam", "rectangle", ((0, 0), (1, 1), (2, 2))),)}, "not 3"),
        ({"zones": (Zone("good", "beam", "rectangle", ((0, 0), (5, 0))),)}, "no area"),
        ({"zones": (Zone("good", "beam", "polygon", ((0, 0), (1, 1))),)}, "3 points or more"),
        ({"zones": (Zone("good", "beam", "band", ((0, 0), (0, 9))),)}, "half width"),
        ({"zones": (Zone("good", "beam", "band", ((0, 0), (0, 0)), 5.0),)}, "no area"),
        ({"zones": (Zone("good", "beam", "rectangle", ((0, 0), (NAN, 1))),)}, "zone 1, x"),
        ({"zones": (Zone("good", "x" * 501, "rectangle", ((0, 0), (1, 1))),)}, "letters"),
        ({"zones": WALL.zones * 2001}, "more than 2000"),
        ({"studs": (Studs(0.0, 5.0),)}, "studs, spacing"),
        ({"studs": (Studs(0.0, 400.0, 500.0),)}, "studs, width"),
        ({"studs": (Studs(0.0, bottom_mm=9.0, top_mm=5.0),)}, "studs, top"),
        ({"studs": (Studs(0.0, count=0),)}, "studs, count"),
        ({"elevation": None}, "how far they go"),
        ({"layers": (Layer("cheese", 20.0),)}, "cheese"),
        ({"layers": (Layer("soft", 0.0),)}, "layer 1, thickness"),
        ({"layers": (Layer("soft", 9.0),) * 21}, "more than 20"),
        ({"fastener": Fastener("nail")}, "nail"),
        ({"fastener": Fastener(reach="far")}, "far"),
        ({"fastener": Fastener(diameter_mm=0.0)}, "fastener, diameter"),
        ({"photo": Photo("a.jpg", b"")}, "0 bytes"),
        ({"photo": Photo("a.jpg", bytes(photo.LARGEST_BYTES + 1))}, "can't be kept"),
        ({"photo": Photo("../a.jpg", b"x")}, "file name"),
        ({"photo": Photo("a.jpg", b"x", (PhotoPoint(1, 1, 1, 1),))}, "1 points"),
        ({"photo": Photo("a.jpg", b"x", (PhotoPoint(NAN, 1, 1, 1),) * 2)}, "photograph"),
        ({"as_found": (AsFound(0, "steel", 0.0, 0.0),)}, "as found"),
        ({"revisions": (Revision(0),)}, "revision"),
        ({"revisions": (Revision(1, ("x" * 501,)),)}, "revision 1"),
    ],
)
def test_what_cant_be_meant_is_named(change, named):
    """One sentence says which figure it is and what it may be."""
    with pytest.raises(InputError, match=named):
        validity.checked(replace(WALL, **change))
