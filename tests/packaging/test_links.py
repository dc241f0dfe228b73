"""Every relative link in the Markdown files leads somewhere: the file is there, and so is the heading."""

import re
import subprocess
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

CHECKOUT = (ROOT / ".git").exists()

pytestmark = pytest.mark.skipif(not CHECKOUT, reason="not all texts are here: this is no checkout")


def pages() -> list[Path]:
    """Every Markdown file that git tracks, or would."""
    command = ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard", "*.md"]
    listed = subprocess.run(command, cwd=ROOT, check=True, capture_output=True, text=True).stdout
    return [ROOT / name for name in sorted(listed.split("\0")) if name and (ROOT / name).is_file()]


def without_code(text: str) -> str:
    """`text` without fenced blocks and without what stands in backquotes in a line."""
    text = re.sub(r"^( *)```.*?^\1```[^\n]*$", "", text, flags=re.MULTILINE | re.DOTALL)
    return re.sub(r"(`+)(?!`).*?(?<!`)\1(?!`)", "", text)


def links(text: str) -> list[str]:
    """The targets of links and pictures that are not addresses of the net."""
    targets = re.findall(r"\]\(\s*<?([^)>\s]+)>?(?:\s+\"[^\"]*\")?\s*\)", without_code(text))
    targets += re.findall(r"^\[[^\]]+\]:\s*(\S+)", without_code(text), flags=re.MULTILINE)
    return [target for target in targets if not re.match(r"[a-z][a-z0-9+.-]*:", target)]


def anchors(text: str) -> set[str]:
    """The names under which the headings can be reached: small letters, blanks as hyphens, punctuation left out."""
    text = re.sub(r"^( *)```.*?^\1```[^\n]*$", "", text, flags=re.MULTILINE | re.DOTALL)
    found: Counter[str] = Counter()
    names = set()
    for heading in re.findall(r"^#{1,6}\s+(.*?)\s*#*$", text, flags=re.MULTILINE):
        plain = re.sub(r"\[([^\]]*)\]\([^)]*\)", r"\1", heading)
        slug = re.sub(r"[^\w\- ]", "", plain.lower()).replace(" ", "-")
        names.add(slug if not found[slug] else f"{slug}-{found[slug]}")
        found[slug] += 1
    return names


def broken(page: Path) -> list[str]:
    """The links of `page` that lead nowhere."""
    wrong = []
    for target in links(page.read_text(encoding="utf-8")):
        name, _, anchor = target.partition("#")
        file = (page.parent / name).resolve() if name else page
        if not file.exists() or not file.is_relative_to(ROOT):
            wrong.append(f"{target}: no such file")
        elif anchor and file.suffix == ".md" and anchor not in anchors(file.read_text(encoding="utf-8")):
            wrong.append(f"{target}: no such heading")
    return wrong


@pytest.mark.parametrize("page", pages() if CHECKOUT else [ROOT / "README.md"], ids=lambda page: page.name)
def test_links_lead_somewhere(page: Path) -> None:
    """A reader who follows one finds what it promises."""
    assert broken(page) == []


def test_a_broken_link_is_noticed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The check can fail: a file that is missing, a heading that is missing, one outside; not in code or on the net."""
    (tmp_path / "there.md").write_text("# Two words, `code`\n\n## Two\n\n## Two\n", encoding="utf-8")
    text = (
        "[a](there.md) [b](there.md#two-words-code) [c](there.md#two-1) [d](gone.md) [e](there.md#gone) [f](#gone)\n"
        "`[g](gone.md)` [h](https://example.org/gone)\n```\n[i](gone.md)\n```\n"
    )
    page = tmp_path / "page.md"
    page.write_text(text, encoding="utf-8")
    monkeypatch.setitem(globals(), "ROOT", tmp_path)
    assert broken(page) == ["gone.md: no such file", "there.md#gone: no such heading", "#gone: no such heading"]


def test_readme_leads_to_every_page_of_the_documentation() -> None:
    """No page of docs/ is one that nobody finds."""
    linked = {target.partition("#")[0] for target in links((ROOT / "README.md").read_text(encoding="utf-8"))}
    assert {f"docs/{page.name}" for page in (ROOT / "docs").glob("*.md")} <= linked
