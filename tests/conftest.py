"""How property tests draw their examples: anew at the desk, always the same ones in CI.

A person's run looks for new counterexamples; a run that decides whether a change goes in must not
depend on luck.
"""

import os

from hypothesis import settings

settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")
