"""Progress: one line on the terminal that says what is being done and how far it is."""

import sys
from collections.abc import Callable
from types import TracebackType

_BAR = 24


class Progress:
    """Shows shares of the work on standard error if that is a terminal, and wipes them at the end.

    Used as a context manager; calling it is what `placement.propose` asks of `progress`.
    """

    def __init__(self) -> None:
        self._shown = 0
        self._terminal = sys.stderr is not None and sys.stderr.isatty()

    def __call__(self, share: float, what: str) -> None:
        """Show a share of 0 to 1 of the work and what is being done."""
        if not self._terminal:
            return
        done = round(_BAR * min(max(share, 0.0), 1.0))
        line = f"[{'#' * done}{'.' * (_BAR - done)}] {what}"
        sys.stderr.write("\r" + line.ljust(self._shown))
        sys.stderr.flush()
        self._shown = len(line)

    def within(self, low: float, high: float) -> Callable[[float, str], None]:
        """What shows a part's own shares of 0 to 1 as shares from `low` to `high` of the whole."""
        return lambda share, what: self(low + share * (high - low), what)

    def __enter__(self) -> "Progress":
        """Begin."""
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Wipe the line, so that nothing of it mixes with what follows."""
        if self._shown:
            sys.stderr.write("\r" + " " * self._shown + "\r")
            sys.stderr.flush()
            self._shown = 0
