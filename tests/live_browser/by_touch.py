"""The example game entered by thumb on a narrow screen: buttons and what can be touched in the small forms.

Readings and free text are typed into the field that was touched, as the keyboard on the screen does it.
"""

from __future__ import annotations

from typing import Any

from live_browser.screen import Screen

from rinkfold.cli.entries import EntryContext, print_entry
from rinkfold.timeline.record import event_from_dict

__all__ = ["enter"]

KEYS = {
    "stoppage": "s",
    "faceoff": "f",
    "timeout": "t",
    "period_end": "e",
    "goalie_change": "k",
    "goal": "g",
    "penalty_assessed": "p",
    "penalty_ended": "d",
    "shot": "n",
}
MINUTES = {"minor": "2", "major": "5", "misconduct": "10", "game_misconduct": "game", "match": "match"}


def enter(screen: Screen, event: dict[str, Any]) -> None:
    """Write `event`, and wait until it stands on the page."""
    kind = event["kind"]
    if kind == "shot" and "clock" not in event and event["player"] is None:
        screen.page.tap(f"[data-key={event['team'][0]}]")
    elif kind in KEYS:
        screen.page.tap(f"[data-key={KEYS[kind]}]")
        screen.page.wait_for_selector("#form form")
        _fill(screen, event)
        screen.page.tap("#form button[type=submit]")
    else:
        _into(screen, "#entry", print_entry(event_from_dict(event), EntryContext()))
        screen.page.tap("#line button[type=submit]")
    screen.wait_until_written(event["seq"])


def _fill(screen: Screen, event: dict[str, Any]) -> None:
    if "team" in event and event["kind"] != "penalty_ended":
        screen.page.tap(f"#form .chip:has(input[value={event['team']}])")
    if "clock" in event:
        _into(screen, "#form input.reading", f"{event['period']} {event['clock']}")
    if fill := FILLERS.get(event["kind"]):
        fill(screen, event)


def _into(screen: Screen, field: str, text: str) -> None:
    """Touch a field and type on the screen's keyboard, over what stands there."""
    screen.page.tap(field)
    screen.page.locator(field).select_text()
    screen.page.keyboard.insert_text(text)


def _chip(screen: Screen, field: str, value: str) -> None:
    """Touch what stands below a field."""
    place = screen.page.locator(f"#form .field:has(input[id^={field}-])")
    if place.get_by_role("button", name=value, exact=True).count() == 0:
        place.get_by_role("button", name="more").tap()
    place.get_by_role("button", name=value, exact=True).tap()


def _stop(screen: Screen, event: dict[str, Any]) -> None:
    _into(screen, "#form input[id^=reason-]", event["reason"])


def _goalie(screen: Screen, event: dict[str, Any]) -> None:
    _chip(screen, "goalie", event["goalie"] or "net empty")


def _shot(screen: Screen, event: dict[str, Any]) -> None:
    if event["player"] is not None:
        _chip(screen, "player", event["player"])
    if event.get("count", 1) > 1:
        _into(screen, "#form input[id^=count-]", str(event["count"]))


def _goal(screen: Screen, event: dict[str, Any]) -> None:
    _chip(screen, "scorer", event["scorer"])
    for number in event["assists"] or ["none"]:
        _chip(screen, "assists", number)


def _penalty(screen: Screen, event: dict[str, Any]) -> None:
    page = screen.page
    _chip(
        screen,
        "player",
        "bench" if "bench_minor" in event["parts"] else "staff" if "staff" in event else event["player"],
    )
    if "bench_minor" not in event["parts"]:
        announced = "+".join(MINUTES[part] for part in event["parts"])
        page.tap(f'#form .chip:has(input[value="{announced}"])')
    _into(screen, "#form input[id^=infraction-]", event["infraction"])
    page.tap("#form summary")
    if "served_by" in event:
        _chip(screen, "served", event["served_by"])
    for field, name in (("staff", "staff"), ("announced", "announced")):
        if field in event:
            _into(screen, f"#form input[id^={name}-]", event[field])
    for field, name in (("delayed_call", "delayed"), ("penalty_shot", "shot")):
        if event.get(field):
            page.tap(f"#form label.check:has(input[id^=check-{name}-])")


def _door(screen: Screen, event: dict[str, Any]) -> None:
    screen.page.tap(f'#form .chip:has(input[value="{event["team"]} door #{event["penalty"]}"])')


FILLERS = {
    "stoppage": _stop,
    "goalie_change": _goalie,
    "shot": _shot,
    "goal": _goal,
    "penalty_assessed": _penalty,
    "penalty_ended": _door,
}
