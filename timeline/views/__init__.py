"""Views: pure functions from a folded game to the answers people ask for."""
