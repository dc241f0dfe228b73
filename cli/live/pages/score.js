// Score, shots, period, reading and strength: drawn in the parts of the page that are made for them.

import { ago, readingNow, setAgo } from "./clock.js";
import { find, make, own, redraw, say } from "./dom.js";
import { onState, sideName, state } from "./state.js";

export function showScore() {
  onState((now) => {
    for (const side of ["home", "away"]) drawTeam(side, now);
    redraw(find("#period"), [now.period.said, now.ended, now.over, now.closed, now.in_play], drawPeriod);
    say(find("#reading"), now.reading?.clock ?? "–");
    redraw(find("#strength"), now.over ? null : now.strength, drawStrength);
    find(".copy")?.toggleAttribute("hidden", now.over);
    showColours(now);
  });
  setInterval(tick, 250);
  onState(tick);
}

function drawTeam(side, now) {
  const team = now.teams[side];
  redraw(find(`#${side}-name`), team.name, () => [
    make("span", { class: `mark ${side}`, "aria-hidden": "true" }),
    own(team.name),
  ]);
  say(find(`#${side}-score`), String(now.score[side]));
  const shots = now.shots[side];
  const total = shots.reduce((sum, one) => sum + one, 0);
  const colour = team.colour ? ` · ${team.colour}` : "";
  redraw(find(`#${side}-more`), [side, colour, total, shots], () => [
    sideName(side),
    make("span", { class: "colour" }, own(colour)),
    ` · ${total} ${total === 1 ? "shot" : "shots"}`,
  ]);
}

function drawPeriod([said, ended, over, closed, inPlay]) {
  if (closed) return [make("b", null, "closed")];
  if (over) return [make("b", null, "game over")];
  const regular = said === "OT" || said.startsWith("OT") ? said : `${said} period`;
  return [
    make("b", null, regular),
    " ",
    make("span", { class: "faint" }, ended ? "has ended" : inPlay ? "in play" : "stopped"),
  ];
}

function drawStrength(strength) {
  if (!strength) return [];
  const nets = ["home", "away"]
    .filter((side) => strength[`${side}_goalie`] === null)
    .map((side) => `${side} net empty`);
  const more = [...nets, strength.supposed && "when play resumes"].filter(Boolean).join(" · ");
  return [strength.words, more && make("span", { class: "more" }, ` ${more}`)];
}

/** Colours of jerseys are words that people typed: only those that the browser knows as colours are shown. */
function showColours(now) {
  for (const side of ["home", "away"]) {
    const colour = now.teams[side].colour?.toLowerCase().replace(/\s+/g, "") ?? "";
    const known =
      /^[a-z]+$/.test(colour) && CSS.supports("color", colour) && colour !== "currentcolor" ? colour : "transparent";
    document.documentElement.style.setProperty(`--${side}`, known);
  }
}

function tick() {
  const place = find("#about");
  if (!place || !state) return;
  const reading = readingNow();
  if (reading === null)
    return redraw(place, ["unset", state.role], () => (state.role === "write" ? ["this page's clock: not set"] : []));
  const { check } = state.clock;
  redraw(place, [reading, check, ago(setAgo())], ([shown, wrong, when]) => [
    "about ",
    make("b", null, shown),
    ` · set ${when}`,
    wrong && make("span", { class: "look" }, " · check the board"),
  ]);
}
