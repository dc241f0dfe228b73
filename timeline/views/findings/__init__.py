"""Findings: what in a record cannot be right, is missing or looks wrong."""
