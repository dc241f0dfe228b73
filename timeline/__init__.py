"""The engine: clock, events, log, fold and answers. Knows nothing above it."""
