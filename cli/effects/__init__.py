"""What an entry did, said in one line at once."""

from .line import Entered, effect_line

__all__ = ["Entered", "effect_line"]
