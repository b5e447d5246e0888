"""A second reader of papers: what stands on a PDF page, by a library that did not write it."""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import pypdf
from pypdf.generic import ContentStream

MM = 25.4 / 72


@dataclass(frozen=True)
class Stroked:
    """A line as a reader of the file sees it, mm from the page's lower left corner."""

    xy: np.ndarray
    width_mm: float
    dashed: bool
    closed: bool
    lightness: float


@dataclass(frozen=True)
class Printed:
    """What a second PDF reader finds on one page."""

    width_mm: float
    height_mm: float
    lines: list[Stroked]
    circles: np.ndarray
    texts: list[tuple[str, float, float]]
    fonts: dict[str, bool]

    @property
    def text(self) -> str:
        return " ".join(text for text, _, _ in self.texts)


def _moved(ctm: np.ndarray, values: Sequence[float]) -> np.ndarray:
    xy = np.asarray([float(v) for v in values]).reshape(-1, 2)
    return xy @ ctm[:2] + ctm[2]


def _matrix(values: Sequence[float]) -> np.ndarray:
    return np.array([float(v) for v in values]).reshape(3, 2)


def _times(inner: np.ndarray, outer: np.ndarray) -> np.ndarray:
    return np.vstack([inner[:2] @ outer[:2], inner[2:] @ outer[:2] + outer[2]])


class _Strokes:
    """Follows a page's operators and keeps every run that is drawn."""

    def __init__(self) -> None:
        self.state = {"ctm": np.eye(3, 2), "width": 1.0, "dash": False, "grey": 0.0}
        self.stack: list[dict[str, Any]] = []
        self.runs: list[list[Any]] = []
        self.lines: list[Stroked] = []
        self.circles: list[list[float]] = []

    def follow(self, operator: str, operands: list[Any]) -> None:
        steps = {"m": self.start, "l": self.line, "c": self.curve, "h": self.close}
        states = {
            "q": lambda _: self.stack.append(dict(self.state)),
            "Q": lambda _: self.state.update(self.stack.pop()),
            "cm": lambda v: self.state.update(ctm=_times(_matrix(v), self.state["ctm"])),
            "w": lambda v: self.state.update(width=float(v[0])),
            "d": lambda v: self.state.update(dash=bool(len(v[0]))),
            "RG": lambda v: self.state.update(grey=float(np.mean([float(part) for part in v]))),
        }
        if operator in steps or operator in states:
            (steps | states)[operator](operands)
        elif operator in ("S", "s", "B", "B*", "f", "f*", "n"):
            self.draw(operator)

    def start(self, operands: list[Any]) -> None:
        self.runs.append([[_moved(self.state["ctm"], operands)], False, 0])

    def line(self, operands: list[Any]) -> None:
        self.runs[-1][0].append(_moved(self.state["ctm"], operands))

    def curve(self, operands: list[Any]) -> None:
        self.runs[-1][0].append(_moved(self.state["ctm"], operands)[2:])
        self.runs[-1][2] += 1

    def close(self, _: list[Any]) -> None:
        self.runs[-1][1] = True

    def draw(self, operator: str) -> None:
        for points, closed, curves in self.runs if operator != "n" else []:
            xy = np.concatenate(points) * MM
            if curves == 4 and len(xy) == 5:
                low, high = xy.min(axis=0), xy.max(axis=0)
                self.circles.append([*(low + high) / 2, (high[0] - low[0]) / 2])
            elif operator[0] in "SsB":
                width, dashed = self.state["width"] * MM, self.state["dash"]
                self.lines.append(Stroked(xy, width, dashed, closed, self.state["grey"]))
        self.runs = []


def read(data: bytes) -> list[Printed]:
    """Every page of a file: its size, lines, circles (x, y, radius), texts, fonts embedded."""
    reader = pypdf.PdfReader(io.BytesIO(data), strict=True)
    return [_page(page, reader) for page in reader.pages]


def _page(page: pypdf.PageObject, reader: pypdf.PdfReader) -> Printed:
    strokes = _Strokes()
    for operands, operator in ContentStream(page.get_contents(), reader).operations:
        strokes.follow(operator.decode(), operands)
    texts: list[tuple[str, float, float]] = []

    def heard(text: str, ctm: Any, matrix: Sequence[float], font: Any, size: float) -> None:
        if text.strip():
            texts.append((text.strip(), matrix[4] * MM, matrix[5] * MM))

    page.extract_text(visitor_text=heard)
    faces = [face.get_object() for face in page["/Resources"]["/Font"].values()]
    fonts = {face["/BaseFont"]: "/FontFile2" in face.get("/FontDescriptor", {}) for face in faces}
    wide, high = float(page.mediabox.width) * MM, float(page.mediabox.height) * MM
    circles = np.array(strokes.circles).reshape(-1, 3)
    return Printed(wide, high, strokes.lines, circles, texts, fonts)
