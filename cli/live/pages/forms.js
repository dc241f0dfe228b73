// A form over the keys: filled in by thumb or by keyboard, it makes one entry, previewed as it grows.

import { Draft } from "./draft.js";
import { find, letGo, make } from "./dom.js";
import { FORMS } from "./form_kinds.js";
import { onSetup } from "./setup.js";

let open = null;

export const isOpen = () => open !== null;

/** Opens the form `name` in the place of the keys; `one` is the entry that it is about. `byTouch`: no keyboard on the screen yet. */
export function openForm(name, { one = null, byTouch = false, onWritten }) {
  closeForm(false);
  const kind = FORMS[name];
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
  Object.assign(form, { fields, all: fields.flatMap((field) => [field, ...(field.inside ?? [])]) });
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

/** While a form is open it stands where the line and the keys were. */
function makeRoom(isOpen) {
  for (const place of ["#line", "#keys", "#line-draft"]) find(place)?.toggleAttribute("hidden", isOpen);
}

function build(form, name, place) {
  const write = make("button", { class: "main", type: "submit" }, "Write it", make("kbd", null, "Enter"));
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
    { class: "form", "aria-labelledby": "form-title", "data-form": name, novalidate: true },
    make("header", null, title, close),
    make(
      "div",
      { class: "fields" },
      form.fields.map((field) => field.element),
    ),
    make("footer", null, place, write),
  );
  element.addEventListener(
    "submit",
    (event) => (event.preventDefault(), form.draft.set(textOf(form)), form.draft.write()),
  );
  element.addEventListener("input", () => ((form.chosen = null), changed(form)));
  element.addEventListener("keydown", (event) => letters(form, event));
  element.addEventListener("click", letGo);
  return element;
}

const valueOf = (form, name) => form.all?.find((field) => field.name === name)?.value() ?? "";

function textOf(form) {
  if (form.chosen) return form.chosen;
  const values = Object.fromEntries(form.all.map((field) => [field.name, field.value()]));
  return form.kind.entry(values, form.one) || "";
}

function changed(form) {
  if (!form.all) return;
  const side = valueOf(form, "side");
  if (form.side !== side) for (const field of form.all) field.draw?.();
  form.side = side;
  form.draft.set(isBegun(form) ? textOf(form) : "");
}

/** Nothing is said against a form in which no side is chosen yet. */
const isBegun = (form) =>
  form.chosen || !form.all.some((field) => field.name === "side") || valueOf(form, "side") !== "";

/** H and A choose the side where no text is being typed. */
function letters(form, event) {
  if (event.key === "Enter" && event.target.type === "radio")
    return void (event.preventDefault(), form.element.requestSubmit());
  if (
    event.ctrlKey ||
    event.metaKey ||
    event.altKey ||
    (event.target.tagName === "INPUT" && event.target.type === "text")
  )
    return;
  form.fields.forEach((field, at) => {
    const choose = field.letters?.get(event.key.toLowerCase());
    if (!choose) return;
    event.preventDefault();
    choose();
    form.chosen = null;
    changed(form);
    form.fields[at + 1]?.focus();
  });
}

onSetup(() => {
  for (const field of open?.all ?? []) field.draw?.();
});
