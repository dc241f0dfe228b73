"""The pages: which role gets which, and the files beside them."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import jinja2
from attrs import field, frozen
from starlette.responses import RedirectResponse, Response

from ..visible import visible
from .keys import Role

__all__ = ["Pages"]

FOLDER = Path(__file__).parent / "pages"
TYPES: Mapping[str, str] = {".css": "text/css", ".js": "text/javascript", ".svg": "image/svg+xml"}
PAGES: Mapping[str, Mapping[str, str]] = {
    "write": {
        "": "console.html",
        "opening": "opening.html",
        "signoff": "signoff.html",
        "addresses": "addresses.html",
    },
    "door": {"": "door.html"},
    "read": {"": "reader.html"},
}
"""For each role the template of each page."""


def _environment() -> jinja2.Environment:
    return jinja2.Environment(
        loader=jinja2.FileSystemLoader(FOLDER), autoescape=True, undefined=jinja2.StrictUndefined, finalize=visible
    )


@frozen
class Pages:
    """The templates, and the static files by their names."""

    _templates: jinja2.Environment = field(factory=_environment)

    def page(self, name: str, role: Role, state: Mapping[str, Any]) -> Response:
        """The page `name` for `role`; while no game is opened the writer gets the opening."""
        template = PAGES[role.name].get(name)
        if template is None:
            return self.refused()
        if template == "console.html" and state["stage"] == "opening":
            return RedirectResponse("opening", 303)
        return self._filled(template, 200, role=role.name, side=role.side, title=_title(state), state=state)

    def refused(self, status: int = 404) -> Response:
        """The page for an address that leads nowhere."""
        text = "Ask the person at the clock for the address, or look at the terminal in which rinkfold runs."
        return self._filled("refused.html", status, title="This address leads nowhere", text=text)

    def _filled(self, template: str, status: int, **values: Any) -> Response:
        return Response(self._templates.get_template(template).render(values), status, media_type="text/html")

    def static(self, name: str) -> Response:
        """A style, a script or a picture."""
        path = FOLDER / name
        kind = TYPES.get(path.suffix)
        if kind is None or Path(name).name != name or not path.is_file():
            return self.refused()
        return Response(path.read_bytes(), media_type=kind)


def _title(state: Mapping[str, Any]) -> str:
    if state["stage"] == "opening":
        return "New game"
    return " - ".join(state["teams"][team]["short"] or state["teams"][team]["name"] for team in ("home", "away"))
