"""The script: which events count after voids, amendments and late entries, in game order."""
