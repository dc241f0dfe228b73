"""The words that answers and changes use, as types to annotate with; each is defined beside what it is about."""

from __future__ import annotations

from . import problems
from .fold import changes, state
from .views import box, forecast, penalties

__all__ = ["Fate", "GoalStrength", "How", "PartFate", "PartState", "Role", "Severity", "Way"]

Fate = changes.Fate
"""What became of a part.

``"served"``, ``"ended by goal"``, ``"ended by ruling"``, ``"ended by ejection"``, ``"washed out"``, ``"offset"``,
``"replaced by penalty shot"`` or ``"unserved"``.
"""

GoalStrength = changes.GoalStrength
"""Of a goal, seen by the side that scored: ``"even"``, ``"power play"`` or ``"short-handed"``."""

How = changes.How
"""How somebody went back: ``"on expiry"`` of his time on the clock, or ``"at stoppage"``."""

PartFate = penalties.PartFate
"""Of a part's life: a `Fate`, or while it lasts ``"waiting"``, ``"running"`` or ``"suspended"``."""

PartState = box.PartState
"""How the time of somebody who sits stands.

``"waiting"``, ``"running"``, ``"suspended"``, ``"offset"`` or ``"held"``.
"""

Role = state.Role
"""Who sits for a penalty.

The ``"player"`` himself, a ``"stand-in"`` for him, or a ``"second stand-in"`` for what a goalkeeper has off the clock.
"""

Severity = problems.Severity
"""Of a problem or a finding: ``"error"``, ``"warning"`` or ``"note"``."""

Way = forecast.Way
"""How somebody will leave the box: ``"on expiry"``, ``"at stoppage"`` or ``"when a place opens"``."""
