"""Knob values as files and logs write them.

Reading, writing, what goes together, and the whole ruleset as plain data.
"""
