// The small forms: which fields each has, and the entry that it makes. The words are those of the short entries.

import { everybody } from "./boxes.js";
import { check, choice, reading, seldom, side, text } from "./fields.js";
import { likelyReading } from "./likely.js";
import { infractions, numbers, pick, UNKNOWN } from "./pick.js";
import { goalkeepers, setup } from "./setup.js";
import { state } from "./state.js";

const STOPS = [
  "offside",
  "icing",
  "puck out of play",
  "goalkeeper holds the puck",
  "penalty",
  "hand pass",
  "net off its moorings",
  "injury",
];
export const PARTS = ["2", "2+2", "5", "10", "2+10", "5+game", "game", "match"];

export const quoted = (words) => (words ? JSON.stringify(words) : "");
export const join = (...words) => words.flat().filter(Boolean).join(" ");
export const behind = (lead, words) => (words ? `${lead} ${words}` : "");
const list = (words) => words.map((value) => ({ value }));

/** `fields(changed, sideOf)` gives a form's fields, `entry(values)` its entry. */
export const FORMS = {
  shot: {
    title: "Shot with its number",
    fields: (changed, sideOf) => [
      side(changed),
      numbers("player", "Who shot", sideOf, { more: [UNKNOWN] }),
      text("count", "How many", { numeric: true, start: "1" }),
      reading("", { label: "Reading, if it was seen", optional: true }),
    ],
    entry: (v) => join(v.reading, v.side, "shot", v.player, Number(v.count) > 1 && `x${v.count}`),
  },
  goal: {
    title: "Goal",
    fields: (changed, sideOf) => [
      side(changed),
      reading(likelyReading("goal")),
      numbers("scorer", "Scored by", sideOf, { more: [UNKNOWN] }),
      numbers("assists", "Assists", sideOf, {
        many: true,
        more: [{ value: "unassisted", words: "none" }],
        hint: "16 18",
      }),
      seldom("Own goal, empty net, awarded", [
        check("own", "own goal", "own goal"),
        check("empty", "into the empty net", "empty net"),
        check("awarded", "awarded", "awarded"),
      ]),
    ],
    entry: (v) => join(v.reading, v.side, "goal", v.scorer || "?", assists(v.assists), v.own, v.awarded, v.empty),
  },
  penalty: {
    title: "Penalty",
    fields: (changed, sideOf) => [
      side(changed),
      reading(likelyReading("penalty")),
      numbers("player", "Who", sideOf, { more: [{ value: "bench" }, { value: "staff" }, UNKNOWN] }),
      choice(
        "parts",
        "Announced",
        PARTS.map((value) => ({ value, words: value })),
        { chosen: "2", whenChanged: changed },
      ),
      pick("infraction", "What for", infractions, { narrow: true, wide: true }),
      seldom("Stand-in, delayed call and more", [
        numbers("served", "Who sits for it", sideOf),
        text("staff", "Name, for a penalty on staff"),
        text("announced", "Length announced", { hint: "2:00" }),
        check("delayed", "arm was up at the goal", "delayed"),
        check("shot", "penalty shot in its place", "penalty shot"),
        check("on", "captain: on the clock", "on clock"),
        check("off", "captain: off the clock", "off clock"),
      ]),
    ],
    entry: penalty,
  },
  stop: {
    title: "Stop: the whistle",
    fields: () => [reading(likelyReading("stop")), pick("reason", "Why", () => list(STOPS), { wide: true })],
    entry: (v) => join(v.reading, "stop", quoted(v.reason)),
  },
  go: { title: "Go: the faceoff", fields: () => [reading(likelyReading("go"))], entry: (v) => join(v.reading, "go") },
  goalie: {
    title: "Goalie",
    fields: (changed, sideOf) => [
      side(changed),
      reading(likelyReading("goalie")),
      numbers("goalie", "In net now", sideOf, { who: goalkeepers, more: [{ value: "out", words: "net empty" }] }),
    ],
    entry: (v) => join(v.reading, v.side, "goalie", v.goalie),
  },
  timeout: {
    title: "Time-out",
    fields: (changed) => [side(changed), reading(likelyReading("timeout"))],
    entry: (v) => join(v.reading, v.side, "timeout"),
  },
  door: {
    title: "Door opened",
    fields: (changed, sideOf, one) => [sitting(changed, one?.chosen), reading(likelyReading("door"))],
    entry: (v) => v.sitting && join(v.reading, v.sitting, "open"),
  },
  early: {
    title: "Left early",
    fields: (changed) => [sitting(changed), reading(likelyReading("door"))],
    entry: (v) => v.sitting && join(v.reading, v.sitting, "open", 'note "left early"'),
  },
  end: {
    title: "End of the period",
    fields: () => [
      reading(
        state.period.name.startsWith("OT")
          ? likelyReading("end")
          : state.counts === "down"
            ? "0:00"
            : state.period.length,
      ),
    ],
    entry: (v) => join(v.reading, "end period"),
  },
  undo: {
    title: "Undo: take the last entry back",
    corrects: true,
    fields: () => [text("reason", "Why", { hint: "taken back" })],
    entry: (v) => join("undo", quoted(v.reason)),
  },
};

/** Who left: everybody who sits, or `only` the one whose button was pressed. */
function sitting(changed, only = null) {
  const all = everybody().map(({ side: team, one, words }) => ({
    value: `${team} door #${one.penalty}`,
    words: `${words} · ${one.what}`,
  }));
  const choices = all.filter((one) => !only || one.value === only);
  return choice("sitting", choices.length ? "Who" : "Nobody sits in either box.", choices, {
    chosen: choices.length === 1 ? choices[0].value : null,
    whenChanged: changed,
  });
}

function assists(words) {
  return words.includes("unassisted") ? "unassisted" : behind("from", words);
}

function penalty(v) {
  const infraction = setup.infractions.includes(v.infraction) ? v.infraction : quoted(v.infraction);
  const options = [behind("served", v.served), behind("announced", v.announced), v.delayed, v.on, v.off, v.shot];
  if (v.player === "bench") return join(v.reading, v.side, "bench minor", infraction, options);
  const who = v.player === "staff" ? `staff ${quoted(v.staff || "?")}` : v.player || "?";
  return join(v.reading, v.side, "penalty", who, v.parts, infraction, options);
}
