"""The shapes and the judge live beside the tests; make them importable under any import mode."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
