// The fields that forms are made of. Each gives its element, its value as words of an entry, and what to focus.

import { readingNow } from "./clock.js";
import { fresh, make, own } from "./dom.js";
import { sideName, state } from "./state.js";

function framed(label, ...inside) {
  return make("fieldset", { class: "field" }, make("legend", { class: "label" }, label), inside);
}

/** One of several, by touch, by arrow keys, or by a letter: `choices` are `{value, words, letter?}`. */
export function choice(name, label, choices, { chosen = null, whenChanged = () => {} } = {}) {
  const group = fresh(name);
  const inputs = choices.map((one) =>
    make("input", {
      type: "radio",
      name: group,
      value: one.value,
      checked: one.value === chosen,
      onchange: whenChanged,
    }),
  );
  const chips = choices.map((one, at) =>
    make(
      "label",
      { class: "chip" },
      inputs[at],
      make("span", null, own(one.words), one.letter && make("kbd", null, one.letter)),
    ),
  );
  const set = (value) => {
    const input = inputs.find((one) => one.value === value);
    if (input) Object.assign(input, { checked: true }).focus();
    whenChanged();
  };
  const letters = new Map(
    choices.filter((one) => one.letter).map((one) => [one.letter.toLowerCase(), () => set(one.value)]),
  );
  return {
    name,
    element: framed(label, make("div", { class: "chips" }, chips)),
    letters,
    value: () => inputs.find((one) => one.checked)?.value ?? "",
    focus: () => (inputs.find((one) => one.checked) ?? inputs[0])?.focus(),
  };
}

export function side(whenChanged, chosen = null) {
  const choices = ["home", "away"].map((one) => ({
    value: one,
    words: `${sideName(one)} ${state.teams[one].short ?? ""}`.trim(),
    letter: one[0].toUpperCase(),
  }));
  return choice("side", "Side", choices, { chosen, whenChanged });
}

/** The reading that will be written; it can always be changed. */
export function reading(start = likelyReading(), label = "Reading on the board") {
  const id = fresh("reading");
  const input = make("input", {
    id,
    class: "reading",
    inputmode: "decimal",
    autocomplete: "off",
    value: start,
    onfocus: (event) => event.target.select(),
  });
  const element = make("div", { class: "field" }, make("label", { class: "label", for: id }, label), input);
  return { name: "reading", element, value: () => input.value.trim(), focus: () => input.focus() };
}

/** While play is stopped the board stands where the last entry was; else where the page's copy supposes it. */
export function likelyReading() {
  if (state.ended && !state.over) return nextPeriod();
  if (!state.in_play && state.reading) return state.reading.clock;
  return readingNow() ?? state.reading?.clock ?? "";
}

function nextPeriod() {
  const next = state.next ?? {
    period: state.period.number + 1,
    clock: state.counts === "down" ? state.period.length : "0:00",
  };
  return `${next.period} ${next.clock}`;
}

export function check(name, label, words) {
  const input = make("input", { type: "checkbox", id: fresh(`check-${name}`) });
  return {
    name,
    element: make("label", { class: "check" }, input, label),
    value: () => (input.checked ? words : ""),
    focus: () => input.focus(),
  };
}

export function text(name, label, { hint = "", numeric = false, start = "", wide = false } = {}) {
  const id = fresh(name);
  const input = make("input", {
    id,
    autocomplete: "off",
    placeholder: hint,
    inputmode: numeric ? "numeric" : null,
    value: start,
  });
  return {
    name,
    element: make(
      "div",
      { class: wide ? "field wide" : "field" },
      make("label", { class: "label", for: id }, label),
      input,
    ),
    value: () => input.value.trim(),
    focus: () => input.focus(),
  };
}

/** Several fields behind a word, for what is seldom needed. */
export function seldom(label, fields) {
  return {
    name: "seldom",
    element: make(
      "details",
      { class: "field" },
      make("summary", null, label),
      make(
        "div",
        { class: "fields" },
        fields.map((one) => one.element),
      ),
    ),
    inside: fields,
    value: () => "",
    focus: () => {},
  };
}
