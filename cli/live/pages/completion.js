// What could stand next in the line: words, teams, numbers of the roster, infractions.

import { likelyReading } from "./likely.js";
import { players, setup } from "./setup.js";

const MOST = 8;

/** Whole lines that the line could become, each with the words to show: `{line, shown}`. */
export function completions(line) {
  const begun = /\S*$/.exec(line)[0];
  const before = line.slice(0, line.length - begun.length);
  return next(before, begun)
    .map((words) => ({ line: `${before}${words} `, shown: words }))
    .slice(0, MOST);
}

function next(before, begun) {
  const words = before.trim().toLowerCase().split(/\s+/).filter(Boolean);
  if (!words.length && !begun) return [likelyReading()].filter(Boolean);
  const typed = begun.toLowerCase();
  const fits = (list) => list.filter((one) => one.toLowerCase().startsWith(typed) && one.toLowerCase() !== typed);
  if (!words.length && /^[\d:.?]/.test(typed)) return [];
  const side = sideOf(words);
  const verb = verbOf(words);
  if (!verb)
    return fits([
      ...(side ? [] : teams()),
      ...setup.verbs.filter((one) => one.team === Boolean(side)).map((one) => one.words),
    ]);
  return afterVerb(verb, words, side, fits, typed);
}

function afterVerb(verb, words, side, fits, typed) {
  const last = words.at(-1);
  const numbers = side ? players(side).map((one) => one.number) : [];
  const wantsNumber =
    isVerb(last) || ["from", "served", "by"].includes(last) || (words.includes("from") && /^\d+$/.test(last));
  if (verb === "penalty" && isVerb(words.at(-2)) && !/^bench$/.test(last)) return fits(setup.parts);
  if (wantsNumber && verb !== "bench minor") return [...fits(numbers), ...fits(setup.options)];
  if (verb.startsWith("penalty") || verb === "bench minor")
    return typed ? [...fits(setup.infractions), ...fits(setup.options)] : setup.infractions.slice(0, MOST);
  return typed ? fits(setup.options) : fits(usual(verb));
}

const usual = (verb) =>
  ({
    goal: ["from", "unassisted", "empty net"],
    stop: ["offside", "icing", "puck out of play"],
    goalie: ["out"],
    door: ["open"],
  })[verb] ?? [];

const teams = () =>
  ["home", "away", ...Object.values(setup.teams).flatMap((team) => team.called.slice(2))].filter(
    (name) => name && !name.includes(" "),
  );

function sideOf(words) {
  return (
    ["home", "away"].find((side) => setup.teams[side].called.some((name) => words.includes(name.toLowerCase()))) ?? null
  );
}

const isVerb = (word) =>
  setup.verbs.some((one) => one.words === word || one.short === word || one.words.startsWith(`${word} `)) ||
  word === "pen";

function verbOf(words) {
  for (const word of words) {
    if (word === "pen") return "penalty";
    const verb =
      setup.verbs.find((one) => one.words === word || one.short === word) ??
      setup.verbs.find((one) => one.words.startsWith(`${word} `));
    if (verb && !["h", "a"].includes(word)) return verb.words;
  }
  return null;
}
