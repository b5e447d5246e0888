"""Import beside the bare libraries: they only parse, we also flatten, unite and account."""

import time
from collections.abc import Callable, Iterator
from io import BytesIO, StringIO

import ezdxf
import numpy as np
import svgelements

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.resources import resource_path

Row = tuple[str, float, str, float, float]
RUNS = 5


def rows() -> Iterator[Row]:
    """Demo sign in both formats, and rings of many vertices."""
    for name in ("thistledown.svg", "thistledown.dxf"):
        yield _row(f"import: {name}", name, resource_path("demo", name).read_bytes())
    for vertices in (20_000, 200_000):
        ring = wavy_ring(vertices)
        yield _row(f"import: SVG ring, {vertices} vertices", "ring.svg", _svg(ring))
        yield _row(f"import: DXF ring, {vertices} vertices", "ring.dxf", _dxf(ring))


def wavy_ring(vertices: int) -> np.ndarray:
    """A closed contour about 2 m across."""
    angle = np.linspace(0, 2 * np.pi, vertices, endpoint=False)
    radius = 900 + 80 * np.sin(9 * angle)
    return np.round(np.column_stack([radius * np.cos(angle), radius * np.sin(angle)]) + 1000, 4)


def _row(what: str, name: str, data: bytes) -> Row:
    ours = best(lambda: read_artwork(ArtworkFile(name, data), ReadOptions()))
    if name.endswith(".svg"):
        peer, theirs = "svgelements, parsing alone", best(lambda: _parse_svg(data))
    else:
        peer, theirs = "ezdxf, loading alone", best(lambda: ezdxf.read(StringIO(data.decode())))
    return what, ours, peer, theirs, ours / theirs


def _parse_svg(data: bytes) -> object:
    return svgelements.SVG.parse(BytesIO(data))


def best(work: Callable[[], object]) -> float:
    """Best of some runs, seconds."""
    times = []
    for _ in range(RUNS):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times)


def _svg(ring: np.ndarray) -> bytes:
    path = "M" + "L".join(f"{x:.4f},{y:.4f}" for x, y in ring.tolist()) + "Z"
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="2000mm" height="2000mm"'
    return f'{head} viewBox="0 0 2000 2000"><path d="{path}"/></svg>'.encode()


def _dxf(ring: np.ndarray) -> bytes:
    document = ezdxf.new("R2000", units=4)
    document.modelspace().add_lwpolyline(ring.tolist(), close=True)
    stream = StringIO()
    document.write(stream)
    return stream.getvalue().encode()
