// Putting an entry right: its own form, filled in with what it says now. What is changed there becomes the correction.

import { get } from "./api.js";
import { find, make, own } from "./dom.js";
import { check, text, words } from "./fields.js";
import { join, PARTS, quoted, FORMS } from "./form_kinds.js";
import { openForm } from "./forms.js";
import { state } from "./state.js";

const OWN_FORM = {
  goal: "goal",
  penalty_assessed: "penalty",
  shot: "shot",
  stoppage: "stop",
  faceoff: "go",
  goalie_change: "goalie",
  timeout: "timeout",
};
const ONLY_TAKEN_BACK = new Set(["void", "amend"]);
const ANNOUNCED = { minor: "2", major: "5", misconduct: "10", game_misconduct: "game", match: "match" };

/** Opens the form for the entry `seq`; the first line is put right where it was filled in. */
export async function openChange({ seq, byTouch, onWritten }) {
  if (seq === 1) return void location.assign("opening");
  const told = await get(`api/entry?seq=${seq}`);
  if (!told.ok) return void find("#last").replaceChildren(make("p", { class: "says" }, own(told.message)));
  openForm("change", { one: told, ...correction(told), byTouch, onWritten });
}

function correction(told) {
  if (ONLY_TAKEN_BACK.has(told.kind)) return { kind: takingBack(told) };
  const name = OWN_FORM[told.kind];
  return name ? { kind: ownForm(name), start: present(told.fields) } : { kind: plainForm(told), start: plain(told) };
}

const reason = () => text("because", "Why", { hint: "misheard", wide: true });
const back = ({ seq }, why) => join("void", seq, quoted(why));
const amended = ({ seq }, changes, why) => changes && join("amend", seq, changes, why && `because ${quoted(why)}`);

function takingBack(told) {
  return {
    title: "Take it back",
    corrects: true,
    fields: () => [words(told.text), reason()],
    entry: (v, one) => back(one, v.because),
  };
}

function ownForm(name) {
  return corrected({
    fields: (changed, sideOf) => FORMS[name].fields(changed, sideOf),
    changes: (v, was, one) => ownChanges(v, was, one.fields),
  });
}

function plainForm(told) {
  return corrected({
    fields: () => [words(told.text), ...Object.keys(told.fields).map((name) => text(name, name.replaceAll("_", " ")))],
    changes: (v, was, one) =>
      Object.keys(one.fields).map((name) => v[name] !== was[name] && `${name} ${plainWord(v[name], one.fields[name])}`),
  });
}

const corrected = ({ fields, changes }) => ({
  title: "Put right",
  corrects: true,
  fields: (changed, sideOf) => [
    ...fields(changed, sideOf),
    reason(),
    check("never", "it never happened: take it back", "never"),
  ],
  entry: (v, one, was) => (v.never ? back(one, v.because) : amended(one, join(changes(v, was, one)), v.because)),
});

// -- what the entry says now, as its form has it

function present(now) {
  const assists = now.assists?.length === 0 ? "unassisted" : now.assists?.join(" ");
  return {
    ...now,
    side: now.team,
    reading: now.clock ? `${now.period} ${now.clock}` : "",
    scorer: now.scorer ?? "?",
    assists,
    own: now.own_goal,
    empty: now.empty_net,
    count: String(now.count ?? 1),
    goalie: now.goalie ?? "out",
    served: now.served_by,
    delayed: now.delayed_call,
    on: now.on_clock === true,
    off: now.on_clock === false,
    shot: now.penalty_shot,
    ...(now.parts ? offender(now) : {}),
  };
}

function offender({ parts, player, staff }) {
  const announced = parts.map((part) => ANNOUNCED[part]).join("+");
  const isBench = parts.includes("bench_minor");
  return { player: isBench ? "bench" : staff ? "staff" : (player ?? "?"), parts: isBench ? PARTS[0] : announced };
}

const plain = ({ fields }) =>
  Object.fromEntries(Object.entries(fields).map(([name, value]) => [name, plainText(value)]));

function plainText(value) {
  if (value === null) return "";
  if (typeof value === "boolean") return value ? "yes" : "no";
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

// -- what was changed, in the words of a correction

function ownChanges(v, was, now) {
  const isNew = (name) => v[name] !== was[name];
  const words = Object.entries(WORDS).map(([name, word]) => name in v && isNew(name) && word(v[name], now));
  return [...words, (isNew("on") || isNew("off")) && `on_clock ${v.on ? "yes" : v.off ? "no" : "?"}`, ...who(v, was)];
}

const told = (name) => (value) => `${name} ${value || "?"}`;
const quotes = (name) => (value) => `${name} ${quoted(value) || "?"}`;
const yesNo = (name) => (value) => `${name} ${value ? "yes" : "no"}`;
const WORDS = {
  side: told("team"),
  reading: when,
  scorer: told("scorer"),
  assists: told("assists"),
  own: yesNo("own_goal"),
  empty: yesNo("empty_net"),
  awarded: yesNo("awarded"),
  count: told("count"),
  goalie: told("goalie"),
  reason: quotes("reason"),
  infraction: quotes("infraction"),
  served: told("served_by"),
  announced: told("announced"),
  delayed: yesNo("delayed_call"),
  shot: yesNo("penalty_shot"),
};

/** A reading with its period, where that is another one. */
function when(reading, now) {
  const [clock, period = now.period ?? state.period.number] = reading.split(/\s+/).reverse();
  return join(String(period) !== String(now.period) && `period ${period}`, `clock ${clock || "?"}`);
}

/** Who was penalized, and for how long: a bench minor has no number, and nobody on the bench has one. */
function who(v, was) {
  const isNew = (name) => v[name] !== was[name];
  const parts = (isNew("parts") || isNew("player")) && v.player !== "bench" && v.parts;
  return [
    isNew("player") && `player ${["bench", "staff"].includes(v.player) ? "?" : v.player || "?"}`,
    isNew("player") && v.player === "bench" && "parts bench minor",
    (isNew("parts") || was.player === "bench") && parts && `parts ${parts}`,
    isNew("player") && was.player === "staff" && "staff ?",
    v.player === "staff" && (isNew("staff") || isNew("player")) && `staff ${quoted(v.staff) || "?"}`,
  ];
}

/** A value as a correction has it: simple words as they are, other texts in quotes. */
function plainWord(typed, now) {
  if (!typed) return "?";
  return typeof now === "object" && now !== null ? typed : /^[\w:.+-]+$/.test(typed) ? typed : quoted(typed);
}
