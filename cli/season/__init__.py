"""A season: many games summarized one by one, in parallel, and added up."""
