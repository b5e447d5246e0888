"""Watch: how long the search may take, how far it is, and whether it is still wanted."""

from collections.abc import Callable
from dataclasses import dataclass

from holeplacer.errors import Cancelled


@dataclass(frozen=True)
class Watch:
    """Handed to every search.

    Attributes:
        seconds_a_piece: After this, a piece's search stops with what it has and says so.
        cancelled: Whether the person stopped the work.
        progress: Told the share done and what is being done.
    """

    seconds_a_piece: float = 5.0
    cancelled: Callable[[], bool] | None = None
    progress: Callable[[float, str], None] | None = None

    def look(self) -> None:
        """Stop if the person wants so.

        Raises:
            Cancelled: They do.
        """
        if self.cancelled is not None and self.cancelled():
            raise Cancelled("stopped", remedy="nothing was changed")

    def tell(self, share: float, text: str) -> None:
        """Say how far the work is.

        Raises:
            Cancelled: The person stopped it.
        """
        self.look()
        if self.progress is not None:
            self.progress(share, text)
