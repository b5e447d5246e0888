"""Writing a file so that its old content stays until the new one is proven good."""

import contextlib
import os
import secrets
import stat
from collections.abc import Callable, Iterable
from pathlib import Path

from holeplacer.errors import ExportError


def replace_file(
    path: Path,
    data: bytes,
    *,
    check: Callable[[bytes], None] | None = None,
    protected: Iterable[Path] = (),
) -> None:
    """Write a file whole, read it back, and only then let it take the old one's place.

    The data goes to a new file in the same folder and onto the disk; what comes back is compared
    and checked; then one rename puts it in place. A crash, a full disk or a failed check leaves
    the old file as it was. A link is followed: the file it leads to is replaced.

    Args:
        path: Where to.
        data: The new content.
        check: Called with the bytes read back; raises `ExportError` if they are no good.
        protected: Files that must not be overwritten: the artwork, the plan.

    Raises:
        ExportError: The target can't be written, is protected, or the read-back failed.
    """
    target = _target(path, protected)
    fresh = target.with_name(f".{target.name[:200]}.{secrets.token_hex(4)}.part")
    try:
        _write_through(fresh, data, _mode_of(target))
        back = fresh.read_bytes()
        if back != data:
            raise ExportError("came back from the disk changed", where=str(path))
        if check is not None:
            check(back)
        fresh.replace(target)
        _settle(target.parent)
    except OSError as error:
        raise _unwritable(path, error) from error
    finally:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)


def refuse_target(path: Path, protected: Iterable[Path] = ()) -> None:
    """Say beforehand whether a file could not be written, before long work is done for it.

    Raises:
        ExportError: The folder is missing or closed, the target is no ordinary file or protected.
    """
    target = _target(path, protected)
    if not os.access(target.parent, os.W_OK | os.X_OK):
        raise ExportError(
            "the folder may not be written to", where=str(path), remedy="choose another folder"
        )


def _target(path: Path, protected: Iterable[Path]) -> Path:
    """The file that is really meant, links followed."""
    try:
        target = path.resolve()
        if not target.parent.is_dir():
            raise ExportError(
                "the folder does not exist", where=str(path), remedy="create it or choose another"
            )
        if target.exists() and not target.is_file():
            raise ExportError(
                "is not an ordinary file", where=str(path), remedy="choose another name"
            )
        if any(_same_file(target, other) for other in protected):
            raise ExportError(
                "would overwrite what the work was made from",
                where=str(path),
                remedy="choose another name",
            )
    except (OSError, ValueError, RuntimeError) as error:  # a NUL in the name, a loop of links
        raise _unwritable(path, error) from error
    return target


def _same_file(one: Path, other: Path) -> bool:
    return one == other.resolve() or (one.exists() and other.exists() and one.samefile(other))


def _mode_of(target: Path) -> int | None:
    """Permissions of the file that is to be replaced."""
    return stat.S_IMODE(target.stat().st_mode) if target.exists() else None


def _write_through(path: Path, data: bytes, mode: int | None) -> None:
    """Write a new file and wait until the disk has it."""
    with path.open("xb") as file:
        if mode is not None:
            path.chmod(mode)
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


def _unwritable(path: Path, error: Exception) -> ExportError:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return ExportError(
        f"can't be written: {reason.lower()}",
        where=str(path)[:200].replace("\0", "\\0"),
        remedy="choose another place or make room",
    )
