"""The routes: pages, their static files, and what pages ask for. The secret in the path says who asks."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable, Iterator, Mapping
from typing import Any

from attrs import frozen
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response, StreamingResponse
from starlette.routing import Route

from ...timeline.problems import ProblemsFound
from . import asking
from .answers import Refusal, answer, problems_refusal, tell_fault
from .keys import Role
from .limits import WAITING, read_object
from .paging import Pages
from .room import Room
from .security import Guard
from .stream import Listener

__all__ = ["application"]

LOOK_SECONDS = 0.4
"""How often the log is looked at for what another program appended."""
BODY_SECONDS = 10.0
"""How long a request may take to arrive."""
WAITING_AT_DOORS = 8
"""As `WAITING`, of both doors together."""


def application(room: Room) -> Starlette:
    """The application that serves `room`."""
    door = _Front(room, Pages())
    served = Starlette(
        routes=[
            Route("/static/{name}", door.static),
            Route("/{secret}/api/events", door.events),
            Route("/{secret}/api/{name:path}", door.read, methods=["GET"]),
            Route("/{secret}/api/{name:path}", door.write, methods=["POST"]),
            Route("/{secret}/{page}", door.page),
            Route("/{secret}/", door.page),
            Route("/{secret}", door.without_slash),
        ],
        middleware=[Middleware(Guard, door=room.door)],
        exception_handlers={Refusal: _refused, HTTPException: door.not_there},
        lifespan=lambda app: _watching(room),
    )
    served.router.redirect_slashes = False  # it would answer with an address made from the host that was asked for
    return served


async def _refused(request: Request, error: Exception) -> Response:
    assert isinstance(error, Refusal)
    return error.response()


@contextlib.asynccontextmanager
async def _watching(room: Room) -> AsyncIterator[None]:
    """Look at the log from time to time, as long as the server runs."""

    async def watch() -> None:
        told = ""
        while True:
            await asyncio.sleep(LOOK_SECONDS)
            try:
                await run_in_threadpool(room.table.refresh)
            except Exception as error:  # a fault of ours; the next entry looks at the file again, and tells it too
                if repr(error) != told:
                    tell_fault(error)
                told = repr(error)

    task = asyncio.create_task(watch())
    try:
        yield
    finally:
        task.cancel()
        with contextlib.suppress(asyncio.CancelledError):
            await task


@frozen(eq=False)
class _Front:
    """Answers requests."""

    room: Room
    pages: Pages

    async def static(self, request: Request) -> Response:
        return self.pages.static(request.path_params["name"])

    async def page(self, request: Request) -> Response:
        role = self._counted(request)
        if role is None:
            return self.pages.refused()
        state = await run_in_threadpool(self.room.state, role)
        return self.pages.page(request.path_params.get("page", ""), role, state)

    async def without_slash(self, request: Request) -> Response:
        """The address as somebody types it."""
        if self._counted(request) is None:
            return self.pages.refused()
        return RedirectResponse(f"{request.path_params['secret']}/", 307)

    async def events(self, request: Request) -> Response:
        role = self._role(request)
        self.room.hub.check_room(role.name)
        if request.method == "HEAD":
            return Response(media_type="text/event-stream")
        room = self.room
        listener = Listener(room.hub, role.name, room.stamps, lambda: room.state(role), room.clock)
        return StreamingResponse(listener.events(), media_type="text/event-stream")

    async def read(self, request: Request) -> Response:
        role = self._role(request)
        name = request.path_params["name"]
        if name.startswith("qr/"):
            return await run_in_threadpool(asking.picture_of_address, self.room, role, name.removeprefix("qr/"))
        ask = _find(asking.READS, name, role)
        return answer(await run_in_threadpool(_guarded, ask, self.room, role, dict(request.query_params)))

    async def write(self, request: Request) -> Response:
        role = self._role(request)
        ask = _find(asking.WRITES, request.path_params["name"], role)
        body = await _body(request)
        with self._turn(role):
            return answer(await run_in_threadpool(_guarded, ask, self.room, role, body))

    @contextlib.contextmanager
    def _turn(self, role: Role) -> Iterator[None]:
        """Wait for a turn with the others; those at the doors take none from the writer.

        Raises:
            Refusal: too many wait.
        """
        waiting = self.room.waiting
        if waiting[role.name] >= (WAITING if role.name == "write" else WAITING_AT_DOORS):
            raise Refusal(429, "too_many", "Too many entries at once.", "Wait a second, then send it again.")
        waiting[role.name] += 1
        try:
            yield
        finally:
            waiting[role.name] -= 1

    def _role(self, request: Request) -> Role:
        role = self._counted(request)
        if role is None:
            raise Refusal(
                404, "not_found", "This address is not, or no longer, valid.", "Ask at the clock for another."
            )
        return role

    def _counted(self, request: Request) -> Role | None:
        """The role that asks, None for a wrong secret; each request is counted, so that nobody tries secrets for long.

        Raises:
            Refusal: too many have come.
        """
        role = self.room.keys.role_of(request.path_params["secret"])
        host = "" if request.client is None else request.client.host
        self.room.rates.take(f"{host} {'' if role is None else role.which}")
        return role

    async def not_there(self, request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        if "/api/" in request.url.path:
            return Refusal(error.status_code, "not_found", "There is nothing at this address.").response()
        return self.pages.refused(error.status_code)


async def _body(request: Request) -> dict[str, Any]:
    """The object in the body of `request`; while it is awaited nobody else waits for it.

    Raises:
        Refusal: there is none, or it does not come.
    """
    try:
        return await asyncio.wait_for(read_object(request), BODY_SECONDS)
    except TimeoutError:
        raise Refusal(400, "bad_request", "The request did not arrive whole.", "Send it again.") from None


def _find(table: Mapping[str, asking.Ask], name: str, role: Role) -> asking.Ask:
    ask = table.get(name)
    if ask is None:
        raise Refusal(404, "not_found", "There is nothing at this address.")
    if role.name not in ask.roles:
        raise Refusal(403, "not_allowed", "This address does not allow that.", "Tell the person at the clock.")
    return ask


def _guarded(ask: asking.Ask, room: Room, role: Role, body: Mapping[str, Any]) -> dict[str, Any]:
    """What `ask` answers while nobody else changes the game; problems of what was typed as a refusal."""
    work: Callable[[Room, Role, Mapping[str, Any]], dict[str, Any]] = ask.work
    try:
        with room.table.lock:
            return work(room, role, body)
    except ProblemsFound as found:
        raise problems_refusal(found) from None
