"""One line in, one answer out. What is wrong with a line is an answer too, and changes nothing."""

from __future__ import annotations

import os
from typing import Any, BinaryIO

from attrs import frozen

from ... import rulesets
from ...timeline.problems import Problem, ProblemsFound
from ...timeline.record.json_line import load_line
from ...timeline.script.corrections import effective
from ..answers.common import ANSWER_FORMAT
from ..answers.stream import event_answer, problems_answer
from ..effects import Entered, effect_line
from ..paper import say_json_line
from .asks import asked
from .game import StreamedGame, TakenIn
from .lines import LONGEST, lines_of

__all__ = ["Session", "converse"]


@frozen
class Session:
    """A conversation about one game."""

    game: StreamedGame

    def answer(self, number: int, line: bytes | None) -> dict[str, Any]:
        """The answer to the line with this `number`; None stands for a line that is too long."""
        return {"rinkfold": ANSWER_FORMAT, "line": number, **self._answer(line)}

    def _answer(self, line: bytes | None) -> dict[str, Any]:
        taken: TakenIn | None = None
        try:
            data = _parsed(line)
            if "ask" in data:
                self.game.look_again()
                return asked(data, self.game.game)
            taken = self.game.take(data)
            return _told(taken)
        except ProblemsFound as found:
            return problems_answer(self.game.game, found.problems)
        except Exception as error:  # one line that finds a fault in us must not take the scoreboard down
            if os.environ.get("RINKFOLD_TRACEBACK"):
                raise
            return problems_answer(self.game.game, [_fault(error, taken)])


def _parsed(line: bytes | None) -> dict[str, Any]:
    """The object that a line is.

    Raises:
        ProblemsFound: it is none.
    """
    if line is None:
        message = f"The line is longer than {LONGEST} bytes; all of it was passed over."
        raise ProblemsFound([Problem(code="line_too_long", message=message, fix="Send one event a line.")])
    if not line.strip():
        raise ProblemsFound([Problem(code="empty_line", message="The line is empty.", fix="Send one event a line.")])
    try:
        return load_line(line.decode())
    except UnicodeDecodeError as error:
        message = f"The line is not UTF-8: byte {error.start + 1} of it is 0x{line[error.start]:02x}."
        raise ProblemsFound([Problem(code="not_utf8", message=message, fix="Send UTF-8.")]) from None


def _fault(error: Exception, taken: TakenIn | None) -> Problem:
    done = "Nothing was taken in." if taken is None else "The event was taken in; what it changes cannot be told."
    return Problem(
        code="fault",
        message=f"A fault in rinkfold itself: {type(error).__name__}: {error}. {done}",
        fix="Please report it with the lines sent; RINKFOLD_TRACEBACK=1 says where it is.",
        seq=None if taken is None else taken.event.seq,
    )


def _told(taken: TakenIn) -> dict[str, Any]:
    if taken.before is None:
        effect = rulesets.applied_line(taken.after.rules)
    else:
        counts = effective(taken.after.events, taken.event.seq) or taken.event
        effect = effect_line(Entered(counts, taken.before, taken.after))
    return event_answer(
        taken.after, taken.event, effect, taken.changes, taken.withdrawn, before=taken.before, head_code=taken.head_code
    )


def converse(session: Session, source: BinaryIO) -> None:
    """Answer each line of `source` on standard output before the next is read, until either side has gone."""
    for number, line in enumerate(lines_of(source), 1):
        if not say_json_line(session.answer(number, line)):
            return
