"""Who may ask, and what every answer carries."""

from __future__ import annotations

import asyncio
import json
import os
from collections.abc import Callable
from pathlib import Path

import pytest
from live_server.desk import HOST, ORIGIN, PORT, At, in_process, new_id
from starlette.requests import ClientDisconnect
from starlette.testclient import TestClient
from starlette.types import Message, Scope

from rinkfold.cli.live.app import WAITING_AT_DOORS, application
from rinkfold.cli.live.keys import ROLES, KeyFile, Keys, Role, RoleName
from rinkfold.cli.live.limits import BODY_BYTES, BURST, LISTENERS, SENDERS, WAITING, Rates
from rinkfold.cli.live.security import Door
from rinkfold.cli.live.stream import LISTENERS_AT_WORK
from rinkfold.timeline.record import read_log

SHOT = {"text": "home shot", "id": "entry-00", "version": 2}


@pytest.mark.parametrize("host", ["evil.example:8723", "127.0.0.1", "127.0.0.1:1", "192.168.1.5:8723", "", "localhost"])
@pytest.mark.parametrize("name", ["", "api/state", "api/events"])
def test_a_foreign_host_is_refused(write: At, host: str, name: str) -> None:
    """A name that was made to resolve to this computer (DNS rebinding) opens nothing, not even a page."""
    answer = write.get(name, host=host)
    assert answer.status_code == 403
    assert answer.json()["error"] == "not_allowed"


@pytest.mark.parametrize("host", [HOST, "localhost:8723", "[::1]:8723"])
def test_this_computer_is_its_own_host(write: At, host: str) -> None:
    """By number or as localhost."""
    assert write.get("api/state", host=host).status_code == 200


def test_in_the_network_any_number_is_own_and_no_name(path: Path) -> None:
    """A number needs no resolving, so nobody can have it resolved to something else."""
    door = Door(lan=True, port=PORT)
    hosts = (f"10.0.0.7:{PORT}", f"[fe80::7]:{PORT}", f"laptop.local:{PORT}", "10.0.0.7:81", "10.0.0.7")
    assert [door.is_own_host(host) for host in hosts] == [True, True, False, False, False]


@pytest.mark.parametrize("host", ["127.0.0.1", "127.0.0.1:80", "localhost", "[::1]", "[::1]:80"])
@pytest.mark.parametrize("origin", ["http://{}", "http://{}:80"])
def test_at_the_usual_port_it_may_be_left_out(path: Path, host: str, origin: str) -> None:
    """Browsers send neither the host nor the origin with ``:80``; both ways are this computer, and nothing else is."""
    write = At(in_process(path, port=80))
    assert write.get("api/state", host=host).status_code == 200
    origin = origin.format(host.removesuffix(":80"))
    assert write.post("api/preview", {"text": "home shot"}, host=host, origin=origin).status_code == 200
    for foreign in ("http://evil.example", "http://127.0.0.1:8723", "https://127.0.0.1"):
        assert write.post("api/preview", {"text": "home shot"}, host=host, origin=foreign).status_code == 403
    for name in ("evil.example", "192.168.1.5", "evil.example:80", "127.0.0.1:81", ""):
        assert write.get("api/state", host=name).status_code == 403


def test_a_browser_at_the_usual_port_is_served(path: Path) -> None:
    """As an ordinary client asks for ``http://127.0.0.1/``, with the headers that it makes itself."""
    room = in_process(path, port=80)
    client = TestClient(application(room), base_url="http://127.0.0.1:80")
    assert client.build_request("GET", "/").headers["host"] == "127.0.0.1"
    assert client.get(f"/{room.keys.secret(ROLES[0])}/api/state").json()["role"] == "write"


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "https://127.0.0.1:8723", "http://localhost:8723"])
def test_a_foreign_origin_is_refused_and_nothing_is_written(write: At, path: Path, origin: str) -> None:
    """A page from elsewhere in the same browser (CSRF)."""
    assert write.post("api/enter", SHOT, origin=origin).status_code == 403
    assert len(read_log(path).events) == 2


def test_a_request_without_origin_is_refused(write: At, path: Path) -> None:
    """A page always has one."""
    assert write.client.post(write.base + "api/enter", json=SHOT).status_code == 403
    assert len(read_log(path).events) == 2


