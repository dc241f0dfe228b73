// What is shown of an entry on its way: its effect, what is said against it, what others wrote meanwhile.

import { make, own } from "./dom.js";

/** The answer to a preview; `choose(text)` takes another wording. */
export function previewed(told, choose) {
  if (!told.ok) return problems(told, choose);
  return [
    make("p", { class: "effect" }, own(told.effect)),
    make("p", { class: "small faint" }, `Will be written: `, own(told.understood)),
    ...differing(told.different),
    ...told.warnings.map(warning),
    ...told.hints.map((hint) => make("p", { class: "small" }, "Note: ", own(hint.message), " ", own(hint.fix))),
  ];
}

/** What a correction makes different: before and now side by side, who sits and the score unfolded. */
export function differing(sections = []) {
  const [first, others] = [sections.filter((one) => one.first), sections.filter((one) => !one.first)];
  const count = others.reduce((sum, one) => sum + one.rows.length, 0);
  const unfold = () =>
    make("details", { class: "others" }, make("summary", null, `${count} more`), others.map(twoGames));
  return [...first.map(twoGames), ...(others.length ? [unfold()] : [])];
}

const twoGames = ({ title, rows }) =>
  make(
    "table",
    { class: "two-games" },
    make(
      "thead",
      null,
      make(
        "tr",
        null,
        [title, "before", "now"].map((head) => make("th", { scope: "col" }, head)),
      ),
    ),
    make(
      "tbody",
      null,
      rows.map(([what, ...games]) =>
        make(
          "tr",
          null,
          make("th", { scope: "row" }, own(what)),
          games.map((game) => make("td", null, own(game))),
        ),
      ),
    ),
  );

const warning = (one) =>
  make(
    "p",
    { class: "says" },
    make("b", null, "Look again: "),
    own(one.message),
    make("span", { class: "fix" }, own(one.fix)),
  );

function problems(told, choose) {
  const list = told.problems ?? (told.message ? [{ ...told, offers: [] }] : []);
  return list.map((one) => {
    const offers = one.offers ?? [];
    return make(
      "div",
      { class: "says" },
      make("p", null, own(one.message)),
      offers.length
        ? make(
            "div",
            { class: "offers" },
            "Write: ",
            offers
              .slice(0, 4)
              .map((text) => make("button", { type: "button", onclick: () => choose(text) }, own(text))),
          )
        : one.fix && make("p", { class: "fix" }, own(one.fix)),
    );
  });
}

/** Why it was not written, with what can be done: `choose(text)` another wording, `write()` it all the same, or `drop()` it. */
export function refused(answer, { choose, write, drop }) {
  const anyway = make(
    "div",
    { class: "row" },
    make(
      "button",
      { type: "button", class: "main anyway", onclick: write },
      "Write it anyway",
      make("kbd", null, "Enter"),
    ),
    make("button", { type: "button", onclick: drop }, "Not yet"),
  );
  if (answer.error === "warned")
    return [
      make("p", { class: "effect" }, own(answer.effect ?? "")),
      ...answer.warnings.map(warning),
      anyway,
      ...differing(answer.different),
    ];
  if (answer.error !== "stale") return problems(answer, choose);
  return [meanwhile(answer.since), ...(answer.preview ? previewed(answer.preview, choose) : []), anyway];
}

/** What others wrote since the entry was begun. */
export function meanwhile(entries) {
  if (!entries.length) return null;
  const lines = entries.map((one) =>
    make("li", null, `#${one.seq} `, own(one.said ?? one.text ?? "an entry"), one.by && ` (${one.by})`),
  );
  return make(
    "div",
    { class: "says" },
    make("p", null, make("b", null, "Meanwhile somebody else wrote:")),
    make("ul", null, lines),
  );
}
