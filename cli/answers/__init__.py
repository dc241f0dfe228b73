"""Answers for programs: one module an answer, each a plain object whose shape is a contract."""
