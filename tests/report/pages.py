"""A page taken apart by the standard library's parser."""

from __future__ import annotations

from collections.abc import Iterator
from html.parser import HTMLParser

VOID = frozenset({"meta", "link", "img", "br", "hr", "input"})


class Node:
    """An element: its attributes, and its children and texts in order."""

    def __init__(self, tag: str, attributes: dict[str, str]) -> None:
        self.tag, self.attributes = tag, attributes
        self.inside: list[Node | str] = []

    @property
    def classes(self) -> list[str]:
        return self.attributes.get("class", "").split()

    @property
    def text(self) -> str:
        return "".join(one if isinstance(one, str) else one.text for one in self.inside)

    def all(self, tag: str = "", cls: str = "") -> list[Node]:
        return [one for one in self.walk() if (not tag or one.tag == tag) and (not cls or cls in one.classes)]

    def walk(self) -> Iterator[Node]:
        yield self
        for one in self.inside:
            if isinstance(one, Node):
                yield from one.walk()


class _Builder(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open = [Node("", {})]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len({name for name, _ in attrs}) == len(attrs), f"an attribute twice in <{tag}>"
        node = Node(tag, {name: value or "" for name, value in attrs})
        self.open[-1].inside.append(node)
        if tag not in VOID:
            self.open.append(node)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.open[-1].inside.append(Node(tag, {name: value or "" for name, value in attrs}))

    def handle_endtag(self, tag: str) -> None:
        assert self.open[-1].tag == tag, f"</{tag}> closes <{self.open[-1].tag}>"
        self.open.pop()

    def handle_data(self, data: str) -> None:
        self.open[-1].inside.append(data)


def parsed(html: str) -> Node:
    """The page; everything that was opened is closed, in order."""
    builder = _Builder()
    builder.feed(html)
    builder.close()
    assert len(builder.open) == 1, f"<{builder.open[-1].tag}> is not closed"
    return builder.open[0]
