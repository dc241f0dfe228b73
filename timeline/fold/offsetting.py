"""Offsetting at one stoppage: which parts leave the clock because the other side was given the like (section 5).

Pure functions of the calls and of who sits already; `settlement` carries out what is decided here.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from attrs import Factory, frozen

from ..events import Team
from .draft import TEAMS, Draft, SideDraft
from .ejections import is_out
from .state import Called, ChainKey

__all__ = ["Decision", "PartId", "decide"]

PartId = tuple[int, int]
"""A penalty's `seq` and the place in its parts."""


@frozen
class Decision:
    """What becomes of the parts called at one stoppage.

    Attributes:
        offset: parts off the clock.
        lone: the two halves of a lone pair, on the clock.
        netted: the part of which only this many tenths go on the clock.
    """

    offset: frozenset[PartId] = frozenset()
    lone: frozenset[PartId] = frozenset()
    netted: Mapping[PartId, int] = Factory(dict)


NOTHING_OFFSET = Decision()


def decide(draft: Draft) -> Decision:
    """Which of the parts called at this stoppage are offset, run as a lone pair, or are netted."""
    calls = [call for call in draft.calls if call.part.kind != "misconduct"]
    if not draft.rules.ice.plays_short:
        return Decision(offset=_ids(calls))
    if not calls or all(call.team == calls[0].team for call in calls):
        return NOTHING_OFFSET
    pair = ruled_pair(calls)
    rest = [call for call in calls if call not in pair]
    if not pair and is_lone_minor_pair(draft, rest):
        return _lone_pair(draft, rest, ruled=False)
    paired = _lone_pair(draft, pair, ruled=True) if pair else Decision()
    players = frozenset((call.team, call.key) for call in pair)
    offset = _one_for_one(draft, rest, players, pair_runs=bool(paired.lone))
    left = [call for call in rest if _id(call) not in offset]
    netted = late_netting(left) if draft.rules.coincident.late_netting else {}
    minors_netted = frozenset(_id(call) for call in left if call.part.is_minor) if netted else frozenset()
    return Decision(offset | paired.offset | minors_netted, paired.lone, netted)


def _id(call: Called) -> PartId:
    return call.part.order


def _assessed(call: Called) -> tuple[int, int]:
    return call.part.assessed


def _ids(calls: Iterable[Called]) -> frozenset[PartId]:
    return frozenset(_id(call) for call in calls)


def _of(calls: Iterable[Called], team: Team, *, minor: bool) -> list[Called]:
    return [call for call in calls if call.team == team and call.part.is_minor == minor]


def ruled_pair(calls: Sequence[Called]) -> list[Called]:
    """One minor of each side that an official put on the clock among other penalties.

    Empty if there is no such pair.
    """
    asked = [[call for call in _of(calls, team, minor=True) if call.wish] for team in ("home", "away")]
    return [asked[0][0], asked[1][0]] if len(asked[0]) == len(asked[1]) == 1 else []


def is_lone_minor_pair(draft: Draft, calls: Sequence[Called]) -> bool:
    """One minor to each side, nothing else that leaves a side short, and nobody on the clock or waiting.

    Source: NHL 19.1; IIHF Rule 19; Swedish federation youth 2021-22; Hockey Canada 4.2; NFHS 2019-20.
    """
    if len(calls) != 2 or not all(call.part.is_minor for call in calls) or calls[0].team == calls[1].team:
        return False
    return not any(draft.seen(team).slots or draft.seen(team).queue for team in TEAMS)


def _lone_pair(draft: Draft, pair: Sequence[Called], *, ruled: bool) -> Decision:
    on_the_clock = ruled or draft.rules.coincident.lone_minor_pair == "four_on_four"
    if on_the_clock and draft.rules.base_skaters(draft.period) > 3:
        return Decision(lone=_ids(pair))
    return Decision(offset=_ids(pair))


def _one_for_one(
    draft: Draft, calls: Sequence[Called], paired: frozenset[tuple[Team, ChainKey]], *, pair_runs: bool
) -> frozenset[PartId]:
    """Majors and matches of the two sides against each other, then minors; a minor never against a major.

    `paired` are the players of a ruled pair, which is on the clock if `pair_runs` and else offset.

    Source: Hockey Canada 4.2, 4.4; NHL 19.5; IIHF Table 15.
    """
    counts = [
        min(len(_of(calls, "home", minor=minor)), len(_of(calls, "away", minor=minor))) for minor in (False, True)
    ]
    if counts == [0, 0]:
        return frozenset()
    chosen: frozenset[PartId] = frozenset()
    for side in (draft.home, draft.away):
        own = [call for call in calls if call.team == side.team]
        chosen |= parts_to_offset(draft, side, own, counts[0], counts[1], paired, pair_runs=pair_runs)
    return chosen


Cost = tuple[int, int, int, int]
"""Wishes not met, players short, stand-ins, and a number that is smaller the earlier the offset parts were assessed."""


