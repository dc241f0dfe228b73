"""Answers for people: one module a table, each a list of lines."""
