// Closing the record: how the game ended, who signs, and the head code to write on the sheet.

import { Draft } from "./draft.js";
import { find, make, redraw } from "./dom.js";
import { choice, text } from "./fields.js";
import { quoted } from "./form_kinds.js";

const OUTCOMES = [
  ["played", "played"],
  ["shortened", "shortened"],
  ["abandoned", "abandoned"],
  ["forfeit", "forfeit"],
];

export function drawClosing(told, onWritten) {
  redraw(find("#closing"), [told.closed, told.head_code], () =>
    told.closed ? closed(told.head_code) : form(onWritten),
  );
}

function closed(code) {
  if (!code) return [make("p", null, "The record is closed. Its lines are not chained, so it has no head code.")];
  return [
    make("p", null, "The record is closed. Write the head code on the sheet:"),
    make("p", { class: "code" }, code),
    make("p", { class: "faint" }, "Later the code tells whether the log is still the one that was signed."),
  ];
}

function form(onWritten) {
  const place = make("div", { class: "draft", "aria-live": "polite" });
  const outcome = choice(
    "outcome",
    "The game was",
    OUTCOMES.map(([value, words]) => ({ value, words })),
    { chosen: "played", whenChanged: () => changed() },
  );
  const fields = [
    outcome,
    text("reason", "Why, if it was not played out"),
    text("signed", "Signed by, names by commas", { wide: true }),
  ];
  const draft = new Draft(place, { onWritten: (answer) => (draft.end(), onWritten(answer)) });
  const changed = () => draft.set(entry(...fields.map((field) => field.value())));
  const submit = (event) => (event.preventDefault(), changed(), draft.write());
  return make(
    "form",
    { class: "form", novalidate: true, oninput: changed, onsubmit: submit },
    make(
      "div",
      { class: "fields" },
      fields.map((field) => field.element),
    ),
    make("footer", null, place, make("button", { type: "submit", class: "main" }, "Close the record")),
  );
}

function entry(outcome, reason, names) {
  const signed = names
    .split(",")
    .map((name) => name.trim())
    .filter(Boolean);
  const by = signed.length === 1 ? quoted(signed[0]) : JSON.stringify(signed);
  return ["close", outcome, quoted(reason), signed.length && `signed ${by}`].filter(Boolean).join(" ");
}
