"""The example game entered with the keyboard alone: single keys, small forms, and the line for what is seldom."""

from __future__ import annotations

from typing import Any

from live_browser.screen import Screen

from rinkfold.cli.entries import EntryContext, print_entry
from rinkfold.timeline.record import event_from_dict

__all__ = ["enter"]

SHOT_KEYS = {"home": "h", "away": "a"}
PARTS = ("2", "2+2", "5", "10", "2+10", "5+game", "game", "match")
MINUTES = {"minor": "2", "major": "5", "misconduct": "10", "game_misconduct": "game", "match": "match"}
FLAGS = ("delayed", "shot")


def enter(screen: Screen, event: dict[str, Any]) -> None:
    """Write `event`, and wait until it stands on the page."""
    form = FORMS.get(event["kind"])
    if event["kind"] == "shot" and "clock" not in event and event["player"] is None:
        screen.page.keyboard.press(SHOT_KEYS[event["team"]])
    elif form is None or "staff" in event or ("player" not in event and event["kind"] == "penalty_assessed"):
        by_line(screen, print_entry(event_from_dict(event), EntryContext()))
    else:
        form(screen, event)
        screen.page.keyboard.press("Enter")
    screen.wait_until_written(event["seq"])


def by_line(screen: Screen, text: str) -> None:
    """Type a whole entry; a figure begins the line by itself, anything else after a slash."""
    if not text[0].isdigit():
        screen.page.keyboard.press("/")
    screen.page.keyboard.type(text)
    screen.page.keyboard.press("Enter")


def _type_into(screen: Screen, name: str, text: str) -> None:
    screen.tab_to(name)
    screen.page.keyboard.press("Control+A")
    screen.page.keyboard.type(text)


def _begin(screen: Screen, key: str, event: dict[str, Any]) -> None:
    """Open the form of `key` and put in the reading, with its period."""
    screen.page.keyboard.press(key)
    screen.page.wait_for_selector("#form form")
    if "team" in event and event["kind"] != "penalty_ended":
        screen.page.keyboard.press(event["team"][0])
    _type_into(screen, "reading", f"{event['period']} {event['clock']}")


def stop(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "s", event)
    _type_into(screen, "reason", event["reason"])


def go(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "f", event)


def timeout(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "t", event)


def end(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "e", event)


def goalie(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "k", event)
    _type_into(screen, "goalie", event["goalie"] or "out")


def goal(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "g", event)
    _type_into(screen, "scorer", event["scorer"])
    _type_into(screen, "assists", " ".join(event["assists"]) or "unassisted")


def penalty(screen: Screen, event: dict[str, Any]) -> None:
    _begin(screen, "p", event)
    _type_into(screen, "player", event["player"])
    announced = "+".join(MINUTES[part] for part in event["parts"])
    screen.page.keyboard.press("Tab")
    for _ in range(PARTS.index(announced)):
        screen.page.keyboard.press("ArrowRight")
    _type_into(screen, "infraction", event["infraction"])
    _seldom(screen, event)


def _seldom(screen: Screen, event: dict[str, Any]) -> None:
    """What stands behind "and more": opened with the space bar."""
    texts = [
        (name, event[field]) for name, field in (("served", "served_by"), ("announced", "announced")) if field in event
    ]
    ticks = [name for name, field in (("delayed", "delayed_call"), ("shot", "penalty_shot")) if event.get(field)]
    if not texts and not ticks:
        return
    screen.tab_to("summary")
    screen.page.keyboard.press("Space")
    for name, text in texts:
        _type_into(screen, name, text)
    for name in ticks:
        screen.tab_to(f"check-{name}")
        screen.page.keyboard.press("Space")


def door(screen: Screen, event: dict[str, Any]) -> None:
    """Choose who left with the arrow keys: the one whose penalty it is."""
    screen.page.keyboard.press("d")
    screen.page.wait_for_selector("#form form")
    wanted = f"{event['team']} door #{event['penalty']}"
    chosen = "document.querySelector('#form input[type=radio]:checked')?.value"
    for _ in range(12):
        if screen.page.evaluate(chosen) == wanted:
            break
        screen.page.keyboard.press("ArrowDown")
    _type_into(screen, "reading", f"{event['period']} {event['clock']}")


FORMS = {
    "stoppage": stop,
    "faceoff": go,
    "timeout": timeout,
    "period_end": end,
    "goalie_change": goalie,
    "goal": goal,
    "penalty_assessed": penalty,
    "penalty_ended": door,
}