@pytest.mark.parametrize("site", ["cross-site", "same-site"])
@pytest.mark.parametrize("name", ["api/state", "api/events", "api/setup"])
def test_what_another_site_reads_is_refused(write: At, site: str, name: str) -> None:
    """The stream of changes too."""
    assert write.get(name, **{"sec-fetch-site": site}).status_code == 403
    assert write.get(name, origin="http://evil.example").status_code == 403


def test_an_address_may_be_followed_from_elsewhere(at: Callable[..., At]) -> None:
    """A link in a message, or a code that was scanned, opens a page."""
    assert at("read").get("", **{"sec-fetch-site": "cross-site"}).status_code == 200


@pytest.mark.parametrize("name", ["", "api/state", "api/nothing", "../static/base.css"])
def test_every_answer_carries_the_policy(write: At, name: str) -> None:
    """Nothing inline, nothing from elsewhere, no frame around it, nothing kept, no address given away."""
    headers = write.get(name).headers
    policy = headers["content-security-policy"].split("; ")
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cache-control"] == "no-store"
    assert "access-control-allow-origin" not in headers


@pytest.mark.parametrize("secret", ["x", " ", "%00", "é", "A" * 22, "a" * 5000])
def test_a_wrong_secret_leads_nowhere(write: At, secret: str) -> None:
    """No page, no state, no entry."""
    assert write.client.get(f"/{secret}/").status_code == 404
    assert write.client.get(f"/{secret}/api/state").status_code == 404
    assert write.client.get(f"/{secret}/api/events").status_code == 404
    assert write.client.post(f"/{secret}/api/enter", json=SHOT, headers={"origin": ORIGIN}).status_code == 404


def test_every_role_has_a_secret_of_its_own() -> None:
    """None follows from another, and another key gives others."""
    secrets = [Keys(key * 32).secret(role) for key in (b"a", b"b") for role in ROLES]
    assert len(set(secrets)) == 8
    assert all(len(secret) == 22 for secret in secrets)
    assert [Keys(b"a" * 32).role_of(secret) for secret in secrets] == [*ROLES, None, None, None, None]


def test_the_key_outlives_a_crash_and_not_the_end(tmp_path: Path) -> None:
    """Kept beside the log for the owner alone; removed, or spoilt, there is a new one."""
    file = KeyFile.beside(tmp_path / "game.jsonl")
    keys, port = file.read()
    assert port is None
    file.write(keys, 8723)
    assert file.path.name == "game.jsonl.live"
    if os.name == "posix":
        assert file.path.stat().st_mode & 0o077 == 0
    assert file.read() == (keys, 8723)
    file.write(keys, 8724)
    assert file.read() == (keys, 8724)
    file.path.write_text("{}")
    assert file.read()[0] != keys
    file.remove()
    file.remove()
    assert file.read()[0] != keys


@pytest.mark.parametrize(
    "line",
    [
        "",
        "[]",
        "null",
        "[" * 100_000,
        '{"key": "%s"}',
        '{"key": "abc", "port": 8723}',
        '{"key": 5, "port": 8723}',
        '{"key": "%s", "port": 0}',
        '{"key": "%s", "port": -1}',
        '{"key": "%s", "port": 65536}',
        '{"key": "%s", "port": Infinity}',
        '{"key": "%s", "port": "8723"}',
        '{"key": "%s", "port": true}',
    ],
)
def test_a_spoilt_key_file_is_as_none(tmp_path: Path, line: str) -> None:
    """A new key, and no port to look for a server at; starting goes on."""
    file = KeyFile.beside(tmp_path / "game.jsonl")
    file.path.write_text(line.replace("%s", "ab" * 32))
    keys, port = file.read()
    assert (len(keys.key), port) == (32, None)
    assert keys.key != b"\xab" * 32
    assert file.notes() == []


