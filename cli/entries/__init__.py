"""Short entries: what is typed at the table, one entry for one event."""
