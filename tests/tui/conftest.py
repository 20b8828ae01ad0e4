"""The pseudo-terminal lives with the stories; tests here use it too."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1] / "stories"))
