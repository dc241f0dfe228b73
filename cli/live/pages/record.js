// What was written last, what to look at, and what to read aloud at the horn.

import { get } from "./api.js";
import { find, make, own, redraw } from "./dom.js";
import { onState, state } from "./state.js";

const GRADES = { error: "Cannot be right", warning: "Looks wrong", note: "Note" };

/** `correct(entry)` is asked for when an entry is to be put right; without it there is no button. */
export function showRecord(correct = null) {
  onState((now, before) => {
    redraw(find("#entries"), now.entries, (entries) => entries.map((one) => line(one, correct, before)));
    redraw(find("#looks"), [now.findings, now.missing, now.notice], () => looks(now));
    if (!before || before.horn?.period !== now.horn?.period || (now.horn && before.version !== now.version))
      showHorn(now.horn);
  });
}

function line(one, correct, before) {
  const tags = [one.voided && "taken back", one.amended && "changed later", one.by && `by ${one.by}`]
    .filter(Boolean)
    .join(" · ");
  return make(
    "li",
    { class: before && one.seq > before.version ? "fresh" : null },
    make("span", { class: "seq" }, `#${one.seq}`),
    make(
      "span",
      { class: one.voided ? "voided" : null },
      own(one.said ?? one.text),
      tags && make("span", { class: "tag" }, tags),
      one.note && make("span", { class: "tag" }, "note: ", own(one.note)),
    ),
    correct &&
      !one.voided &&
      one.seq > 1 &&
      make(
        "button",
        { type: "button", class: "quiet", "aria-label": `change entry ${one.seq}`, onclick: () => correct(one) },
        "change",
      ),
  );
}

function looks(now) {
  const findings = now.findings ?? [];
  const missing = now.missing ?? [];
  const parts = now.notice ? [make("p", { class: "says" }, own(now.notice))] : [];
  const count = findings.length + missing.length;
  if (!count) return parts;
  const open = find("#looks details")?.open;
  const items = [
    ...findings.map((one) =>
      make(
        "li",
        null,
        make("span", { class: "grade" }, `${GRADES[one.severity]}: `),
        one.seq && `#${one.seq} `,
        own(one.message),
        " ",
        make("span", { class: "faint" }, own(one.fix)),
      ),
    ),
    ...missing.map((text) => make("li", null, make("span", { class: "grade" }, "Still missing: "), own(text))),
  ];
  return [...parts, make("details", { open }, make("summary", null, `${count} to look at`), make("ul", null, items))];
}

async function showHorn(horn) {
  const place = find("#horn");
  if (!place) return;
  place.hidden = !horn;
  if (!horn) return;
  const told = await get(`api/horn?period=${horn.period}`);
  if (!told.ok) return;
  redraw(place, told, () => [
    make(
      "h2",
      null,
      horn.game_over ? "To read aloud: the game" : `To read aloud: ${told.said} period`,
      horn.game_over && state.role === "write" && make("a", { class: "button", href: "signoff" }, "To the sign-off"),
    ),
    make(
      "div",
      { class: "aloud" },
      told.aloud.map((sentence) => make("p", null, own(sentence))),
    ),
  ]);
}
