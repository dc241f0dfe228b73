"""What the page says: of readings, of its own clock, of what is not understood, and of names that mean harm."""

from __future__ import annotations

import json

import pytest
from live_browser.conftest import Serve, Show, lines_of_example
from live_browser.screen import Screen

pytestmark = pytest.mark.browser
TWO_SHORT = 153
HOSTILE = '</script><script>document.title="taken"</script><img src=x onerror="document.title=1">'
RIGHT_TO_LEFT = "\u202egnihtemos \u05d0\u05d1\u05d2"
LONG = "Averyveryveryverylongnamewithoutanyblank" * 4
EMOJI = "\U0001f3d2\U0001f9d1\u200d\U0001f9b0 Ångström"


def set_board(screen: Screen, reading: str, *, running: bool = False) -> None:
    screen.page.keyboard.press("b")
    screen.page.fill("#board-reading", reading)
    screen.page.set_checked("#board-running", running)
    screen.page.press("#board-reading", "Enter")
    screen.page.wait_for_selector("#board", state="hidden")


def test_always_in_view(serve: Serve, show: Show) -> None:
    """Score, period, reading, strength in words, and who is out at which reading of the board."""
    screen = show(serve(TWO_SHORT))
    assert screen.text("#home-score") == screen.text("#away-score") == "2"
    assert screen.text("#period") == "2nd period in play"
    assert screen.text("#strength") == "Home 5 on 3"
    assert screen.text("#home-box") == "Nobody sits."
    box = screen.text("#away-box")
    assert "5 Dario Mossgarth minor, interference out at 5:35 on the board" in box
    assert "or at a whistle after 6:10, when time is up; a goal against ends it" in box
    waits = "24 Zora Millbeck minor, delaying the game waits for a place, not begun"
    assert f"{waits} time up at 4:10 out at the next whistle after" in box
    screen.page.locator("#away-box summary").nth(2).click()
    assert "Two penalties of a side run at a time, a third waits." in screen.text("#away-box")


def test_a_whistle_decides(serve: Serve, show: Show) -> None:
    """Where the clock alone lets nobody out, the page says when time is up and what he waits for then."""
    screen = show(serve(156))
    assert "24 Zora Millbeck minor, delaying the game time up at 4:10 out at the next whistle after" in screen.text(
        "#away-box"
    )
    assert "16 Juno Silverfen minor, slashing out at 4:10 on the board or at a whistle before" in screen.text(
        "#away-box"
    )


def test_the_pages_clock_is_about(serve: Serve, show: Show) -> None:
    """It says how old its setting is, counts only when it runs, and never says that somebody is out."""
    screen = show(serve(TWO_SHORT))
    assert "not set" in screen.text("#about")
    set_board(screen, "6:12", running=True)
    screen.wait_for("#about", "about 6:1")
    assert "ago" in screen.text("#about")
    assert "to go" in screen.text("#away-box .about")
    assert "watch for" not in screen.text("#away-box")
    set_board(screen, "5:38", running=True)
    screen.wait_for("#away-box .due", "watch for 5:35")
    assert screen.text("#releases") == "Away 5 Dario Mossgarth: watch for 5:35 on the board."
    screen.wait_for("#away-box .due .about", "the board decides")
    assert "out now" not in screen.page.content()


def test_check_the_board(serve: Serve, show: Show) -> None:
    """A setting that is older than the last entry is doubted."""
    screen = show(serve(TWO_SHORT))
    set_board(screen, "6:30")
    screen.page.keyboard.type("600 stop offside")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(154)
    screen.wait_for("#about", "check the board")


def test_start_and_stop_with_one_key(serve: Serve, show: Show) -> None:
    """The space bar, also right after a button was clicked, and without writing anything."""
    program = serve(TWO_SHORT)
    screen = show(program)
    screen.page.click("[data-key=h]")
    screen.wait_until_written(154)
    screen.page.keyboard.press("Space")
    screen.wait_for("#clock-toggle", "Stop")
    screen.page.keyboard.press("Space")
    screen.wait_for("#clock-toggle", "Start")
    assert screen.text("#entries .seq") == "#154"


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("615 home pen 12 2 tripping", "home 12, minor 2:00 tripping: 2nd 6:15 → out at 4:15"),
        ("615 home elephant 12", "Not understood: elephant"),
        ("615 home goal 5", "5 is not on the home roster; away has one."),
        ("14:40 home goal 10", "is past"),
    ],
)
def test_said_while_typing(line: str, says: str, serve: Serve, show: Show) -> None:
    """The effect, or what is not understood, or what to look at again."""
    screen = show(serve(TWO_SHORT))
    screen.page.keyboard.type(line)
    screen.wait_for("#line-draft", says)


def test_an_offer_is_taken_with_one_touch(serve: Serve, show: Show) -> None:
    """Of two readings that are left, the one that is meant."""
    screen = show(serve(TWO_SHORT), width=390, height=844, touch=True)
    screen.page.fill("#entry", "14:40 home goal 10")
    screen.page.tap("#line-draft button:has-text('late 14:40 home goal 10')")
    assert screen.page.input_value("#entry") == "late 14:40 home goal 10"
    screen.wait_for("#line-draft .effect", "goal, home 10")


