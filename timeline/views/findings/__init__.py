"""Findings: what in a record cannot be right, is missing or looks wrong."""

from .checks import CHECKS, KINDS, findings
from .finding import Finding, Kind

__all__ = ["CHECKS", "KINDS", "Finding", "Kind", "findings"]
