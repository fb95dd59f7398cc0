"""What every test shares: hypothesis tries the same examples each time, so that a change alone can turn a test red.

``LINEBOOK_HUNT=1 pytest`` tries new ones.
"""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("hunt", deadline=None)
settings.load_profile("hunt" if os.environ.get("LINEBOOK_HUNT") else "same")
