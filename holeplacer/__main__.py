"""Holeplacer: a verb runs on the command line, anything else opens the window."""

import logging
import os
import sys
from collections.abc import Sequence
from pathlib import Path


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
    # Our dense systems are small: threads that wait for each other cost more than they bring.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # The DXF library's remarks are not the person's business: what matters is in the account.
    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    if not given and has_display():
        return _window(given)
    from holeplacer.cli import commands, demo  # not before: the window must not wait for them

    if not given:
        sys.stderr.write("There is no display, so the demo sign is done here.\n")
        return demo.run_demo()
    if given[0] in commands.VERBS or len(given) > 1 or not _is_file(given[0]):
        return commands.run(given)
    if has_display():
        return _window(given)
    sys.stderr.write(
        f"There is no display to open {given[0]} on; see holeplacer --help for the verbs.\n"
    )
    return commands.UNUSABLE


def has_display() -> bool:
    """Whether a person would see a window: not on an X11 or Wayland system without a display."""
    platform = os.environ.get("QT_QPA_PLATFORM", "")
    if platform in ("offscreen", "minimal"):
        return False
    if sys.platform in ("win32", "darwin") or platform:
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def _is_file(name: str) -> bool:
    try:
        return Path(name).is_file()
    except (OSError, ValueError):  # a name that no system takes
        return False


def _window(given: list[str]) -> int:
    try:
        from holeplacer.gui import application  # only here: the command line never loads Qt
    except ImportError as error:
        sys.stderr.write(
            f"The window can't be loaded ({error}); install the system libraries that README "
            "names, or use a verb (holeplacer --help).\n"
        )
        return 2
    return application.run(given)


if __name__ == "__main__":
    sys.exit(main())
