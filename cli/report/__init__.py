"""The printable record of a game: one page that stands alone, as HTML or PDF."""
