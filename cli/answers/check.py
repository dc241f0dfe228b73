"""`check --json`: the findings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ...timeline.events import GameOpened
from ...timeline.views.findings import Finding
from .common import head, time

__all__ = ["check_answer", "finding_answer"]


def check_answer(header: GameOpened, found: Sequence[Finding]) -> dict[str, Any]:
    """``{"findings": [{"code", "severity", "seq", "at", "message", "fix"}]}``, errors first, then warnings, notes."""
    return {**head(header), "findings": [finding_answer(finding) for finding in found]}


def finding_answer(finding: Finding) -> dict[str, Any]:
    """One finding."""
    return {
        "code": finding.code,
        "severity": finding.severity,
        "seq": finding.seq,
        "at": time(finding.at),
        "message": finding.message,
        "fix": finding.fix,
    }