def test_a_body_that_is_too_large_is_refused(write: At, path: Path) -> None:
    """Said in its head or only found while it is read."""
    assert write.post("api/enter", {**SHOT, "text": "x" * BODY_BYTES}).status_code == 413

    def endless() -> object:
        for _ in range(20):
            yield b"x" * 8192

    headers = {"origin": ORIGIN, "content-type": "application/json"}
    answer = write.client.post(write.base + "api/enter", content=endless(), headers=headers)  # type: ignore[arg-type]
    assert answer.status_code == 413
    assert len(read_log(path).events) == 2


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"[]",
        b"{",
        b'"x"',
        b'{"text": NaN}',
        b'{"text": "\\ud800"}',
        b'{"text": "\xff"}',
        b"[" * 30_000,
        b'{"home": ' * 900 + b"1" + b"}" * 900,
        b'{"home": ' + b"[" * 64 + b"]" * 64 + b"}",
        b'{"version": ' + b"9" * 6_000 + b"}",
    ],
)
def test_what_is_no_object_is_refused(write: At, content: bytes) -> None:
    """Half an object, numbers that are none, text that cannot be written, nesting without end."""
    headers = {"origin": ORIGIN, "content-type": "application/json"}
    answer = write.client.post(write.base + "api/enter", content=content, headers=headers)
    assert (answer.status_code, answer.json()["error"]) == (400, "bad_request")


def test_an_object_may_be_nested_as_deep_as_a_log_may(write: At) -> None:
    """Sixty-four levels are taken; what is in them is judged by what asked for it."""
    headers = {"origin": ORIGIN, "content-type": "application/json"}
    content = b'{"home": ' + b"[" * 63 + b"]" * 63 + b"}"
    answer = write.client.post(write.base + "api/enter", content=content, headers=headers)
    assert "JSON object" not in answer.json()["message"]


@pytest.mark.parametrize("path", ["opening/check", "opening/open", "enter", "preview"])
def test_no_request_fails_by_being_nested(write: At, path: str) -> None:
    """Whatever is asked for, the answer is a refusal and not a fault."""
    headers = {"origin": ORIGIN, "content-type": "application/json"}
    content = b'{"home": ' * 900 + b"{}" + b"}" * 900
    answer = write.client.post(f"{write.base}api/{path}", content=content, headers=headers)
    assert answer.status_code == 400


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", ""])
def test_what_a_form_of_another_page_can_send_is_refused(write: At, kind: str) -> None:
    """Only JSON, which a page from elsewhere may not send without being asked first."""
    headers = {"origin": ORIGIN, "content-type": kind}
    answer = write.client.post(write.base + "api/enter", content=json.dumps(SHOT), headers=headers)
    assert answer.status_code == 415


