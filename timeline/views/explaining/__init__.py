"""Why a game stands as it does: `story` answers, of what the other modules make.

They hold causes, what they changed in the trade's words, the rules with their sources, and what tells most.
"""
