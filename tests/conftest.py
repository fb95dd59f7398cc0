"""What every test shares: hypothesis tries the same examples each time, so that a change alone can turn a test red.

``LINEBOOK_HUNT=1 pytest`` tries new ones. What runs of `bind` keep for the next one is kept apart from the user's own.
The tests start a thousand processes: they may keep bytecode, or each would compile every module anew.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("hunt", deadline=None)
settings.load_profile("hunt" if os.environ.get("LINEBOOK_HUNT") else "same")

_CACHE = tempfile.mkdtemp(prefix="linebook-tests-")
os.environ["XDG_CACHE_HOME"] = _CACHE
atexit.register(shutil.rmtree, _CACHE, ignore_errors=True)
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
