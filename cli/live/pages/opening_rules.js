// The ruleset and where this league differs, with the line that says what will be applied.

import { post } from "./api.js";
import { find, make } from "./dom.js";

/** Fills in the card of the rules; gives a function that tells what was chosen. */
export function chooseRules(told, header, changed) {
  const settings = { ...(header.settings ?? {}) };
  const select = find("#ruleset");
  select.replaceChildren(
    ...(told.rulesets ?? []).map((one) =>
      make("option", { value: one.name, selected: one.name === header.ruleset }, `${one.name}: ${one.title}`),
    ),
  );
  const tell = async (isNew) => {
    const answer = await post("api/opening/rules", { ruleset: select.value, settings });
    find("#settings-problem").textContent = answer.ok
      ? ""
      : (answer.problems ?? [answer]).map((one) => `${one.message} ${one.fix}`).join(" ");
    if (!answer.ok) return;
    find("#applied").textContent = answer.applied;
    if (isNew) draw(answer.settings);
    changed();
  };
  const draw = (list) =>
    find("#settings").replaceChildren(
      ...list.map((one) =>
        setting(one, (value) => {
          if (value === String(one.value)) delete settings[one.name];
          else settings[one.name] = asWritten(value, one.value);
          find("#confirmed").checked = false;
          tell(false);
        }),
      ),
    );
  select.addEventListener("change", () => {
    for (const name of Object.keys(settings)) delete settings[name];
    find("#confirmed").checked = false;
    tell(true);
  });
  tell(true);
  return () => ({ ruleset: select.value, ...(Object.keys(settings).length ? { settings } : {}) });
}

function setting(one, whenChanged) {
  const id = `setting-${one.name}`;
  return make(
    "div",
    { class: "setting" },
    make("label", { for: id }, one.title),
    make("input", {
      id,
      value: String(one.value),
      autocomplete: "off",
      onchange: (event) => whenChanged(event.target.value.trim()),
    }),
  );
}

/** A number stays a number, a choice a choice; everything else is a text, as in a ruleset's file. */
function asWritten(value, usual) {
  if (typeof usual === "number" && /^\d+$/.test(value)) return Number(value);
  if (typeof usual === "boolean") return value === "true" || value === "yes";
  return value;
}
