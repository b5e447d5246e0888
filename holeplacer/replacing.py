"""Replacing: a file written whole, whose old content stays until the new one is proven good.

The data goes to a new file in the same folder and onto the disk; what comes back is compared and
checked; then one rename puts it in place. A crash, a full disk or a failed check leaves the old
file as it was. A link is followed: the file it leads to is replaced, with its permissions.

A process that is killed leaves its new file behind, `.NAME.xxxxxxxx.part`. Such files of the same
name go at the next writing once they are a day old: younger ones may be another process's that is
writing right now. (One fixed name would need a lock, which network folders don't keep reliably,
and whose own file would be left behind in turn.)
"""

import contextlib
import os
import re
import secrets
import stat
import time
from collections.abc import Callable
from pathlib import Path

from holeplacer.errors import HoleplacerError

STALE_S = 24 * 3600.0
"""Age from which a new file that nobody put in place is taken for a killed process's."""

_MOST_NAME_BYTES = 200
"""Of a file's name in its new file's, so that the longest name a system takes leaves room."""

Error = type[HoleplacerError]


def target_of(path: Path, error: Error) -> Path:
    """The file that is really meant, links followed.

    Args:
        path: As it was named.
        error: Kind of the errors.

    Raises:
        HoleplacerError: Of that kind: its folder is missing, or it is no ordinary file.
    """
    try:
        target = path.resolve()
        if not target.parent.is_dir():
            raise error(
                "the folder does not exist", where=str(path), remedy="create it or choose another"
            )
        if target.exists() and not target.is_file():
            raise error("is not an ordinary file", where=str(path), remedy="choose another name")
    except (OSError, ValueError, RuntimeError) as cause:  # a NUL in the name, a loop of links
        raise unwritable(path, cause, error) from cause
    return target


def replace_file(
    path: Path, data: bytes, error: Error, *, check: Callable[[bytes], None] | None = None
) -> None:
    """Write a file whole, read it back, and only then let it take the old one's place.

    Args:
        path: Where to.
        data: The new content.
        error: Kind of the errors.
        check: Called with the bytes read back; raises if they are no good.

    Raises:
        HoleplacerError: Of that kind: the file can't be written, or came back changed.
    """
    target = target_of(path, error)
    fresh = target.with_name(f"{_beginning(target.name)}{secrets.token_hex(4)}.part")
    try:
        _write_through(fresh, data, target)
        back = fresh.read_bytes()
        if back != data:
            raise error("came back from the disk changed", where=str(path))
        if check is not None:
            check(back)
        fresh.replace(target)
        _settle(target.parent)
        _clear_stale(target)
    except OSError as cause:
        raise unwritable(path, cause, error) from cause
    finally:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)


def unwritable(path: Path, cause: Exception, error: Error) -> HoleplacerError:
    """The error that says why the system does not let a file be written."""
    reason = cause.strerror if isinstance(cause, OSError) and cause.strerror else str(cause)
    return error(
        f"can't be written: {reason.lower()}",
        where=str(path)[:200].replace("\0", "\\0"),
        remedy="choose another place or make room",
    )


def _beginning(name: str) -> str:
    """How the names of all new files of one target begin."""
    cut = name.encode("utf-8", "surrogateescape")[:_MOST_NAME_BYTES]
    return f".{cut.decode('utf-8', 'ignore')}."


def _write_through(fresh: Path, data: bytes, target: Path) -> None:
    """Write a new file with the old one's permissions and wait until the disk has it."""
    with fresh.open("xb") as file:
        if target.exists():
            fresh.chmod(stat.S_IMODE(target.stat().st_mode))
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Wait until the disk has the new name too, where the system lets a folder be opened."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _clear_stale(target: Path) -> None:
    """Remove what killed processes left of earlier writings of the same file."""
    pattern = re.compile(re.escape(_beginning(target.name)) + r"[0-9a-f]{8}\.part")
    now = time.time()
    with contextlib.suppress(OSError), os.scandir(target.parent) as entries:
        for entry in entries:
            if not pattern.fullmatch(entry.name):
                continue
            with contextlib.suppress(OSError):
                if entry.is_file(follow_symlinks=False) and (
                    now - entry.stat(follow_symlinks=False).st_mtime > STALE_S
                ):
                    Path(entry.path).unlink()
