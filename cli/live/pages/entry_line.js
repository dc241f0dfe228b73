// The line for short entries: typed, completed, previewed, written with Enter.

import { completions } from "./completion.js";
import { Draft } from "./draft.js";
import { find, make, own } from "./dom.js";

const input = () => find("#entry");
let draft = null;
let chosen = -1;
let offered = [];

export function startLine({ onWritten }) {
  draft = new Draft(find("#line-draft"), {
    onOffer: setLine,
    onWritten: (answer, text) => written(answer, text, onWritten),
  });
  input().addEventListener("input", changed);
  input().addEventListener("focus", offer);
  input().addEventListener("blur", hide);
  input().addEventListener("keydown", pressed);
  find("#line").addEventListener("submit", (event) => {
    event.preventDefault();
    hide();
    draft.set(input().value);
    draft.write();
  });
}

/** The line is empty again and the single keys count, unless somebody typed on meanwhile. */
function written(answer, text, onWritten) {
  if (input().value.trim() === text) {
    setLine("");
    input().blur();
  }
  onWritten(answer);
}

export function setLine(text) {
  input().value = text;
  draft.set(text);
  makeRoom();
  hide();
}

/** While a line is typed its preview stands where the keys were. */
function makeRoom() {
  find("#keys").classList.toggle("aside", input().value.trim() !== "");
}

export function focusLine(text = null) {
  if (text !== null) {
    input().value = text;
    changed();
  }
  input().focus();
  input().setSelectionRange(input().value.length, input().value.length);
}

function changed() {
  draft.set(input().value);
  makeRoom();
  offer();
}

function offer() {
  offered = completions(input().value);
  chosen = -1;
  const list = find("#completions");
  list.hidden = !offered.length;
  input().setAttribute("aria-expanded", String(offered.length > 0));
  list.replaceChildren(
    ...offered.map((one, at) =>
      make(
        "li",
        {
          role: "option",
          id: `completion-${at}`,
          "aria-selected": "false",
          onpointerdown: (event) => (event.preventDefault(), accept(at)),
        },
        own(one.shown),
        make("kbd", { "aria-hidden": "true" }, "Tab"),
      ),
    ),
  );
  mark();
}

function hide() {
  offered = [];
  chosen = -1;
  find("#completions").hidden = true;
  input().setAttribute("aria-expanded", "false");
  input().removeAttribute("aria-activedescendant");
}

function accept(at) {
  const one = offered[at];
  if (one) focusLine(one.line);
}

function mark() {
  find("#completions")
    .querySelectorAll("li")
    .forEach((item, at) => item.setAttribute("aria-selected", String(at === chosen)));
  if (chosen < 0) input().removeAttribute("aria-activedescendant");
  else input().setAttribute("aria-activedescendant", `completion-${chosen}`);
}

/** Escape takes away what is offered, then the keyboard; what was typed stays. */
function stepBack() {
  if (input().value && offered.length) hide();
  else input().blur();
}

/** A figure that is pressed anywhere begins the line, or goes on with what stands in it. */
export const typeOn = (figure) => focusLine(input().value + figure);

/** Arrows choose among what is offered; Tab takes it, where something has been begun. */
function pressed(event) {
  if (event.key === "Escape") return stepBack();
  if (!offered.length) return;
  if (event.key === "ArrowDown" || event.key === "ArrowUp") {
    event.preventDefault();
    chosen = (chosen + (event.key === "ArrowDown" ? 1 : -1) + offered.length) % offered.length;
    mark();
  } else if (event.key === "Tab" && !event.shiftKey && (chosen >= 0 || /\S$/.test(input().value))) {
    event.preventDefault();
    accept(Math.max(chosen, 0));
  } else if (event.key === "Enter" && chosen >= 0) {
    event.preventDefault();
    accept(chosen);
  }
}
