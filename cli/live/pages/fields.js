// The fields that forms are made of. Each gives its element, its value as words of an entry, and what to focus.

import { readingNow } from "./clock.js";
import { make, own } from "./dom.js";
import { players, setup } from "./setup.js";
import { sideName, state } from "./state.js";

const MOST = 12; // of a long list, the commonest
let counter = 0;
const fresh = (name) => `${name}-${++counter}`;

function framed(label, ...inside) {
  return make("fieldset", { class: "field" }, make("legend", { class: "label" }, label), inside);
}

/** One of several, by touch, by arrow keys, or by a letter: `choices` are `{value, words, letter?}`. */
export function choice(name, label, choices, { chosen = null, whenChanged = () => {} } = {}) {
  const group = fresh(name);
  const inputs = choices.map((one) => make("input", { type: "radio", name: group, value: one.value, checked: one.value === chosen, onchange: whenChanged }));
  const chips = choices.map((one, at) => make("label", { class: "chip" }, inputs[at], make("span", null, own(one.words), one.letter && make("kbd", null, one.letter))));
  const set = (value) => {
    const input = inputs.find((one) => one.value === value);
    if (input) Object.assign(input, { checked: true }).focus();
    whenChanged();
  };
  const letters = new Map(choices.filter((one) => one.letter).map((one) => [one.letter.toLowerCase(), () => set(one.value)]));
  return { name, element: framed(label, make("div", { class: "chips" }, chips)), letters,
    value: () => inputs.find((one) => one.checked)?.value ?? "", focus: () => (inputs.find((one) => one.checked) ?? inputs[0])?.focus() };
}

export function side(whenChanged, chosen = null) {
  const choices = ["home", "away"].map((one) => ({ value: one, words: `${sideName(one)} ${state.teams[one].short ?? ""}`.trim(), letter: one[0].toUpperCase() }));
  return choice("side", "Side", choices, { chosen, whenChanged });
}

/** A text field with things to touch below it; `many` joins what is touched, `narrow` shows only what fits the text. */
export function pick(name, label, options, { many = false, narrow = false, hint = "", wide = false, numeric = false, start = "" } = {}) {
  const id = fresh(name);
  const input = make("input", { id, autocomplete: "off", autocapitalize: "off", spellcheck: "false", inputmode: numeric ? "numeric" : null, placeholder: hint, value: start });
  const chips = make("div", { class: "chips" });
  const words = () => input.value.trim().split(/[\s,]+/).filter(Boolean);
  const touched = (value) => {
    const now = words();
    const on = now.includes(value);
    input.value = many ? (on ? now.filter((one) => one !== value) : [...now, value]).join(" ") : input.value === value ? "" : value;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    if (narrow) draw(false);
  };
  let most = MOST;
  const draw = (narrowed = narrow) => {
    const typed = input.value.trim().toLowerCase();
    const fitting = options().filter((one) => !narrowed || !typed || one.value.toLowerCase().includes(typed));
    const shown = narrow ? fitting.slice(0, most) : fitting;
    const others = fitting.length - shown.length;
    const all = others > 0 && make("button", { type: "button", tabindex: "-1", class: "quiet", onclick: () => ((most = Infinity), draw(narrowed)) }, `${others} more`);
    chips.replaceChildren(...shown.map((one) => make("button", { type: "button", tabindex: "-1", title: one.title ?? null, onclick: () => touched(one.value),
      "aria-pressed": String(many ? words().includes(one.value) : input.value.trim() === one.value) }, own(one.words ?? one.value))), all || "");
  };
  input.addEventListener("input", () => draw());
  draw();
  const element = make("div", { class: wide ? "field wide" : "field" }, make("div", { class: "head" }, make("label", { class: "label", for: id }, label), input), chips);
  const value = () => (narrow && meant(input.value.trim(), options())) || input.value.trim().replace(/\s+/g, " ");
  return { name, element, draw: () => draw(false), value, focus: () => input.focus() };
}

/** The one option that the beginning of a word fits. */
function meant(typed, options) {
  const begins = options.filter((one) => typed && one.value.split(/[\s-]+/).concat(one.value).some((word) => word.startsWith(typed.toLowerCase())));
  return (options.find((one) => one.value === typed.toLowerCase()) ?? (begins.length === 1 ? begins[0] : null))?.value;
}

/** Jersey numbers of the side that is chosen in the form. */
export function numbers(name, label, sideOf, options = {}) {
  const who = options.who ?? players;
  const list = () => {
    const chosen = sideOf();
    const roster = chosen ? who(chosen).map((one) => ({ value: one.number, title: one.name })) : [];
    return [...roster, ...(options.more ?? [])];
  };
  return pick(name, label, list, { numeric: true, ...options });
}

export const UNKNOWN = { value: "?", words: "? to come" };

export const infractions = () => setup.infractions.map((value) => ({ value }));

/** The reading that will be written; it can always be changed. */
export function reading(start = likelyReading(), label = "Reading on the board") {
  const id = fresh("reading");
  const input = make("input", { id, class: "reading", inputmode: "decimal", autocomplete: "off", value: start, onfocus: (event) => event.target.select() });
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
  const next = state.next ?? { period: state.period.number + 1, clock: state.counts === "down" ? state.period.length : "0:00" };
  return `${next.period} ${next.clock}`;
}

export function check(name, label, words) {
  const input = make("input", { type: "checkbox", id: fresh(`check-${name}`) });
  return { name, element: make("label", { class: "check" }, input, label), value: () => (input.checked ? words : ""), focus: () => input.focus() };
}

export function text(name, label, { hint = "", numeric = false, start = "", wide = false } = {}) {
  const id = fresh(name);
  const input = make("input", { id, autocomplete: "off", placeholder: hint, inputmode: numeric ? "numeric" : null, value: start });
  return { name, element: make("div", { class: wide ? "field wide" : "field" }, make("label", { class: "label", for: id }, label), input), value: () => input.value.trim(), focus: () => input.focus() };
}

/** Several fields behind a word, for what is seldom needed. */
export function seldom(label, fields) {
  return { name: "seldom", element: make("details", { class: "field" }, make("summary", null, label), make("div", { class: "fields" }, fields.map((one) => one.element))), inside: fields, value: () => "", focus: () => {} };
}
