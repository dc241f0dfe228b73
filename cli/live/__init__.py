"""The live page: a small server on this computer, for the people at the timekeeper's table."""
