// Elements made from values. Text is always a text node: nothing that comes from a log is ever read as markup.

export const find = (selector, within = document) => within.querySelector(selector);

export function make(tag, attributes, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value") element.value = value;
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...inside.flat(3).filter((one) => one !== null && one !== undefined && one !== false && one !== ""));
  return element;
}

let counter = 0;

/** An id that nothing on the page has yet. */
export const fresh = (name) => `${name}-${++counter}`;

/** A person's or a team's own words, kept apart from the direction of the text around them. */
export const own = (text) => make("bdi", null, clean(text));

/** Characters that turn the direction of the text around them are shown, not obeyed. */
export const clean = (text) => String(text ?? "").replace(/[\u202a-\u202e\u2066-\u2069]/g, "\ufffd");

const last = new WeakMap();

/** Draws anew only when `value` is another than the last time, so that focus and scrolling stay where they are. */
export function redraw(element, value, draw) {
  if (!element) return;
  const key = JSON.stringify(value);
  if (last.get(element) === key) return;
  last.set(element, key);
  element.replaceChildren(...[draw(value)].flat(3).filter(Boolean));
}

/** Sets text only where it changes: a live region speaks once. */
export function say(element, text) {
  if (element && element.textContent !== text) element.textContent = text;
}

/** After a touch or a click a button gives the keyboard back, so that the space bar does not press it again. */
export function letGo(event) {
  if (event.detail > 0) event.target.closest?.("button")?.blur();
}
