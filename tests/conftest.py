"""How property tests draw their examples: anew at the desk, always the same ones in CI.

A person's run looks for new counterexamples; a run that decides whether a change goes in must not
depend on luck. Property tests also draw constants of the code that is loaded by then, so that in
CI all of it is.
"""

import os
import pkgutil

from hypothesis import settings

import holeplacer

settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")

if os.environ.get("CI"):
    for module in pkgutil.walk_packages(holeplacer.__path__, "holeplacer."):
        if not module.name.endswith("__main__"):
            __import__(module.name)
