"""Filling in the opening of a game as people do: pasting rosters, typing names, touching what belongs to a player."""

from __future__ import annotations

from typing import Any

from live_browser.screen import Screen

__all__ = ["fill_in", "roster_text"]


def roster_text(team: dict[str, Any]) -> str:
    """The roster as it would be pasted: a player a line."""
    return "\n".join(_line(player) for player in team["roster"])


def _line(player: dict[str, Any]) -> str:
    return ", ".join(str(player[name]) for name in ("number", "name", "position", "letter") if name in player)


def fill_in(screen: Screen, opening: dict[str, Any], goalies: dict[str, str]) -> None:
    """Everything that `opening` says, and who starts in net; the game is not opened yet."""
    page = screen.page
    page.select_option("#ruleset", opening["ruleset"])
    screen.wait_for("#applied", "minor")
    page.click("summary:has-text('Your league differs')")
    for name, value in opening.get("settings", {}).items():
        field = page.locator(f'[id="setting-{name}"]')
        field.fill(str(value))
        field.press("Tab")
        screen.wait_for("#applied", f"{value} on {value}")
    page.check("#confirmed")
    for side in ("home", "away"):
        _fill_in_team(screen, side, opening[side], goalies[side])
    for name in ("date", "start", "rink", "competition"):
        page.fill(f"#game-{name}", opening[name])
    for name, value in opening["officials"].items():
        page.fill(f"#game-{name}", value if isinstance(value, str) else ", ".join(value))


def _fill_in_team(screen: Screen, side: str, team: dict[str, Any], goalie: str) -> None:
    page = screen.page
    for name in ("name", "short"):
        page.fill(f"#{side}-{name}", team[name])
    page.click(f"#{side}-card [data-colour={team['colour']}]")
    page.fill(f"#{side}-paste", roster_text(team))
    page.click(f"#{side}-card button:has-text('Put on the roster')")
    screen.wait_for(f"#{side}-card", f"{len(team['roster'])} on the roster")
    page.select_option(f"#{side}-goalie", goalie)
    staff = [", ".join(one[name] for name in ("name", "role", "credential") if name in one) for one in team["staff"]]
    page.fill(f"#{side}-staff", "\n".join(staff))
