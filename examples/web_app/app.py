"""A live game in a web app: events are posted, and whoever watches hears at once what each one changed.

    uvicorn app:app

POST /events takes one event as a line of the log writes it, without its `seq`, and answers with what it changed.
GET /changes is the same for everybody, as server-sent events. GET /now says who skates and who sits.
"""

import asyncio
import json
from collections.abc import AsyncIterator
from typing import Any

from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, StreamingResponse
from starlette.routing import Mount, Route

from rinkfold import rulesets
from rinkfold.timeline import Instant, LiveGame, ProblemsFound, event_from_dict, render


class Table:
    """One game and those who watch it."""

    def __init__(self, live: LiveGame) -> None:
        self.live = live
        self.grew = asyncio.Condition()

    async def record(self, request: Request) -> JSONResponse:
        """Take one event in and wake everybody up; what is wrong with it is the answer, and changes nothing."""
        try:
            event = event_from_dict({**await request.json(), "seq": self.live.next_seq})
            changes = self.live.record(event)
        except ProblemsFound as found:
            return JSONResponse({"problems": [render(problem) for problem in found.problems]}, status_code=422)
        except (ValueError, TypeError, RecursionError):
            return JSONResponse({"problems": ["Expected one event as a JSON object."]}, status_code=400)
        async with self.grew:
            self.grew.notify_all()
        return JSONResponse({"seq": self.live.next_seq - 1, "changes": [said(change) for change in changes]})

    async def now(self, request: Request) -> JSONResponse:
        """As the board shows it; in a stoppage as if play resumed."""
        return JSONResponse(shown(self.live.now))

    async def changes(self, request: Request) -> StreamingResponse:
        """One message an event: from the first on, or after the last one heard before the line broke."""
        heard = request.headers.get("last-event-id", "")
        return StreamingResponse(self._messages(int(heard) if heard.isdecimal() else 0), media_type="text/event-stream")

    async def _messages(self, heard: int) -> AsyncIterator[str]:
        feed = iter(self.live)  # remembers how far this one has come
        while True:
            known = self.live.next_seq
            for recorded in (one for one in feed if one.event.seq > heard):
                told = {"seq": recorded.event.seq, "changes": [said(change) for change in recorded.changes]}
                yield f"id: {recorded.event.seq}\ndata: {json.dumps({**told, **shown(self.live.now)})}\n\n"
            try:
                async with asyncio.timeout(15), self.grew:
                    while self.live.next_seq == known:
                        await self.grew.wait()
            except TimeoutError:
                yield ": still here\n\n"  # keeps the line open, and notices that nobody listens any more


def said(change: Any) -> dict[str, Any]:
    """A change in words that a page can show."""
    return {"kind": type(change).__name__, "seq": change.seq, "rule": change.rule.name, "source": change.rule.source}


def shown(instant: Instant) -> dict[str, Any]:
    """Who skates and who sits; times are tenths of a second."""
    box = [{"team": one.team, "sits": one.sits, "state": one.state, "remaining": one.remaining} for one in instant.box]
    return {"at": str(instant.at), "strength": instant.strength.label, "box": box, "rules": instant.game.rules.name}


def from_the_first(live: LiveGame) -> LiveGame:
    """The same game with each of its events recorded anew: one that goes on with a log has told none of them yet."""
    again = LiveGame(live.events[:1], live.rules if live.header.pinned is None else None)
    for event in live.events[1:]:
        again.record(event)
    return again


def game_app(live: LiveGame) -> Starlette:
    """The game as an app of its own, to be mounted in yours; whoever watches hears it from its first event."""
    table = Table(from_the_first(live))
    return Starlette(
        routes=[
            Route("/events", table.record, methods=["POST"]),
            Route("/changes", table.changes),
            Route("/now", table.now),
        ]
    )


app = Starlette(
    routes=[Mount("/game", game_app(LiveGame.open(rulesets.load("youth-12u"), home="Larks", away="Herons")))]
)
