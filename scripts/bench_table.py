"""Prints one table of measured times, each beside a peer measured in the same run.

Every part is a module `bench_PART.py` with `rows()`, which gives (what, our seconds, peer,
the peer's seconds, ours / the peer's).
"""

import importlib
import os
import platform
import sys
from pathlib import Path

PARTS = ("artwork", "axis", "placement", "strength", "drag", "window")


def main(parts: list[str]) -> int:
    """Measure the named parts, or all."""
    unknown = [part for part in parts if part not in PARTS]
    if unknown:
        print(f"No part named {unknown[0]}; there are: {', '.join(PARTS)}.", file=sys.stderr)
        return 2
    sys.path.insert(0, str(Path(__file__).parent))
    # as the program itself does, before any part imports numpy
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    load = os.getloadavg()[0]
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {load:.1f}\n")
    print(f"| {'what':<58} | {'ours ms':>9} | {'peer':<44} | {'peer ms':>9} | {'ratio':>6} |")
    print(f"|{'-' * 60}|{'-' * 10}:|{'-' * 46}|{'-' * 10}:|{'-' * 7}:|")
    for part in parts or PARTS:
        for what, ours, peer, theirs, ratio in importlib.import_module(f"bench_{part}").rows():
            print(
                f"| {what:<58} | {ours * 1e3:>9.2f} | {peer:<44} "
                f"| {theirs * 1e3:>9.2f} | {ratio:>6.2f} |",
                flush=True,
            )
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
