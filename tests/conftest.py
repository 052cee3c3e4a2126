"""What holds for all tests.

Drawn examples differ from run to run at a developer's desk, where a new find is welcome; a check
of a commit draws the same ones every time, so that it speaks of the commit alone.
"""

import os

from hypothesis import settings

settings.register_profile("check", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("check")
