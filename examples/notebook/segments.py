"""A game as data frames: how long each strength lasted, and what was scored in it.

Each `# %%` begins a cell, for editors that know them; as a script it runs from the top of the repository.
"""

# %% The game
import pandas as pd
from attrs import asdict

from rinkfold import rulesets
from rinkfold.timeline import read_log, replay

log = read_log("examples/game.jsonl")
game = replay(log, rulesets.of(log))

# %% One row a stretch of one strength; times are tenths of a second of played time
segments = pd.json_normalize([asdict(segment) for segment in game.strength_segments])
segments.columns = segments.columns.str.removeprefix("strength.")
segments["seconds"] = (segments["end"] - segments["start"]) / 10
segments["label"] = [segment.strength.label for segment in game.strength_segments]

# %% Minutes at each strength, by period
minutes = segments.pivot_table(index="label", columns="period", values="seconds", aggfunc="sum", fill_value=0) / 60

# %% Each goal with the stretch in which it was scored: the one that was on until that tenth
goals = pd.DataFrame([asdict(goal, recurse=False) for goal in game.goals])
until = segments[["start", "end", "label"]].rename(columns={"label": "skaters", "end": "stretch_end"})
goals = pd.merge_asof(goals, until, left_on="tenth", right_on="start", allow_exact_matches=False)

# %% Who was penalized for how long: a row a part of a penalty
parts = pd.DataFrame(
    {"team": life.team, "player": life.event.player, "part": part.kind, "served_s": part.served / 10, "fate": part.fate}
    for life in game.penalties
    for part in life.parts
)
served = parts.groupby(["team", "player"], dropna=False)["served_s"].sum()

# %%
if __name__ == "__main__":
    print(minutes.round(2), goals[["team", "scorer", "strength", "skaters"]], served, sep="\n\n")
