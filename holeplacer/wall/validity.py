"""Validity: what a wall's figures can be at all, whatever file or person they come from."""

from collections.abc import Iterator

from holeplacer.errors import InputError
from holeplacer.wall import as_found, photo
from holeplacer.wall.fastener import FASTENER_KINDS, REACHES, Fastener
from holeplacer.wall.layer import LAYER_KINDS
from holeplacer.wall.photo import Photo
from holeplacer.wall.wall import ACROSS, LANDINGS, UP, Elevation, Placing, Wall
from holeplacer.wall.zone import LEAST_POINTS, ZONE_KINDS, ZONE_SHAPES, Studs, Zone

Ranged = tuple[str, float | None, float, float]
"""Name, figure (None: not entered), least, greatest."""

FURTHEST_MM = 1e6
LARGEST_MM = 1e4
THICKEST_MM = 5000.0

MOST_ZONES = 2000
MOST_POINTS = 2000
MOST_STUDS = 2000
MOST_LAYERS = 20
MOST_MARKS = 10_000
MOST_CHANGES = 10_000
LONGEST_TEXT = 500


def checked(wall: Wall) -> Wall:
    """The wall itself, if all its figures can be meant.

    Raises:
        InputError: One can't; the sentence names it, its value and what it may be.
    """
    for name, value, least, most in _figures(wall):
        if value is not None and not least <= value <= most:
            raise InputError(
                f"{value:g} is not possible",
                where=name,
                remedy=f"it must be from {least:g} to {most:g}",
            )
    _check_words(wall)
    for number, zone in enumerate(wall.zones, start=1):
        _check_shape(number, zone)
    if wall.elevation is None and any(None in (row.count, row.top_mm) for row in wall.studs):
        raise InputError(
            "without the wall's size it is not known how far they go",
            where="studs",
            remedy="enter the wall's size, or their number and their top",
        )
    if wall.photo is not None:
        _check_photo(wall.photo)
    return wall


def _check_words(wall: Wall) -> None:
    for where, word, words in _words(wall):
        if word not in words:
            raise InputError(
                f"{str(word)[:40]!r} is none there is",
                where=where,
                remedy=f"take {', '.join(words)}",
            )
    for where, count, most_of_them in _counts(wall):
        if count > most_of_them:
            raise InputError(f"{count} are more than {most_of_them}", where=where)
    for where, text in _texts(wall):
        if len(text) > LONGEST_TEXT:
            raise InputError(f"more than {LONGEST_TEXT} letters", where=where)


def _figures(wall: Wall) -> Iterator[Ranged]:
    if wall.elevation is not None:
        yield from _elevation_figures(wall.elevation)
    yield from _placing_figures(wall.placing)
    for number, zone in enumerate(wall.zones, start=1):
        yield from _zone_figures(number, zone)
    for studs in wall.studs:
        yield from _studs_figures(studs)
    yield "distance from what is blocked", wall.clear_mm, 0.0, LARGEST_MM
    yield "distance inside what is good", wall.inside_mm, 0.0, LARGEST_MM
    for number, layer in enumerate(wall.layers, start=1):
        yield f"layer {number}, thickness", layer.thickness_mm, 0.01, THICKEST_MM
    yield from _fastener_figures(wall.fastener)
    for point in wall.photo.points if wall.photo is not None else ():
        yield "photograph, point", point.x_px, -1e6, 1e6
        yield "photograph, point", point.y_px, -1e6, 1e6
        yield "photograph, place", point.x_mm, -FURTHEST_MM, FURTHEST_MM
        yield "photograph, place", point.y_mm, -FURTHEST_MM, FURTHEST_MM
    yield from _as_found_figures(wall.as_found)
    for revision in wall.revisions:
        yield "revision", revision.number, 1, 9999


def _elevation_figures(elevation: Elevation) -> Iterator[Ranged]:
    yield "wall, width", elevation.width_mm, 1.0, FURTHEST_MM
    yield "wall, height", elevation.height_mm, 1.0, FURTHEST_MM
    yield "wall, ground", elevation.ground_mm, -FURTHEST_MM, FURTHEST_MM


def _placing_figures(placing: Placing) -> Iterator[Ranged]:
    yield "place on the wall, across", placing.across_mm, -FURTHEST_MM, FURTHEST_MM
    yield "place on the wall, up", placing.up_mm, -FURTHEST_MM, FURTHEST_MM
    yield "level line", placing.level_mm, -FURTHEST_MM, FURTHEST_MM
    for value in placing.datum_mm or ():
        yield "datum", value, -FURTHEST_MM, FURTHEST_MM


def _zone_figures(number: int, zone: Zone) -> Iterator[Ranged]:
    least = 0.01 if zone.shape == "band" else 0.0
    yield f"zone {number}, half width", zone.half_width_mm, least, LARGEST_MM
    for x, y in zone.points_mm:
        yield f"zone {number}, x", x, -FURTHEST_MM, FURTHEST_MM
        yield f"zone {number}, y", y, -FURTHEST_MM, FURTHEST_MM


