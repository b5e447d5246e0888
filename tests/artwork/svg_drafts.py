"""SVG files for tests, made of a few words."""

from holeplacer.artwork.artwork import Artwork, ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork

NAMESPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
PAGE = 'width="100mm" height="100mm" viewBox="0 0 100 100"'


def svg(body: str, page: str = PAGE, before: str = "") -> ArtworkFile:
    """An SVG file; by default one user unit is 1 mm on a page of 100 mm."""
    return ArtworkFile("sign.svg", f"{before}<svg {NAMESPACES} {page}>{body}</svg>".encode())


def read(body: str, page: str = PAGE, **options: object) -> Artwork:
    """The artwork of such a file."""
    return read_artwork(svg(body, page), ReadOptions(**options))  # type: ignore[arg-type]  # any


def told(artwork: Artwork, part: str) -> dict[str, int]:
    """What an import account says in one of its parts, with the counts."""
    found: dict[str, int] = {}
    for entry in getattr(artwork.account, part):
        found[entry.what] = found.get(entry.what, 0) + entry.count
    return found
