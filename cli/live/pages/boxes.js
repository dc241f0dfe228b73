// Who sits, until what reading, on what condition. "About" is the page's own count; the board decides.

import { playedNow, secondsUntil, span } from "./clock.js";
import { find, make, own, redraw, say } from "./dom.js";
import { onState, sideName, state } from "./state.js";

const SOON_S = 10;

/** Draws the boxes of `sides`; `action(side, sitting)` may give a button for each who sits. */
export function showBoxes(sides, action = () => null) {
  const draw = () => {
    for (const side of sides) drawBox(side, action);
  };
  onState(draw);
  setInterval(draw, 250);
}

function drawBox(side, action) {
  const place = find(`#${side}-box`);
  const sitting = inOrder(state.box[side]).map((one) => [one, isDue(one), state.in_play]);
  say(find(`#${side}-count`), sitting.length > 1 ? `${sitting.length} sit` : "");
  redraw(place, sitting, () =>
    sitting.length
      ? sitting.map(([one, due]) => card(side, one, due, action))
      : make("li", { class: "nobody" }, "Nobody sits."),
  );
  for (const about of place.querySelectorAll("[data-out]")) redraw(about, aboutText(about.dataset), (text) => text);
}

/** Who may come out next first, and last who waits for something that has no reading. */
const inOrder = (sitting) =>
  [...sitting].sort((one, other) => (soonest(one) === soonest(other) ? 0 : soonest(one) > soonest(other) ? 1 : -1));

function soonest(one) {
  if (one.remaining === "0:00") return -1;
  const [period, played] =
    one.up_played_t === null ? [one.watch_period, one.out_played_t] : [one.up_period, one.up_played_t];
  return played === null ? Infinity : (period ?? state.period.number) * 1e6 + played;
}

/** Whether it is time to look at the board for this reading. */
export function isDue(one) {
  const left = secondsUntil(one.out_played_t, one.watch_period);
  return one.watch !== null && left !== null && left <= SOON_S;
}

function card(side, one, due, action) {
  const kind = ["sitting", due && "due", one.state === "waiting" && "waits"].filter(Boolean).join(" ");
  const [number, name] = called(one);
  return make(
    "li",
    { class: kind },
    make(
      "div",
      { class: "who" },
      number && make("span", { class: "number" }, own(number)),
      make(
        "span",
        { class: "person" },
        name && make("span", { class: "name" }, own(name), " "),
        make("span", { class: "what" }, own(one.what)),
      ),
    ),
    one.standing && make("p", { class: "tag" }, one.standing),
    make("div", { class: "out" }, out(one, due)),
    make("p", {
      class: "about",
      "data-out": one.out_played_t ?? "",
      "data-up": one.up_played_t ?? "",
      "data-period": one.watch_period ?? state.period.number,
    }),
    make("p", { class: "rest" }, own(rest(one))),
    reasons(one),
    action(side, one),
  );
}

/** The number large, the rest of the words beside it: "4", "for 12". */
function called(one) {
  const who = one.who ?? "a team-mate";
  return one.sits && who.startsWith(one.sits) ? [one.sits, who.slice(one.sits.length).trim()] : ["", who];
}

function out(one, due) {
  if (one.watch === null)
    return one.up && one.words.startsWith(`time up at ${one.up}`)
      ? whistle(one)
      : make("span", { class: "words" }, one.words);
  return [
    make("span", { class: "lead" }, due ? "watch for" : "out at"),
    " ",
    make("span", { class: "big" }, one.watch),
    " ",
    make("span", { class: "lead" }, `${one.watch_said ? `${one.watch_said} ` : ""}on the board`),
  ];
}

/** His time is up at a reading, and then a whistle lets him out: "time up at 4:10", "out at the next whistle after". */
function whistle({ up, words }) {
  const [where, ...then] = words.slice(`time up at ${up}`.length).split(", ");
  return [
    make("span", { class: "lead" }, "time up at"),
    " ",
    make("span", { class: "big up" }, up),
    make("span", { class: "lead" }, where),
    " ",
    make("span", { class: "words" }, then.join(", ")),
  ];
}

/** What the large reading does not say: what else lets this person out. */
function rest(one) {
  const other = one.watch !== null && one.how === "when a place opens" && atAWhistle(one);
  return [other, ...one.conditions].filter(Boolean).join("; ");
}

/** A whistle lets nobody out whose time is not over: where it is not known when that is, it is only said that it must be. */
function atAWhistle(one) {
  if (one.remaining === "0:00") return "or at a whistle before";
  return one.up ? `or at a whistle after ${one.up}, when time is up` : "or at a whistle once its time is over";
}

function aboutText({ out, up, period }) {
  const at = out || up;
  const left = at ? secondsUntil(Number(at), Number(period)) : null;
  if (left === null) return [];
  const what = out ? "to go" : "until time is up";
  if (state.clock.check) return ["check the board"];
  return left > 0 ? [`about ${span(left)} ${what}`] : [playedNow() === null ? "" : "about time: the board decides"];
}

function reasons(one) {
  if (!one.because.length || state.role === "door") return null;
  return make(
    "details",
    null,
    make("summary", null, "why"),
    one.because.map((reason) =>
      make("p", { class: "small" }, own(reason.text), make("span", { class: "faint" }, ` ${reason.source}`)),
    ),
  );
}

/**
 * Everybody for whom a door may have opened, as choices: who left at the whistle that was written last, who sits, who left
 * a little before.
 */
export function everybody() {
  const sides = state.side ? [state.side] : ["home", "away"];
  const called = (side, one) => `${sideName(side)} ${one.who ?? "a team-mate"}`;
  const sitting = sides.flatMap((side) => state.box[side].map((one) => ({ side, one, words: called(side, one) })));
  const left = sides.flatMap((side) =>
    state.left[side].map((one) => ({ side, one, words: `${called(side, one)}, left at ${one.at.clock}` })),
  );
  const justNow = left.filter(({ one }) => one.at.clock === state.reading?.clock);
  return [...justNow, ...sitting, ...left.filter((one) => !justNow.includes(one))];
}
