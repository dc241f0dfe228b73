"""What holds for every test."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

# Whether the tests pass depends on the code alone, not on luck and not on how busy the machine is. To search further,
# set RINKFOLD_SEARCH: other examples are then tried at each run.
settings.register_profile(
    "the same each time", derandomize=True, deadline=None, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("search", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("search" if os.environ.get("RINKFOLD_SEARCH") else "the same each time")
