"""The record written to a file: HTML, or PDF where what makes it is installed."""

from __future__ import annotations

import importlib
from pathlib import Path

from ..errors import refuse
from ..files import check_free, replace_file

__all__ = ["check_target", "write_report"]

SUFFIXES = (".html", ".htm", ".pdf")
_PRINT = "Write it as .html, open that in a browser and print it"


def check_target(target: str, game: str, *, force: bool) -> Path:
    """The file to write.

    Raises:
        ProblemsFound: it is neither HTML nor PDF, is there already without `force`, or is the log itself.
    """
    path = Path(target)
    if path.suffix.lower() not in SUFFIXES:
        refuse("bad_target", f"Found {target!r}; a report is written as .html or .pdf.", "Write -o game.html.")
    check_free(target, game, "report", force=force)
    return path


def write_report(html: str, path: Path) -> None:
    """Write the page to `path`: whole or not at all.

    Raises:
        ProblemsFound: it cannot be written, or PDF is wanted and cannot be made here.
    """
    content = _as_pdf(html) if path.suffix.lower() == ".pdf" else html.encode()
    replace_file(path, content)


def _as_pdf(html: str) -> bytes:
    try:
        weasyprint = importlib.import_module("weasyprint")
    except (ImportError, OSError):  # OSError: the system libraries that it loads are not there
        refuse("no_pdf", "PDF needs WeasyPrint, which is not installed.", f"{_PRINT}; or: pip install 'rinkfold[pdf]'.")
    made = weasyprint.HTML(string=html, url_fetcher=_nothing_else).write_pdf()
    return bytes(made or b"")


def _nothing_else(url: str, *_: object, **__: object) -> dict[str, object]:
    """The page stands alone; whatever asks for more is a fault."""
    raise ValueError(f"The page asks for {url}.")