def test_a_warning_is_overridden_and_kept_as_a_note(serve: Serve, show: Show) -> None:
    """The first Enter shows it, the second writes it, with a note of what was overridden."""
    program = serve(TWO_SHORT)
    screen = show(program)
    screen.page.keyboard.type("615 home goal 5")
    screen.page.keyboard.press("Enter")
    screen.wait_for("#line-draft .anyway", "Write it anyway")
    assert screen.text("#entries .seq") == "#153"
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(154)
    event = json.loads(program.path.read_text(encoding="utf-8").splitlines()[-1])
    assert event["scorer"] == "5"
    assert event["note"]


def test_completion(serve: Serve, show: Show) -> None:
    """Tab takes what is offered: teams by their colour, what happened, numbers, infractions."""
    screen = show(serve(TWO_SHORT))
    for part in ("615 gr", "pena", "1", "min", "tri"):
        screen.page.keyboard.type(part)
        screen.page.wait_for_selector("#completions li")
        screen.page.keyboard.press("Tab")
    assert screen.page.input_value("#entry") == "615 green penalty 10 minor tripping "


def test_one_key_loses_nothing_that_was_typed(serve: Serve, show: Show) -> None:
    """Escape leaves the line and its text; a figure goes on with it."""
    screen = show(serve(TWO_SHORT))
    screen.page.keyboard.type("615 home penalty ")
    screen.page.wait_for_selector("#completions li")
    for _ in range(3):
        screen.page.keyboard.press("Escape")
        assert screen.page.input_value("#entry") == "615 home penalty "
    assert screen.focused == "body"
    screen.page.keyboard.type("12 2 tripping")
    assert screen.page.input_value("#entry") == "615 home penalty 12 2 tripping"
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(154)


def test_undo(serve: Serve, show: Show) -> None:
    """Two keys take the last entry back; it stays readable, struck through."""
    screen = show(serve(TWO_SHORT))
    screen.page.keyboard.press("u")
    screen.wait_for("#form .effect")
    screen.page.keyboard.press("Enter")
    screen.wait_until_written(154)
    assert "taken back" in screen.text("#entries li:nth-child(2)")


def test_the_sound_is_off_until_asked_for(serve: Serve, show: Show) -> None:
    """Nothing sounds before the button is pressed; pressed again it is quiet."""
    screen = show(serve(TWO_SHORT))
    sound = screen.page.locator("#sound")
    for expected in ("false", "true", "false"):
        assert sound.get_attribute("aria-pressed") == expected
        sound.click()


def test_addresses_for_other_screens(serve: Serve, show: Show) -> None:
    """Four addresses, each with its QR code, and where they work."""
    screen = show(serve(TWO_SHORT), path="addresses")
    screen.page.wait_for_selector("#addresses img")
    assert screen.page.locator("#addresses li").count() == 4
    assert "this computer alone" in screen.text("#reach")
    screen.until("[...document.querySelectorAll('#addresses img')].every(one => one.naturalWidth > 0)")


def test_single_keys_can_be_switched_off(serve: Serve, show: Show) -> None:
    """For those who dictate or whose hands strike by accident; the buttons stay."""
    screen = show(serve(TWO_SHORT))
    screen.page.keyboard.press("?")
    screen.page.uncheck("#single-keys")
    screen.page.keyboard.press("Escape")
    screen.page.keyboard.press("h")
    screen.page.click("[data-key=a]")
    screen.wait_until_written(154)
    assert "away shot" in screen.text("#entries li")


def test_help_names_every_key(serve: Serve, show: Show) -> None:
    """What the buttons show stands in the help too."""
    screen = show(serve(TWO_SHORT))
    shown = {kbd.upper() for kbd in screen.page.locator("#keys kbd").all_inner_texts()}
    screen.page.keyboard.press("?")
    assert shown
    assert shown <= set(screen.page.locator("#help kbd").all_inner_texts())


def hostile_game() -> str:
    """The example with names that mean harm, as another program could have written it."""
    lines = lines_of_example(TWO_SHORT).splitlines()
    opening = json.loads(lines[0])
    opening["home"].update(name=HOSTILE, short=RIGHT_TO_LEFT, colour="red;background:url(//elsewhere.example/x)")
    opening["away"].update(name=LONG, short=EMOJI, colour="expression(alert(1))")
    names = [HOSTILE, RIGHT_TO_LEFT, LONG, EMOJI]
    for side in ("home", "away"):
        for at, player in enumerate(opening[side]["roster"]):
            player["name"] = names[at % 4]
    return "\n".join([json.dumps(opening), *lines[1:]]) + "\n"


@pytest.mark.parametrize(
    ("which", "path"),
    [("may write", ""), ("may write", "opening"), ("may write", "signoff"), ("reading only", ""), ("away box", "")],
)
@pytest.mark.parametrize("width", [360, 1280])
def test_a_hostile_name_is_only_text(which: str, path: str, width: int, serve: Serve, show: Show) -> None:
    """Markup, direction and length of names change nothing of the page."""
    screen = show(serve(text=hostile_game()), which, path, width=width, height=800)
    screen.page.wait_for_timeout(300)
    assert screen.page.locator("img").count() == 0
    assert screen.page.title() not in ("taken", "1")
    assert screen.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    if path == "":
        assert "\u202e" not in screen.page.inner_text("body")
        assert (
            screen.page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--home')")
            == "transparent"
        )