def parts_to_offset(
    draft: Draft,
    side: SideDraft,
    calls: Sequence[Called],
    majors: int,
    minors: int,
    paired: frozenset[tuple[Team, ChainKey]] = frozenset(),
    *,
    pair_runs: bool = False,
) -> frozenset[PartId]:
    """Which `majors` majors and `minors` minors of one side leave the clock.

    The captain's choice first, then as few players short as possible, then as few stand-ins, then the part assessed
    first. Every choice's cost is a sum over the players, so that the best is found player by player, however many
    penalties there are.
    Source: IIHF 2023/24 Table 15, examples 5 to 10.
    """
    weights = {_id(call): 1 << place for place, call in enumerate(sorted(calls, key=_assessed, reverse=True))}
    best: dict[tuple[int, int], tuple[Cost, frozenset[PartId]]] = {(0, 0): ((0, 0, 0, 0), frozenset())}
    for key in dict.fromkeys(call.key for call in calls):
        own = [call for call in calls if call.key == key]
        in_pair = (side.team, key) in paired
        player = _Player(
            draft=draft,
            side=side,
            key=key,
            on_the_clock=_is_on_the_clock(side, key) or (in_pair and pair_runs),
            in_offset_pair=in_pair and not pair_runs,
        )
        options = _player_options(player, own, weights)
        best = _combined(best, options, majors, minors)
    return best[majors, minors][1]


def _combined(
    best: Mapping[tuple[int, int], tuple[Cost, frozenset[PartId]]],
    options: Sequence[tuple[int, int, Cost, frozenset[PartId]]],
    majors: int,
    minors: int,
) -> dict[tuple[int, int], tuple[Cost, frozenset[PartId]]]:
    """The cheapest choice for each number of offset majors and minors, one more player taken in."""
    result: dict[tuple[int, int], tuple[Cost, frozenset[PartId]]] = {}
    for (some_majors, some_minors), (cost, chosen) in best.items():
        for more_majors, more_minors, more_cost, more_chosen in options:
            total = (some_majors + more_majors, some_minors + more_minors)
            if total[0] > majors or total[1] > minors:
                continue
            summed = (
                cost[0] + more_cost[0],
                cost[1] + more_cost[1],
                cost[2] + more_cost[2],
                cost[3] + more_cost[3],
            )
            if total not in result or summed < result[total][0]:
                result[total] = (summed, chosen | more_chosen)
    return result


@frozen(kw_only=True)
class _Player:
    """Whose parts are chosen among; `on_the_clock` if he has time there whatever is chosen.

    `in_offset_pair` if a minor of his is offset as half of a ruled pair.
    """

    draft: Draft
    side: SideDraft
    key: ChainKey
    on_the_clock: bool
    in_offset_pair: bool


def _is_on_the_clock(side: SideDraft, key: ChainKey) -> bool:
    return any(chain.key == key and chain.clock for chain in side.chains())


def _player_options(
    player: _Player, own: Sequence[Called], weights: Mapping[PartId, int]
) -> list[tuple[int, int, Cost, frozenset[PartId]]]:
    """For one player, each number of offset majors and minors with its best choice and cost."""
    majors = sorted((call for call in own if not call.part.is_minor), key=_offset_first)
    minors = sorted((call for call in own if call.part.is_minor), key=_offset_first)
    options = []
    for some_majors in range(len(majors) + 1):
        for some_minors in range(len(minors) + 1):
            away = majors[:some_majors] + minors[:some_minors]
            kept = majors[some_majors:] + minors[some_minors:]
            options.append((some_majors, some_minors, _cost(player, away, kept, weights), _ids(away)))
    return options


def _offset_first(call: Called) -> tuple[int, PartId]:
    """Parts that the captain wants off the clock, then those without a wish, then those wanted on it.

    Earliest first.
    """
    return ({False: 0, None: 1, True: 2}[call.wish], _assessed(call))


def _cost(player: _Player, away: Sequence[Called], kept: Sequence[Called], weights: Mapping[PartId, int]) -> Cost:
    """What it costs to offset `away` and keep `kept` on the clock."""
    call = (*away, *kept)[0]
    on_the_clock = bool(kept) or player.on_the_clock
    unmet = sum(other.wish is True for other in away) + sum(other.wish is False for other in kept)
    needs_stand_in = is_out(player.side, call) or call.keeper or bool(away) or _owes_besides(player)
    stand_in = on_the_clock and needs_stand_in
    return (unmet, int(on_the_clock), int(stand_in), sum(weights[_id(other)] for other in kept))


def _owes_besides(player: _Player) -> bool:
    """Whether the player has offset or misconduct time, whatever is chosen."""
    side, key = player.side, player.key
    return (
        player.in_offset_pair
        or any(chain.key == key and chain.off_the_clock for chain in side.chains())
        or any(call.key == key and call.team == side.team and call.is_misconduct for call in player.draft.calls)
    )


def late_netting(left: Sequence[Called]) -> dict[PartId, int]:
    """The tenths that a major puts on the clock when a minor, or one player's double minor, stands against it late.

    Empty where nothing is netted. Source: Swedish federation 2023-24, Rule 19.4.
    """
    majors = [call for call in left if not call.part.is_minor]
    minors = [call for call in left if call.part.is_minor]
    if len(majors) != 1 or not 1 <= len(minors) <= 2 or len({(call.team, call.key) for call in minors}) != 1:
        return {}
    if minors[0].team == majors[0].team or not all(call.late for call in left):
        return {}
    difference = majors[0].part.length - sum(call.part.length for call in minors)
    return {_id(majors[0]): difference} if difference > 0 else {}
