"""The buttons and their keys at every width between a phone on its side and a laptop."""

from __future__ import annotations

import pytest
from live_browser.conftest import Serve, Show, lines_of_example

pytestmark = pytest.mark.browser
KEYS_REACH = """() => [...document.querySelectorAll("#keys button")].map(button => {
    const {left, right, bottom} = button.getBoundingClientRect();
    const cap = button.querySelector("kbd").getBoundingClientRect();
    const fits = cap.left >= left && cap.right <= right && button.scrollWidth <= button.clientWidth;
    return [button.textContent, fits, bottom <= innerHeight];
})"""


@pytest.mark.parametrize("touch", [False, True], ids=["keyboard", "touch"])
def test_keys_fit_their_buttons(touch: bool, serve: Serve, show: Show) -> None:
    """No cap runs over the edge, and every button is in the window, from a phone on its side to a laptop."""
    screen = show(serve(text=lines_of_example(153)), touch=touch)
    for width, height in ((740, 390), (780, 493), (844, 390), (900, 700), (960, 600), (1024, 768), (1199, 800)):
        screen.page.set_viewport_size({"width": width, "height": height})
        for words, fits, is_seen in screen.page.evaluate(KEYS_REACH):
            assert (fits or touch, is_seen) == (True, True), (width, height, words)
