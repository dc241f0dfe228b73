// Date, rink and officials.

import { find, make } from "./dom.js";

const ONE = [
  ["date", "Date"],
  ["start", "Start"],
  ["rink", "Rink"],
  ["competition", "Competition"],
];
const OFFICIALS = [
  ["referees", "Referees, by commas", true],
  ["linespersons", "Linespersons, by commas", true],
  ["scorekeeper", "Scorekeeper"],
  ["timekeeper", "Timekeeper"],
  ["penalty_box", "Penalty box, by commas", true],
];

/** Fills in the card; gives a function that tells what stands in it. */
export function aboutGame(header, today, changed) {
  const officials = header.officials ?? {};
  const inputs = new Map();
  const field = (name, label, value) => {
    const input = make("input", { id: `game-${name}`, value: value ?? "", autocomplete: "off", oninput: changed });
    inputs.set(name, input);
    return make("div", { class: "setting" }, make("label", { for: input.id }, label), input);
  };
  const first = ONE.map(([name, label]) => field(name, label, header[name] ?? (name === "date" ? today : "")));
  const people = OFFICIALS.map(([name, label, many]) =>
    field(name, label, many ? (officials[name] ?? []).join(", ") : officials[name]),
  );
  find("#about-game").replaceChildren(...first, ...people);
  return () => {
    const typed = (name) => inputs.get(name).value.trim();
    const told = Object.fromEntries(ONE.map(([name]) => [name, typed(name)]).filter(([, value]) => value));
    const named = OFFICIALS.map(([name, , many]) => [
      name,
      many
        ? typed(name)
            .split(",")
            .map((one) => one.trim())
            .filter(Boolean)
        : typed(name),
    ]);
    const officiating = Object.fromEntries(named.filter(([, value]) => value.length));
    if (!named.some(([, value]) => value.length)) return told;
    return { ...told, officials: { referees: [], linespersons: [], ...officiating } };
  };
}
