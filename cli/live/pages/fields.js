// The fields that forms are made of. Each gives its element, its value as words of an entry, and what to focus.

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
    fill: (value) => inputs.forEach((one) => (one.checked = one.value === value)),
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

/** The reading that will be written, begun with `start`; unless it is `optional`, it is asked for where it is missing. */
export function reading(start, { label = "Reading on the board", optional = false } = {}) {
  const id = fresh("reading");
  const ask = make("p", { class: "says", role: "alert", hidden: true }, "Type what the board shows.");
  const input = make("input", {
    id,
    class: "reading",
    inputmode: "decimal",
    autocomplete: "off",
    value: start,
    onfocus: (event) => event.target.select(),
    oninput: () => (ask.hidden = true),
  });
  const value = () => input.value.trim();
  return {
    name: "reading",
    element: make("div", { class: "field" }, make("label", { class: "label", for: id }, label), input, ask),
    value,
    fill: (text) => (input.value = text),
    isMissing: () => !optional && !value(),
    focus: () => input.focus(),
    ask: () => ((ask.hidden = false), input.focus()),
  };
}

export function check(name, label, words) {
  const input = make("input", { type: "checkbox", id: fresh(`check-${name}`) });
  return {
    name,
    element: make("label", { class: "check" }, input, label),
    value: () => (input.checked ? words : ""),
    fill: (isSo) => (input.checked = Boolean(isSo)),
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
    fill: (text) => (input.value = text),
    focus: () => input.focus(),
  };
}

/** Words that stand in a form. */
export function words(text) {
  const nothing = () => {};
  return { name: "words", element: make("p", { class: "field wide" }, own(text)), value: () => "", focus: nothing };
}

/** Several fields behind a word, for what is seldom needed. */
export function seldom(label, fields) {
  const element = make(
    "details",
    { class: "field" },
    make("summary", null, label),
    make(
      "div",
      { class: "fields" },
      fields.map((one) => one.element),
    ),
  );
  return {
    name: "seldom",
    element,
    inside: fields,
    fill: () => (element.open = fields.some((one) => one.value() !== "")),
    value: () => "",
    focus: () => {},
  };
}
