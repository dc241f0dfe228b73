// The roster of one team while the game is opened: pasted or typed, put right by touch, and who starts in net.

import { post } from "./api.js";
import { find, make, own } from "./dom.js";

const NOT_THERE = ["absent", "suspended"];

/** Puts the pasted lines on the roster; what was not understood stays in the field. */
export async function readRoster(view, team) {
  const told = await post("api/opening/roster", { text: view.paste.value });
  const problems = told.problems ?? (told.ok ? [] : [told]);
  view.problems.replaceChildren(...problems.map(problem));
  if (!told.ok) return;
  const again = new Set(told.players.map((one) => one.number));
  team.roster = [...team.roster.filter((one) => !again.has(one.number)), ...told.players];
  view.paste.value = problems.map((one) => one.text).join("\n");
}

const problem = (one) =>
  make("p", { class: "says" }, one.line && `Line ${one.line}: `, own(one.message), " ", own(one.fix));

/** Draws the players, those who may start in net, and how many there are. */
export function drawRoster(view, team, changed) {
  view.rows.replaceChildren(...team.roster.map((player) => row(view, team, player, changed)));
  drawGoalies(view, team);
  const playing = team.roster.filter((one) => (one.status ?? "playing") === "playing").length;
  view.count.textContent = team.roster.length ? `${team.roster.length} on the roster, ${playing} playing` : "";
}

function row(view, team, player, changed) {
  const toggle = (field, value, words) => toggleFor(view, player, { field, value, words }, changed);
  const off = () => {
    team.roster.splice(team.roster.indexOf(player), 1);
    changed();
  };
  return make(
    "li",
    { "data-player": player.number, class: NOT_THERE.includes(player.status) ? "out" : null },
    make("span", { class: "number num" }, own(player.number)),
    make("span", { class: "called" }, own(player.name)),
    make(
      "span",
      { class: "toggles" },
      toggle("position", "goalkeeper", "goalie"),
      toggle("letter", "C", "C"),
      toggle("letter", "A", "A"),
      toggle("status", "absent", "scratched"),
      toggle("status", "suspended", "suspended"),
      make(
        "button",
        { type: "button", class: "quiet", "aria-label": `Take ${player.number} off the roster`, onclick: off },
        "off",
      ),
    ),
  );
}

/** One touch sets the field, another one clears it. */
function toggleFor(view, player, { field, value, words }, changed) {
  const set = () => {
    if (player[field] === value) delete player[field];
    else player[field] = value;
    changed();
    find(`[data-player="${CSS.escape(player.number)}"] [data-set="${value}"]`, view.rows)?.focus();
  };
  return make(
    "button",
    {
      type: "button",
      "data-set": value,
      "aria-pressed": String(player[field] === value),
      "aria-label": `${player.number} ${words}`,
      onclick: set,
    },
    words,
  );
}

function drawGoalies(view, team) {
  const able = team.roster.filter((one) => !NOT_THERE.includes(one.status));
  const goalkeepers = able.filter((one) => one.position === "goalkeeper");
  const choices = (goalkeepers.length ? goalkeepers : able).map((one) =>
    make(
      "option",
      { value: one.number, selected: one.number === team.goalie },
      [one.number, one.name].filter(Boolean).join(" "),
    ),
  );
  view.goalie.replaceChildren(make("option", { value: "" }, "not known yet"), ...choices);
}
