"""The rules that the fold applies, each with where it stands, so that every change can cite its reason.

A `Rule` is a constant: the words a timekeeper would use and the published source. *Common practice* marks a habit of
the trade that no book states; *section* numbers are those of the penalty model in ``docs/penalty-model.md``.
"""

from __future__ import annotations

from attrs import frozen

__all__ = ["Rule"]


@frozen
class Rule:
    """A rule as a reason: a short name, its source, and the section of the penalty model that states it."""

    name: str
    source: str
    section: str


RECORDED = Rule("as recorded", "the event itself", "1")
TIME_STARTS = Rule("penalty time starts when play resumes", "NHL Official Rules 26; IIHF 2023/24 Rule 26", "1")
TIME_RUNS_OUT = Rule(
    "penalty time runs out before anything else at that tenth", "IIHF 2023/24 Table 14, example C8", "1"
)
WHISTLE_IMPLIED = Rule("a whistle that nobody wrote", "common practice", "1")
CHAIN_ORDER = Rule(
    "a player's parts are served one after another, majors before minors", "IIHF 2022/23 Table 14, example B1", "3"
)
OFF_THE_CLOCK_LAST = Rule("offset time and misconducts come after time on the clock", "NHL Official Rules 16.2", "3")
SUSPENDED = Rule(
    "a misconduct under way waits while new time is on the clock", "IIHF 2018-22, delayed penalties, situation 1", "3"
)
STAND_IN = Rule(
    "a stand-in sits for time on the clock", "IIHF 2018-22, goaltender penalties; NHL Official Rules 27", "3"
)
BENCH_MINOR = Rule("a bench minor is served by a team-mate", "IIHF 2023/24 Rule 17; NHL Official Rules 17", "2")
STAFF = Rule("nobody serves a penalty on staff but its bench part", "common practice", "2")
GAME_MISCONDUCT = Rule("a game misconduct puts nobody in the box", "IIHF 2023/24 Rule 23; NHL Official Rules 23", "2")
EJECTED = Rule("the player is out of the game", "the ruleset's ejection rules", "2")
EJECTION_ENDS = Rule(
    "an ejection ends the misconduct and offset time still owed", "IIHF 2018-22, goaltender penalties, situation 1", "2"
)
TWO_SLOTS = Rule("two penalties of a side run at a time, a third waits", "NHL 26.1; IIHF 26; Hockey Canada 4.14", "4")
FORMULA = Rule("skaters follow from the penalties on the clock", "NHL 26.1; IIHF 26; Hockey Canada 4.14", "4")
HELD = Rule("a player whose place is taken by one waiting stays until a stoppage", "NHL 26.2; Hockey Canada 4.14", "4")
HELD_LONGEST = Rule("a place that opens goes to the player held longest", "NHL 26.2; Hockey Canada 4.14", "4")
ON_EXPIRY = Rule("the player leaves when the time on the clock is over", "NHL 26.2; Hockey Canada 4.14", "4")
AT_STOPPAGE = Rule("whoever's time is up leaves at a stoppage", "NHL 26.2; Hockey Canada 4.14", "4")
PENALIZED_AGAIN = Rule("whoever is penalized at that stoppage does not return at it", "common practice", "4")
OVERTIME_ADDS = Rule("in a smaller overtime the returning player is added", "NHL Official Rules 84; IIHF 84", "4")
OFFSET = Rule(
    "equal penalties of both sides offset one for one", "Hockey Canada 4.2, 4.4; NHL 19.5; IIHF Table 15", "5"
)
OFFSET_CHOICE = Rule(
    "what stays on the clock leaves as few short as possible", "IIHF 2023/24 Table 15, examples 5 to 10", "5"
)
CAPTAIN = Rule("the captain chose what stays on the clock", "IIHF 2023/24 Table 15, examples 5, 7, 8, 10", "5")
LONE_PAIR = Rule(
    "a single minor to each side is played four on four",
    "NHL 19.1; IIHF Rule 19; Swedish federation youth 2021-22",
    "5",
)
LONE_PAIR_SUBSTITUTED = Rule(
    "a single minor to each side is substituted", "Hockey Canada 4.2; NFHS 2019-20, situation 3", "5"
)
LATE_NETTING = Rule("late in the game a minor and a major are netted", "Swedish federation 2023-24, Rule 19.4", "5")
NEVER_SHORT = Rule("in this class no side plays short", "common practice", "9")
GOAL_LEAST_TIME = Rule("a goal ends the minor with the least time left", "IIHF Table 14; Hockey Canada 4.2", "6")
GOAL_FIRST = Rule("a goal ends the minor assessed first", "older editions of the books", "6")
GOAL_CHOICE = Rule("equal time left: the captain chooses", "IIHF 2023/24 Table 14, example C9", "6")
GOAL_STARTS_NEXT = Rule("the next part starts at the goal", "IIHF 2022/23 Table 14, example A1", "6")
GOAL_OWN_MINOR = Rule("a short-handed goal ends a minor of the side that scored", "the ruleset", "6")
GOAL_NOTHING = Rule("the goal ends nothing", "IIHF 2023/24 Rule 16; Hockey Canada 4.2", "6")
WASHED_OUT = Rule(
    "the goal on a delayed call washes out its first minor", "IIHF 2018-22, goal situations; Hockey Canada 4.15", "6"
)
SWAP = Rule("level, with a minor running: that one ends and the call is served", "Hockey Canada 2022+, 4.2", "6")
PENALTY_SHOT = Rule("a penalty shot replaces the first minor", "Hockey Canada 4.2; IIHF 2023/24 Rule 24", "6")
RULING = Rule("an official ended the penalty", "the officials on the ice decide", "8")
EQUAL_PAIR = Rule("an equal pair leaves the clock before overtime", "IIHF 2017, overtime situations", "7")
SUDDEN_VICTORY = Rule("a goal in overtime ends the game", "NHL Official Rules 84; IIHF 84", "7")
POWER_PLAY = Rule(
    "a power play is counted for each penalty on the clock, less the other side's", "common practice", "9"
)
GAME_OVER = Rule("what is unserved at the end stays unserved", "common practice", "7")