def test_more_requests_than_fingers_can_make_are_told_to_wait(write: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """Refused with a time to wait, and granted after that time; nobody else is kept waiting."""
    monkeypatch.setattr("rinkfold.cli.live.limits.monotonic", lambda: 1_000.0)
    answers = [write.get("api/state") for _ in range(int(BURST) + 20)]
    refused = [one for one in answers if one.status_code == 429]
    assert len(refused) == 20
    assert refused[0].headers["retry-after"] == "1"
    assert At(write.room, ROLES[3]).get("api/state").status_code == 200
    monkeypatch.setattr("rinkfold.cli.live.limits.monotonic", lambda: 1_001.0)
    assert write.get("api/state").status_code == 200


@pytest.mark.parametrize("name", ["{}", "{}/", "{}/page", "{}/api/state", "{}/api/events", "{}/api/enter"])
def test_wrong_secrets_are_counted_too(write: At, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """Whatever is asked for with them. Whoever tries them out is told to wait, and keeps nobody else waiting."""
    monkeypatch.setattr("rinkfold.cli.live.limits.monotonic", lambda: 1_000.0)
    ask = write.client.post if name.endswith("enter") else write.client.get
    statuses = [
        ask(f"/{name.format(f'wrong-{number}')}", headers={"origin": ORIGIN}).status_code
        for number in range(int(BURST) + 5)
    ]
    assert statuses == [404] * int(BURST) + [429] * 5
    assert write.get("api/state").status_code == 200
    assert write.client.get("/static/base.css").status_code == 200


def test_an_address_without_its_slash_is_counted(write: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """As everything with a secret."""
    monkeypatch.setattr("rinkfold.cli.live.limits.monotonic", lambda: 1_000.0)
    statuses = [write.client.get(write.base.rstrip("/")).status_code for _ in range(int(BURST) + 1)]
    assert (statuses[0], statuses[-1]) == (307, 429)


def test_ever_new_senders_do_not_fill_the_memory() -> None:
    """Of more than a rink has, those are forgotten who asked longest ago; who asks too much is still known."""
    rates = Rates()
    for number in range(3 * SENDERS):
        rates.take(f"sender {number}")
        if number % 100 == 0:
            rates.take("always here")
    assert len(rates.left) == SENDERS
    assert "always here" in rates.left
    assert "sender 0" not in rates.left
    assert f"sender {3 * SENDERS - 1}" in rates.left


@pytest.mark.parametrize(("role", "most"), [("read", LISTENERS), ("door", LISTENERS_AT_WORK), ("write", 10)])
def test_more_listeners_than_a_rink_has_are_refused(at: Callable[..., At], role: RoleName, most: int) -> None:
    """With plain words, and other requests go on; forty parents do not shut out the clock, nor the doors each other."""
    pages = {"read": at("read"), "door": at("door", "home"), "write": at("write")}
    bells = pages["read"].room.hub.bells
    bells.update({asyncio.Event(): role for _ in range(most - 1)})
    listens = {name: page.client.head(page.base + "api/events").status_code for name, page in pages.items()}
    assert listens == dict.fromkeys(pages, 200)
    bells[asyncio.Event()] = role
    answer = pages[role].get("api/events")
    assert (answer.status_code, answer.json()["error"]) == (503, "too_many")
    assert pages[role].get("api/state").status_code == 200
    listens = {name: page.client.head(page.base + "api/events").status_code for name, page in pages.items()}
    assert listens == {**dict.fromkeys(pages, 200), role: 503}


@pytest.mark.parametrize(("role", "most"), [(ROLES[0], WAITING), (ROLES[1], WAITING_AT_DOORS)])
def test_entries_do_not_queue_up_without_end(write: At, path: Path, role: Role, most: int) -> None:
    """Where too many wait for their turn the next one is told to come again; writer and doors wait apart."""
    write.room.waiting[role.name] = most
    for page in (write, At(write.room, ROLES[1]), At(write.room, ROLES[2])):
        answer = page.post("api/preview", {"text": ""})
        waits = page.role.name == role.name
        assert (answer.status_code, answer.headers.get("retry-after")) == ((429, "1") if waits else (200, None))
    assert write.room.waiting == {role.name: most} | ({"door": 0} if role.name == "write" else {"write": 0})


def test_an_address_typed_without_its_last_stroke_leads_there(write: At) -> None:
    """Only where it is a right one."""
    answer = write.client.get(write.base.rstrip("/"))
    assert (answer.status_code, "/" + answer.headers["location"]) == (307, write.base)
    assert write.client.get("/nothing").status_code == 404


def test_unknown_addresses_and_methods_are_told_plainly(write: At) -> None:
    """JSON below `api/`, a page elsewhere."""
    assert write.get("api/nothing").json()["error"] == "not_found"
    assert write.post("api/state", {}).status_code == 404
    assert write.client.put(write.base + "api/enter", headers={"origin": ORIGIN}).status_code == 405
    assert write.get("nothing").headers["content-type"].startswith("text/html")


@pytest.mark.parametrize(
    "name", ["..%2fapp.py", "%2e%2e/app.py", "console.html", "base.css/", "..", "app.py", "%00.js"]
)
def test_only_styles_scripts_and_pictures_are_given_out(write: At, name: str) -> None:
    """No template, no source, nothing outside the folder."""
    answer = write.client.get(f"/static/{name}")
    assert answer.status_code == 404
    assert "import" not in answer.text


def test_a_page_cannot_have_a_file_read(write: At, path: Path, tmp_path: Path) -> None:
    """A correction names a ruleset that is known, not a file, however deep it is hidden."""
    secret = tmp_path / "league.toml"
    secret.write_text('name = "league"\nsecret = "hush"\n')
    for text in (
        f"amend 1 ruleset {secret}",
        f'amend 1 ruleset "{secret}"',
        f'amend 1 {{"ruleset": "{secret}"}}',
        f'amend 1 {{"rulese\\u0074": "{secret}"}}',
        f'amend 1 changes {{"\\u0072uleset": "{secret}"}}',
    ):
        answer = write.preview(text)
        assert answer["problems"][0]["code"] == "unknown_ruleset"
        assert "hush" not in json.dumps(answer)
    form = {"text": f"amend 1 ruleset {secret}", "id": new_id(), "version": 2}
    assert write.post("api/enter", form).status_code == 422
    assert write.post("api/opening/rules", {"ruleset": str(secret)}).status_code == 422
    assert write.preview("amend 1 ruleset youth-12u")["ok"]


def test_a_fault_of_the_server_is_told_without_a_traceback(
    write: At, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The page is told what to do, the terminal which fault it was."""
    monkeypatch.setattr(type(write.room), "state", lambda self, role: 1 // 0)
    answer = write.get("api/state")
    assert (answer.status_code, answer.json()["error"]) == (500, "fault")
    assert "Traceback" not in answer.text
    assert "A fault in rinkfold itself: ZeroDivisionError" in capsys.readouterr().err


def sent_to(page: At, name: str, method: str = "GET") -> list[Message]:
    """What the application sends to whoever asks for `name` and then sends nothing more, message by message."""
    path = page.base + name
    scope: Scope = {"type": "http", "method": method, "path": path, "raw_path": path.encode(), "query_string": b""}
    headers = [(b"host", HOST.encode()), (b"origin", ORIGIN.encode()), (b"content-type", b"application/json")]
    scope.update(headers=headers, client=("127.0.0.1", 1), scheme="http", root_path="")
    sent: list[Message] = []

    async def receive() -> Message:
        await asyncio.sleep(60)
        raise AssertionError

    async def send(message: Message) -> None:
        sent.append(message)

    asyncio.run(asyncio.wait_for(application(page.room)(scope, receive, send), 10))
    return sent


def test_a_fault_within_the_stream_is_told_and_gets_no_second_answer(
    write: At, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The answer has begun, so the page is cut off and comes again; the terminal is told which fault it was."""
    monkeypatch.setattr(type(write.room), "state", lambda self, role: 1 // 0)
    sent = sent_to(write, "api/events")
    assert [(one["type"], one.get("status")) for one in sent] == [("http.response.start", 200)]
    assert "A fault in rinkfold itself: ZeroDivisionError" in capsys.readouterr().err


def test_a_fault_before_the_answer_is_one_answer(
    write: At, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is begun once, and told in the terminal once."""
    monkeypatch.setattr(type(write.room), "state", lambda self, role: 1 // 0)
    sent = sent_to(write, "api/state")
    assert [one.get("status") for one in sent if one["type"] == "http.response.start"] == [500]
    assert capsys.readouterr().err.count("A fault in rinkfold itself") == 1


def test_a_request_that_does_not_arrive_is_given_up(write: At, monkeypatch: pytest.MonkeyPatch) -> None:
    """After ten seconds, and meanwhile it waits for no turn."""
    monkeypatch.setattr("rinkfold.cli.live.app.BODY_SECONDS", 0.05)
    begun, body, *_ = sent_to(write, "api/enter", "POST")
    assert begun["status"] == 400
    assert json.loads(body["body"])["message"] == "The request did not arrive whole."
    assert not write.room.waiting.total()


def test_whoever_goes_while_it_is_answered_is_no_fault(
    write: At, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A page that is closed meanwhile; nothing is told."""

    def gone(self: object, role: object) -> None:
        raise ClientDisconnect

    monkeypatch.setattr(type(write.room), "state", gone)
    assert [one["type"] for one in sent_to(write, "api/events")] == ["http.response.start"]
    assert capsys.readouterr().err == ""


def test_the_writer_sees_all_addresses_and_their_codes(path: Path) -> None:
    """Text and picture of each, for the writer alone."""
    write = At(in_process(path))
    listed = write.get("api/addresses").json()
    assert not listed["lan"]
    assert [one["which"] for one in listed["addresses"]] == ["write", "door-home", "door-away", "read"]
    for one in listed["addresses"]:
        picture = write.get(one["qr"])
        assert picture.headers["content-type"] == "image/svg+xml"
        assert picture.text.startswith("<?xml")
    assert write.get("api/qr/nobody.svg").status_code == 404
    assert At(write.room, ROLES[3]).get("api/qr/write.svg").status_code == 404
    assert At(write.room, ROLES[3]).get("api/addresses").status_code == 403
