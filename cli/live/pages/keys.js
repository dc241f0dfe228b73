// Single keys and the buttons that show them: one table, so that both always do the same.

import { connected } from "./connection.js";
import { find, letGo, make } from "./dom.js";
import { typeOn } from "./entry_line.js";
import { closeForm, isOpen } from "./forms.js";

export const KEYS = [
  { key: "h", words: "Shot home", kind: "shot" },
  { key: "g", words: "Goal", kind: "often" },
  { key: "p", words: "Penalty", kind: "often" },
  { key: "s", words: "Stop", kind: "often" },
  { key: "f", words: "Go: faceoff", kind: "often" },
  { key: "a", words: "Shot away", kind: "shot" },
  { key: "k", words: "Goalie" },
  { key: "t", words: "Time-out" },
  { key: "d", words: "Door opened" },
  { key: "l", words: "Left early" },
  { key: "n", words: "Shot, number" },
  { key: "e", words: "End period" },
  { key: "m", words: "More" },
  { key: "u", words: "Undo" },
];
const STORE = "rinkfold.single-keys";
const actions = new Map();

export const singleKeys = () => localStorage.getItem(STORE) !== "off";
export const setSingleKeys = (on) => localStorage.setItem(STORE, on ? "on" : "off");

/** Draws the buttons; `act(key, byTouch)` does what they say. `others` are further keys with what they do. */
export function startKeys(act, others) {
  for (const { key } of KEYS) actions.set(key, () => act(key, false));
  for (const [key, action] of Object.entries(others)) actions.set(key, action);
  find("#keys").replaceChildren(...KEYS.map((one) => button(one, act)));
  find("#keys").addEventListener("click", letGo);
  document.addEventListener("keydown", pressed);
}

function button({ key, words, kind }, act) {
  return make(
    "button",
    {
      type: "button",
      class: kind ?? null,
      "aria-keyshortcuts": key,
      "data-key": key,
      onclick: (event) => connected && act(key, event.detail > 0),
    },
    mark(key),
    words,
    make("kbd", null, key.toUpperCase()),
  );
}

const mark = (key) =>
  ({
    h: make("span", { class: "mark", "aria-hidden": "true" }),
    a: make("span", { class: "mark away", "aria-hidden": "true" }),
  })[key] ?? null;

function pressed(event) {
  if (event.key === "Escape" && isOpen()) return void closeForm();
  if (event.defaultPrevented || event.repeat || event.ctrlKey || event.metaKey || event.altKey || find("dialog[open]"))
    return;
  if (isOpen() || isTyping(event.target) || !singleKeys()) return;
  if (event.key === " " && event.target.closest("button, a, summary, [tabindex]")) return;
  const action = /^\d$/.test(event.key) ? () => typeOn(event.key) : actions.get(event.key.toLowerCase());
  if (!action || !connected) return;
  event.preventDefault();
  action();
}

const isTyping = (target) => target.closest?.("input, textarea, select, [contenteditable]");
