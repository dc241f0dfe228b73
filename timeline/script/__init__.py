"""The script: which events count after voids, amendments and late entries, in game order."""

from .placed import Placed
from .script import Script

__all__ = ["Placed", "Script"]
