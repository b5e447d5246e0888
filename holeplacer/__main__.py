"""Holeplacer: a verb runs on the command line, anything else opens the window."""

import logging
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from holeplacer.cli import commands, demo
from holeplacer.errors import HoleplacerError


def main(arguments: Sequence[str] | None = None) -> int:
    """Decide between the window and the command line.

    A verb or an option goes to the command line. No argument opens the window, one file opens it
    on that file. Without a display, no argument does the main job on the demo sign instead.

    Args:
        arguments: The command line without the program's name; None takes the process's own.

    Returns:
        Exit status.
    """
    given = list(sys.argv[1:] if arguments is None else arguments)
    # The DXF library's remarks are not the person's business: what matters is in the account.
    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    if given and not _is_for_window(given):
        return commands.run(given)
    if has_display():
        return commands.guarded(lambda: _window(given))
    if given:
        sys.stderr.write(
            f"There is no display to open {given[0]} on; see holeplacer --help for the verbs.\n"
        )
        return commands.UNUSABLE
    sys.stderr.write("There is no display, so the demo sign is done here.\n")
    return demo.run_demo()


def has_display() -> bool:
    """Whether a window can be shown: always but on an X11 or Wayland system without a display."""
    if sys.platform in ("win32", "darwin") or os.environ.get("QT_QPA_PLATFORM"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _is_for_window(given: Sequence[str]) -> bool:
    """Whether the only argument is a file and no verb."""
    return len(given) == 1 and given[0] not in commands.VERBS and Path(given[0]).is_file()


def _window(given: list[str]) -> int:
    try:
        from holeplacer.gui import application  # only here: the command line never loads Qt
    except ImportError as error:
        raise HoleplacerError(
            f"The window can't be loaded ({error})",
            remedy="install the system libraries that README names, or use a verb",
        ) from error
    return application.run(given)


if __name__ == "__main__":
    sys.exit(main())
