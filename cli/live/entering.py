"""Entries that come from pages: previewed, refused while something is to be seen first, written once."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from attrs import define, field

from ... import rulesets
from ...timeline.game import Game
from ...timeline.problems import Problem, ProblemsFound
from ..answers.check import finding_answer
from ..event_words import event_said
from ..standing import context_of, latest
from .answers import Refusal, problem_answer, problems_refusal
from .clock_copy import ClockCopy
from .doors import check_may_override, check_may_write
from .keys import Role
from .lines import line_text
from .repeats import Repeats
from .table import Table
from .trial import Trial, read, signed, tried

__all__ = ["Desk", "Form", "known_rulesets", "trouble_refusal"]

MOST_PERIODS = 50
LONGEST_OF_A_DOOR = 200
"""Characters; its page makes some forty. Reading a long entry takes time in which nobody else is answered."""

_ID = re.compile(r"[A-Za-z0-9-]{8,64}", re.ASCII)


@define
class Form:
    """An entry as a page sends it.

    Attributes:
        version: how many events the log had when the entry was made.
        id: the same for each attempt to send it.
        override: codes of the warnings that its writer has seen and overrides.
    """

    text: str
    version: int
    id: str
    override: Sequence[str] = ()

    @classmethod
    def of(cls, body: Mapping[str, Any]) -> Form:
        """The form in a request.

        Raises:
            Refusal: it is not one.
        """
        text, version, name = body.get("text"), body.get("version"), body.get("id")
        override = body.get("override") or []
        if not isinstance(text, str) or not text.strip():
            raise Refusal(400, "bad_request", "There is no entry.", "Type one.")
        if type(version) is not int or not isinstance(name, str) or not _ID.fullmatch(name):
            raise Refusal(400, "bad_request", "The page sent an entry without its version or its id.", "Reload it.")
        if not isinstance(override, list) or not all(isinstance(code, str) for code in override):
            raise Refusal(400, "bad_request", "The page sent an override that is none.", "Reload it.")
        return cls(text, version, name, override)


@define
class Desk:
    """Where entries arrive.

    Attributes:
        own_ruleset: a league's file, which may be chosen beside the rulesets that are known.
        repeats: what was answered to the forms that came before.
    """

    table: Table
    own_ruleset: str | None = None
    clock: ClockCopy = field(factory=ClockCopy)
    repeats: Repeats = field(factory=Repeats)
    _last: tuple[Game, str, Trial] | None = None

    def preview(self, role: Role, text: str) -> dict[str, Any]:
        """What `text` would enter, or what is wrong with it; nothing is written."""
        with self.table.lock:
            self._there()
            if not text.strip():
                return {"ok": False, "version": self.table.version, "problems": []}
            trial = self._tried(role, text)
            if not isinstance(trial, Trial):
                problems = [problem_answer(one) for one in trial]
                return {"ok": False, "version": self.table.version, "problems": problems}
            return trial.picture()

    def enter(self, role: Role, form: Form) -> dict[str, Any]:
        """Write an entry, and say what it does.

        Raises:
            Refusal: it is not understood, not allowed, made against an outdated state, or has warnings; or the file
                is in trouble. Nothing was written.
        """
        with self.table.lock:
            self._there()
            if (replayed := self._replayed(role, form)) is not None:
                return replayed
            self.table.refresh()
            self._without_trouble(role)
            trial = self._tried(role, form.text)
            if form.version != self.table.version:
                raise self._stale(role, form)
            if not isinstance(trial, Trial):
                raise problems_refusal(trial, "not_understood", version=self.table.version)
            check_may_override(role, trial.warned.warnings)
            if unmet := trial.unmet(form.override):
                raise _warned(trial, [finding_answer(one) for one in unmet])
            return self._written(role, form, trial)

    def move_clock(self, game: Game, body: Mapping[str, Any]) -> None:
        """Start, stop, set or forget the clock copy.

        Raises:
            Refusal, ProblemsFound: what is to be done with it is not said, or its reading is none.
        """
        rules, state = game.rules, game.folded.last
        period, played = latest(game)
        if state.ice.ended and not game.over:
            period, played = period + 1, 0
        match body.get("do"):
            case "start":
                self.clock.move(rules, period, played, running=True)
            case "stop":
                self.clock.move(rules, period, played, running=False)
            case "forget":
                self.clock.forget()
            case "set":
                self.clock.set(rules, str(body.get("reading", "")), _period(body, period), body.get("running"))
            case _:
                raise Refusal(400, "bad_request", "Expected start, stop, set or forget.", "Reload the page.")

    def _there(self) -> None:
        if self.table.live is None:
            raise Refusal(409, "not_open", "No game is opened yet.", "Open it first.")

    def _without_trouble(self, role: Role) -> None:
        if self.table.trouble is not None:
            raise trouble_refusal(self.table.trouble, role)

    def _tried(self, role: Role, text: str) -> Trial | Sequence[Problem]:
        """The trial of `text`; that of the preview where nothing has changed since.

        Raises:
            Refusal: it is nothing that `role` may write.
        """
        game = self.table.game
        assert game is not None
        if role.name != "write":
            if len(text) > LONGEST_OF_A_DOOR:
                raise Refusal(403, "not_allowed", "The entry is too long for one from a door.", "Write a shorter one.")
            event = read(text, game)
            if isinstance(event, Problem):
                return [event]
            check_may_write(role, event, game)
        if self._last is not None and self._last[0] is game and self._last[1] == text:
            return self._last[2]
        trial = tried(self.table, text, lambda: known_rulesets(self.own_ruleset))
        if isinstance(trial, Trial):
            self._last = (game, text, trial)
        return trial

    def _replayed(self, role: Role, form: Form) -> dict[str, Any] | None:
        """The answer to a form whose entry was written before."""
        game = self.table.game
        assert game is not None
        if (known := self.repeats.answer(form.id, form.text)) is not None:
            return known
        if (event := self.repeats.event_of(form.id, game.events)) is None:
            return None
        said = {"seq": event.seq, "understood": event_said(game, event), "effect": "It was written before."}
        return {**said, "different": [], "head_code": self._head_code(role), "replayed": True}

    def _head_code(self, role: Role) -> str | None:
        return self.table.head_code if role.name == "write" else None

    def _written(self, role: Role, form: Form, trial: Trial) -> dict[str, Any]:
        event = signed(trial.taken, role, trial.warned.warnings)
        self.repeats.about_to_write(form.id, event.seq, event)
        try:
            (written,) = self.table.append([event], trial.findings)
        except ProblemsFound as found:
            raise self._not_written(role, form, found) from None
        if trial.is_on_time:
            self.clock.entered(written, trial.game.rules)
        picture = trial.picture()
        answered = {
            "seq": written.seq,
            **{name: picture[name] for name in ("understood", "effect", "different")},
            "head_code": self._head_code(role),
            "replayed": False,
        }
        self.repeats.written(form.id, form.text, answered)
        return answered

    def _not_written(self, role: Role, form: Form, found: ProblemsFound) -> Refusal:
        """Why an entry that was right could not be written: another was quicker, or the file is in trouble."""
        before = self.table.version
        self.table.refresh(anew=True)
        if self.table.version != before:
            return self._stale(role, form)
        return trouble_refusal(self.table.trouble or found.problems[0], role)

    def _stale(self, role: Role, form: Form) -> Refusal:
        table, game = self.table, self.table.game
        assert game is not None
        since = game.events[max(form.version, 1) :]
        free = role.name == "write"
        said = [
            {"seq": one.seq, "text": line_text(one, context_of(game), free=free), "by": one.by if free else None}
            for one in since
        ]
        return Refusal(
            409,
            "stale",
            "Something was entered meanwhile." if since else "The page is not up to date.",
            "Look at it, then write your entry all the same, or drop it.",
            version=table.version,
            since=said,
            preview={"ok": True, **self.preview(role, form.text)},
        )


def known_rulesets(own: str | None) -> list[str]:
    """The rulesets that may be chosen from a page, a league's `own` file first; a page never names another file."""
    return [*([own] if own else []), *rulesets.names()]


def _period(body: Mapping[str, Any], usual: int) -> int:
    period = body.get("period", usual)
    if type(period) is not int or not 1 <= period <= MOST_PERIODS:
        raise Refusal(400, "bad_request", "Expected the number of a period.", "Reload the page.")
    return period


def _warned(trial: Trial, unmet: list[dict[str, Any]]) -> Refusal:
    picture = trial.picture()
    shown = {name: picture[name] for name in ("version", "understood", "effect", "different", "hints")}
    return Refusal(422, "warned", unmet[0]["message"], unmet[0]["fix"], warnings=unmet, **shown)


def trouble_refusal(problem: Problem, role: Role) -> Refusal:
    """Nothing can be written for now; why stands in the file, which only the writer is shown."""
    if role.name != "write":
        return Refusal(503, "log_trouble", "The record cannot be written just now.", "Ask at the clock.")
    return Refusal(503, "log_trouble", problem.message, problem.fix, code=problem.code)
