// A form over the keys: filled in by thumb or by keyboard, it makes one entry, previewed as it grows.

import { Draft } from "./draft.js";
import { find, letGo, make } from "./dom.js";
import { FORMS } from "./form_kinds.js";
import { onSetup } from "./setup.js";

let open = null;

export const isOpen = () => open !== null;

/**
 * Opens the form `name` in the place of the keys; `one` is what it is about, `kind` another kind than that of the name, and
 * `start` the values of its fields. `byTouch`: no keyboard on the screen yet.
 */
export function openForm(name, { one = null, kind = FORMS[name], start = null, byTouch = false, onWritten }) {
  closeForm(false);
  const place = make("div", { class: "draft", "aria-live": "polite" });
  const draft = new Draft(place, {
    onOffer: (text) => (form.chosen = text),
    onWritten: (answer) => (closeForm(), onWritten(answer)),
  });
  const form = { draft, kind, one, chosen: null, opener: byTouch ? null : document.activeElement };
  const fields = kind.fields(
    () => changed(form),
    () => valueOf(form, "side"),
    one,
  );
  Object.assign(form, { fields, all: fields.flatMap((field) => [...(field.inside ?? []), field]) });
  if (start) fill(form, start);
  form.element = build(form, name, place);
  open = form;
  find("#form").replaceChildren(form.element);
  makeRoom(true);
  (byTouch ? find("h2", form.element) : fields[0]).focus();
  changed(form);
}

export function closeForm(refocus = true) {
  if (!open) return;
  const was = open;
  open = null;
  was.draft.end();
  find("#form").replaceChildren();
  makeRoom(false);
  if (refocus && was.opener?.isConnected) was.opener.focus();
}

/** While a form is open it stands where the line and the keys were, and before and after its beginning is in view. */
function makeRoom(isOpen) {
  for (const place of ["#line", "#keys", "#line-draft"]) find(place)?.toggleAttribute("hidden", isOpen);
  document.body.classList.toggle("filling", isOpen);
  toTheTop();
}

/** Scrolls what is entered back to its beginning: the line and the buttons of the shots. */
export function toTheTop() {
  for (const place of [".middle", ".work"]) find(place)?.scrollTo(0, 0);
}

function build(form, name, place) {
  const submit = make("button", { class: "main", type: "submit" }, "Write it", make("kbd", null, "Enter"));
  const close = make(
    "button",
    { class: "quiet", type: "button", onclick: () => closeForm() },
    "Close ",
    make("kbd", null, "Esc"),
  );
  const title = make(
    "h2",
    { id: "form-title", tabindex: "-1" },
    form.one?.seq ? `${form.kind.title}: #${form.one.seq}` : form.kind.title,
  );
  const element = make(
    "form",
    {
      class: form.kind.corrects ? "form correcting" : "form",
      "aria-labelledby": "form-title",
      "data-form": name,
      novalidate: true,
    },
    make("header", null, title, close),
    make(
      "div",
      { class: "fields" },
      form.fields.map((field) => field.element),
    ),
    make("footer", null, place, unfolding(place), submit),
  );
  element.addEventListener("submit", (event) => {
    event.preventDefault();
    write(form);
  });
  element.addEventListener("input", () => {
    form.chosen = null;
    changed(form);
  });
  element.addEventListener("keydown", (event) => pressed(form, event));
  element.addEventListener("click", letGo);
  return element;
}

/** Where there is little room the preview is one line, until all of it is asked for. */
function unfolding(place) {
  const turn = ({ currentTarget: button }) => {
    const isOpen = place.parentElement.classList.toggle("unfolded");
    button.setAttribute("aria-expanded", String(isOpen));
  };
  return make(
    "button",
    { type: "button", class: "quiet unfold", "aria-expanded": "false", onclick: turn },
    "all of it",
  );
}

/** What has to be typed is asked for where it is missing, and nothing is sent. */
function write(form) {
  const missing = form.chosen ? null : form.all.find((field) => field.isMissing?.());
  if (missing) return void missing.ask();
  const text = textOf(form);
  if (!text && form.kind.corrects) return form.draft.show([make("p", { class: "says" }, "Nothing is changed yet.")]);
  form.draft.set(text);
  form.draft.write();
}

/** Fills the fields in with what is known, and keeps it: what differs later was changed. */
function fill(form, start) {
  for (const field of form.all) field.fill?.(start[field.name] ?? "");
  form.was = valuesOf(form);
}

const valuesOf = (form) => Object.fromEntries(form.all.map((field) => [field.name, field.value()]));
const valueOf = (form, name) => form.all?.find((field) => field.name === name)?.value() ?? "";

function textOf(form) {
  if (form.chosen) return form.chosen;
  return form.kind.entry(valuesOf(form), form.one, form.was) || "";
}

function changed(form) {
  if (!form.all) return;
  const side = valueOf(form, "side");
  if (form.side !== side) for (const field of form.all) field.draw?.();
  form.side = side;
  form.draft.set(isBegun(form) ? textOf(form) : "");
}

/** Nothing is said against a form in which no side is chosen yet, or no reading. */
const isBegun = (form) =>
  form.chosen || form.all.every((field) => !field.isMissing?.() && (field.name !== "side" || field.value() !== ""));

/** Enter writes, from a choice too; H and A choose the side where no text is being typed. */
function pressed(form, event) {
  const { target, key } = event;
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  if (key === "Enter" && target.type === "radio") {
    event.preventDefault();
    write(form);
  } else if (target.type !== "text") {
    chooseByLetter(form, key.toLowerCase(), event);
  }
}

function chooseByLetter(form, letter, event) {
  const at = form.fields.findIndex((field) => field.letters?.has(letter));
  if (at < 0) return;
  event.preventDefault();
  form.fields[at].letters.get(letter)();
  form.chosen = null;
  changed(form);
  form.fields[at + 1]?.focus();
}

onSetup(() => {
  for (const field of open?.all ?? []) field.draw?.();
});
