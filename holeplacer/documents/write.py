"""Writing a document so that its old content stays until the new one is proven good."""

import os
from collections.abc import Callable, Iterable
from pathlib import Path

from holeplacer import replacing
from holeplacer.errors import ExportError


def replace_file(
    path: Path,
    data: bytes,
    *,
    check: Callable[[bytes], None] | None = None,
    protected: Iterable[Path] = (),
) -> None:
    """Write a document whole, read it back, and only then let it take the old one's place.

    Args:
        path: Where to.
        data: The new content.
        check: Called with the bytes read back; raises `ExportError` if they are no good.
        protected: Files that must not be overwritten: the artwork, the plan.

    Raises:
        ExportError: The target can't be written, is protected, or the read-back failed.
    """
    _refuse_protected(path, protected)
    replacing.replace_file(path, data, ExportError, check=check)


def refuse_target(path: Path, protected: Iterable[Path] = ()) -> None:
    """Say beforehand whether a file could not be written, before long work is done for it.

    Raises:
        ExportError: The folder is missing or closed, the target is no ordinary file or protected.
    """
    target = _refuse_protected(path, protected)
    if not os.access(target.parent, os.W_OK | os.X_OK):
        raise ExportError(
            "the folder may not be written to", where=str(path), remedy="choose another folder"
        )


def _refuse_protected(path: Path, protected: Iterable[Path]) -> Path:
    """The file that is really meant, if it is none of those to be kept."""
    target = replacing.target_of(path, ExportError)
    try:
        kept = any(_same_file(target, other) for other in protected)
    except (OSError, ValueError, RuntimeError) as cause:  # a file to be kept that is itself odd
        raise replacing.unwritable(path, cause, ExportError) from cause
    if kept:
        raise ExportError(
            "would overwrite what the work was made from",
            where=str(path),
            remedy="choose another name",
        )
    return target


def _same_file(one: Path, other: Path) -> bool:
    return one == other.resolve() or (one.exists() and other.exists() and one.samefile(other))
