"""Plain tables in and out, and a record without names."""
