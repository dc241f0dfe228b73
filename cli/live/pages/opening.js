// Opening a game, and putting its opening right later: rules, teams, officials, and what is still missing.

import { get, newId, post } from "./api.js";
import { find, make, own } from "./dom.js";
import { aboutGame } from "./opening_game.js";
import { chooseRules } from "./opening_rules.js";
import { teamCard } from "./opening_team.js";

const REST_MS = 400;
const id = newId();
let timer = null;

const told = await get("api/opening");
const header = told.header ?? {};
const rules = chooseRules(told, header, changed);
const game = aboutGame(header, told.today, changed);
const teams = Object.fromEntries(
  ["home", "away"].map((side) => [side, teamCard(find(`#${side}-card`), side, header, told.former ?? [], changed)]),
);

find("#file").textContent = told.file ?? "";
find("#back").hidden = !told.opened;
if (told.opened) {
  find("#opening-title").textContent = "Teams, rules and officials";
  find("#open").textContent = "Write what changed";
  find("#confirmed").checked = true;
}
find("#open").addEventListener("click", open);
find("#confirmed").addEventListener("change", check);
check();

function opening() {
  const kept = header.game ? { game: header.game } : {};
  return {
    ...kept,
    ...rules(),
    ...game(),
    home: teams.home.sheet(),
    away: teams.away.sheet(),
    goalies: { home: teams.home.goalie(), away: teams.away.goalie() },
  };
}

/** What was said against an attempt to open the game is said no more once something is changed. */
function changed() {
  find("#outcome").replaceChildren();
  clearTimeout(timer);
  timer = setTimeout(check, REST_MS);
}

async function check() {
  const told = await post("api/opening/check", opening());
  const confirm = find("#confirmed").checked ? [] : ["a look at the line of rules: is it what your league plays?"];
  const problems = told.problems ?? (told.ok ? [] : [told]);
  const missing = [...confirm, ...(told.missing ?? [])];
  const said = [
    ...problems.map((one) => make("p", { class: "says" }, own(one.message), " ", own(one.fix))),
    ...(told.warnings ?? []).map((one) => make("p", { class: "says" }, own(one.message), " ", own(one.fix))),
  ];
  if (missing.length)
    said.push(
      make(
        "ul",
        { class: "ticks" },
        missing.map((text) => make("li", null, own(text))),
      ),
    );
  find("#checklist").replaceChildren(
    ...(said.length ? said : [make("p", null, "Nothing. The game can begin.")]),
    make("p", { class: "small faint" }, "None of this stops the game; it can come later."),
  );
}

async function open() {
  const answer = await post("api/opening/open", { ...opening(), id });
  if (answer.ok) return void location.assign("./");
  const problems = answer.problems ?? [answer];
  find("#outcome").replaceChildren(
    ...problems.map((one) => make("span", { class: "says" }, own(one.message), " ", own(one.fix ?? ""))),
  );
}
