// A text field with things to touch below it: jersey numbers, infractions, reasons.

import { fresh, make, own } from "./dom.js";
import { players, setup } from "./setup.js";

const MOST = 12; // of a long list, the commonest

/**
 * `options()` gives `{value, words?, title?}`; `many` joins what is touched; `narrow` shows only what fits the text, and
 * takes the beginning of a word for the one option that it fits.
 */
export function pick(
  name,
  label,
  options,
  { many = false, narrow = false, hint = "", wide = false, numeric = false } = {},
) {
  const id = fresh(name);
  const input = make("input", {
    id,
    autocomplete: "off",
    autocapitalize: "off",
    spellcheck: "false",
    placeholder: hint,
    inputmode: numeric ? "numeric" : null,
  });
  const chips = make("div", { class: "chips" });
  const field = { input, chips, options, many, narrow, most: narrow ? MOST : Infinity, all: false };
  input.addEventListener("input", () => ((field.all = false), draw(field)));
  draw(field);
  const head = make("div", { class: "head" }, make("label", { class: "label", for: id }, label), input);
  return {
    name,
    element: make("div", { class: wide ? "field wide" : "field" }, head, chips),
    draw: () => draw(field),
    value: () => valueOf(field),
    fill: (text) => ((input.value = text), (field.all = true), draw(field)),
    focus: () => input.focus(),
  };
}

/** Jersey numbers of the side that is chosen in the form. */
export function numbers(name, label, sideOf, { who = players, more = [], ...settings } = {}) {
  const list = () => {
    const side = sideOf();
    return [...(side ? who(side).map((one) => ({ value: one.number, title: one.name })) : []), ...more];
  };
  return pick(name, label, list, { numeric: true, ...settings });
}

export const UNKNOWN = { value: "?", words: "? to come" };

export const infractions = () => setup.infractions.map((value) => ({ value }));

const wordsOf = (text) =>
  text
    .trim()
    .split(/[\s,]+/)
    .filter(Boolean);

function draw(field) {
  const fitting = field.options().filter((one) => field.all || fits(field, one));
  const shown = fitting.slice(0, field.most);
  const others = fitting.length - shown.length;
  field.chips.replaceChildren(...shown.map((one) => chip(field, one)), ...(others ? [moreOf(field, others)] : []));
}

/** What was typed narrows the list; what was touched leaves it as it is. */
const fits = ({ narrow, input }, one) => !narrow || one.value.toLowerCase().includes(input.value.trim().toLowerCase());

function chip(field, { value, words, title }) {
  const chosen = field.many ? wordsOf(field.input.value).includes(value) : field.input.value.trim() === value;
  return make(
    "button",
    { type: "button", tabindex: "-1", title, "aria-pressed": String(chosen), onclick: () => touch(field, value) },
    own(words ?? value),
  );
}

function moreOf(field, count) {
  const unfold = () => {
    field.most = Infinity;
    draw(field);
  };
  return make("button", { type: "button", tabindex: "-1", class: "quiet", onclick: unfold }, `${count} more`);
}

function touch(field, value) {
  field.input.value = field.many ? joined(field.input.value, value) : field.input.value === value ? "" : value;
  field.input.dispatchEvent(new Event("input", { bubbles: true }));
  field.all = true;
  draw(field);
}

function joined(text, value) {
  const words = wordsOf(text);
  return (words.includes(value) ? words.filter((one) => one !== value) : [...words, value]).join(" ");
}

function valueOf({ input, narrow, options }) {
  const typed = input.value.trim().replace(/\s+/g, " ");
  return narrow ? (meant(typed.toLowerCase(), options()) ?? typed) : typed;
}

/** The one option that the beginning of a word fits. */
function meant(typed, options) {
  if (!typed) return undefined;
  const begins = options.filter(({ value }) =>
    [value, ...value.split(/[\s-]+/)].some((word) => word.startsWith(typed)),
  );
  return (options.find((one) => one.value === typed) ?? (begins.length === 1 ? begins[0] : undefined))?.value;
}
