"""Who may ask: the guard before every request, and the headers behind every answer.

A page on the web that is open in the same browser can send requests to this computer, and can have a name of its own
resolve to it (DNS rebinding). Both are seen in headers that no script can forge: the host that was asked for, and the
origin of the page that asks.
"""

from __future__ import annotations

import ipaddress
from collections.abc import Mapping

from attrs import define, frozen
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from .answers import fault, refused, tell_fault

__all__ = ["CONTENT_SECURITY_POLICY", "Door", "Guard"]

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "connect-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "frame-ancestors 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types 'none'",
    )
)
HEADERS: Mapping[str, str] = {
    "content-security-policy": CONTENT_SECURITY_POLICY,
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
    "cache-control": "no-store",
}
USUAL_PORT = "80"
_OWN_SITES = ("same-origin", "none")  # "none": typed or scanned by a person


@define
class Door:
    """Where the server listens; `port` is known once it does."""

    lan: bool = False
    port: int = 0

    def is_own_host(self, host: str) -> bool:
        """Whether `host`, as the request names it, can only be this computer.

        A number can: no name has to be resolved for it. Of names only ``localhost`` is taken.
        """
        name, port = _name_and_port(host)
        if port != str(self.port):
            return False
        if name == "localhost":
            return True
        try:
            address = ipaddress.ip_address(name.removeprefix("[").removesuffix("]"))
        except ValueError:
            return False
        return self.lan or address.is_loopback


@frozen
class Guard:
    """Refuses what comes from foreign hosts and pages, and adds the headers to every answer."""

    app: ASGIApp
    door: Door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Let a request through, or refuse it."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        begun = False

        async def send_with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers[name] = value
            await send(message)

        why = self._why_not(scope["method"], scope["path"], Headers(scope=scope))
        answer = self.app if why is None else refused(403, "not_allowed", why)
        try:
            await answer(scope, receive, send_with_headers)
        except ClientDisconnect:
            return  # nobody is there to be answered
        except Exception as error:
            if begun:  # there is no second answer; who listens is cut off, and comes again
                tell_fault(error)
            else:
                await fault(error)(scope, receive, send_with_headers)

    def _why_not(self, method: str, path: str, headers: Headers) -> str | None:
        hosts = headers.getlist("host")
        if len(hosts) != 1 or not self.door.is_own_host(hosts[0]):
            return "This address is not the one that rinkfold printed. Use that one."
        if method in ("GET", "HEAD") and "/api/" not in path:
            return None
        origin = headers.get("origin")
        if origin is None and method not in ("GET", "HEAD"):
            return "The request does not say which page it comes from."
        own = origin is None or _same_origin(origin, f"http://{hosts[0]}")
        if not own or headers.get("sec-fetch-site", "none") not in _OWN_SITES:
            return "The request comes from another page."
        return None


def _name_and_port(host: str) -> tuple[str, str]:
    """The two parts of `host`; clients leave out the port where it is the usual one."""
    name, colon, port = host.rpartition(":")
    return (name, port) if colon and not host.endswith("]") else (host, USUAL_PORT)


def _same_origin(one: str, other: str) -> bool:
    return one.removesuffix(f":{USUAL_PORT}") == other.removesuffix(f":{USUAL_PORT}")