def _studs_figures(studs: Studs) -> Iterator[Ranged]:
    yield "studs, first", studs.first_mm, -FURTHEST_MM, FURTHEST_MM
    yield "studs, spacing", studs.spacing_mm, 10.0, FURTHEST_MM
    yield "studs, width", studs.width_mm, 1.0, studs.spacing_mm
    yield "studs, count", studs.count, 1, MOST_STUDS
    yield "studs, bottom", studs.bottom_mm, -FURTHEST_MM, FURTHEST_MM
    yield "studs, top", studs.top_mm, studs.bottom_mm, FURTHEST_MM


def _fastener_figures(fastener: Fastener) -> Iterator[Ranged]:
    yield "fastener, diameter", fastener.diameter_mm, 0.5, 100.0
    yield "fastener, embedment", fastener.embedment_mm, 0.5, THICKEST_MM
    yield "fastener, drill", fastener.drill_mm, 0.1, 200.0
    yield "fastener, engagement", fastener.engagement_mm, 0.0, 500.0


def _as_found_figures(marks: tuple[as_found.AsFound, ...]) -> Iterator[Ranged]:
    for mark in marks:
        yield "as found, hole", mark.hole, 1, 999_999
        yield "as found, x", mark.x_mm, -FURTHEST_MM, FURTHEST_MM
        yield "as found, y", mark.y_mm, -FURTHEST_MM, FURTHEST_MM


def _words(wall: Wall) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    yield "place on the wall, across", wall.placing.across, ACROSS
    yield "place on the wall, up", wall.placing.up, UP
    yield "good zones", wall.landing, LANDINGS
    yield "fastener", wall.fastener.kind, FASTENER_KINDS
    yield "fastener, reach", wall.fastener.reach, REACHES
    for number, zone in enumerate(wall.zones, start=1):
        yield f"zone {number}, kind", zone.kind, ZONE_KINDS
        yield f"zone {number}, shape", zone.shape, ZONE_SHAPES
    for number, layer in enumerate(wall.layers, start=1):
        yield f"layer {number}, kind", layer.kind, LAYER_KINDS


def _counts(wall: Wall) -> Iterator[tuple[str, int, int]]:
    yield "zones", len(wall.zones), MOST_ZONES
    yield "rows of studs", len(wall.studs), MOST_ZONES
    yield "layers", len(wall.layers), MOST_LAYERS
    yield "as found", len(wall.as_found), MOST_MARKS
    yield "revisions", len(wall.revisions), MOST_MARKS
    for number, zone in enumerate(wall.zones, start=1):
        yield f"zone {number}, points", len(zone.points_mm), MOST_POINTS
    for revision in wall.revisions:
        yield f"revision {revision.number}, changes", len(revision.changes), MOST_CHANGES


def _texts(wall: Wall) -> Iterator[tuple[str, str]]:
    for number, zone in enumerate(wall.zones, start=1):
        yield f"zone {number}, what it is", zone.what
    for number, layer in enumerate(wall.layers, start=1):
        yield f"layer {number}, name", layer.name
    for mark in wall.as_found:
        yield f"as found, hole {mark.hole}", mark.what
    for revision in wall.revisions:
        for text in (revision.date, *revision.changes):
            yield f"revision {revision.number}", text


def _check_shape(number: int, zone: Zone) -> None:
    """A zone has points enough, and they are not all one."""
    least, points = LEAST_POINTS[zone.shape], zone.points_mm
    exact = zone.shape == "rectangle"
    if len(points) < least or (exact and len(points) != least):
        raise InputError(
            f"a {zone.shape} has {least} points{'' if exact else ' or more'}, not {len(points)}",
            where=f"zone {number}",
        )
    wide = len({x for x, _ in points}) > 1
    tall = len({y for _, y in points}) > 1
    flat = not (wide or tall) if zone.shape == "band" else not (wide and tall)
    if flat:
        raise InputError("it has no area", where=f"zone {number}", remedy="give other points")


def _check_photo(picture: Photo) -> None:
    if not picture.data or len(picture.data) > photo.LARGEST_BYTES:
        raise InputError(
            f"a picture of {len(picture.data)} bytes can't be kept",
            where="photograph",
            remedy=f"take one of 1 to {photo.LARGEST_BYTES} bytes",
        )
    if not 0 < len(picture.name) <= LONGEST_TEXT or any(sign in picture.name for sign in "/\\\0"):
        raise InputError("its name is not a file name", where="photograph")
    if len(picture.points) not in (0, 2, 4):
        raise InputError(
            f"{len(picture.points)} points don't place it",
            where="photograph",
            remedy="two scale it, four square it up",
        )
