// One team's card: what it is called, who is on its roster, who is scratched or suspended, who starts in net.

import { post } from "./api.js";
import { find, make, own } from "./dom.js";

const COLOURS = ["white", "black", "red", "blue", "green", "gold", "orange", "purple", "grey"];

/** Fills in the card; gives `{sheet(), goalie()}`. */
export function teamCard(card, side, header, former, changed) {
  const known = header[side] ?? {};
  const team = { roster: [...(known.roster ?? [])], staff: [...(known.staff ?? [])], goalie: header.goalies?.[side] ?? null };
  const view = build(card, side, known, former);
  const draw = () => (drawRoster(view, team, () => (draw(), changed())), drawGoalies(view, team), drawCount(view, team));
  wire(view, team, () => (draw(), changed()), changed);
  view.staff.value = team.staff.map((one) => [one.name, one.role, one.credential].filter(Boolean).join(", ")).join("\n");
  draw();
  return { goalie: () => view.goalie.value || null, sheet: () => sheet(view, team) };
}

function sheet(view, team) {
  const typed = { name: view.name.value.trim(), short: view.short.value.trim(), colour: view.colour.value.trim() };
  const staff = view.staff.value.split("\n").map((line) => line.split(",").map((part) => part.trim())).filter(([name]) => name)
    .map(([name, role, credential]) => ({ name, role: role || "coach", ...(credential ? { credential } : {}) }));
  const told = Object.fromEntries(Object.entries(typed).filter(([, value]) => value));
  return { name: "", ...told, ...(team.roster.length ? { roster: team.roster } : {}), ...(staff.length ? { staff } : {}) };
}

function build(card, side, known, former) {
  const view = {};
  const field = (name, label, attributes = {}) => {
    view[name] = make(attributes.tag ?? "input", { id: `${side}-${name}`, autocomplete: "off", ...attributes, tag: null });
    return make("div", { class: "setting" }, make("label", { for: `${side}-${name}` }, label), view[name]);
  };
  const colours = COLOURS.map((colour) => {
    const swatch = make("span", { class: "swatch", "aria-hidden": "true" });
    swatch.style.background = colour;
    return make("button", { type: "button", "data-colour": colour }, swatch, colour);
  });
  view.colours = make("div", { class: "chips" }, colours);
  view.rows = make("ul", { class: "rows" });
  view.count = make("p", { class: "faint" });
  view.problems = make("div", { role: "status" });
  const choices = former.map((one, at) => make("option", { value: String(at) }, `${one.team}, ${one.date ?? one.file} (${one.players})`));
  view.formerList = former;
  card.replaceChildren(
    make("h2", null, make("span", { class: `mark ${side}`, "aria-hidden": "true" }), ` ${side === "home" ? "Home" : "Away"}`),
    make("div", { class: "pair" }, field("name", "Team", { value: known.name ?? "" }), field("short", "Short name", { value: known.short ?? "", maxlength: 12 })), field("colour", "Jerseys", { value: known.colour ?? "" }), view.colours,
    former.length ? field("former", "Roster of a former game", { tag: "select" }) : "",
    field("paste", "Roster: paste or type, a player a line", { tag: "textarea", rows: 3, placeholder: "12 Pia Holm C\n31 Wren Castle goalie" }),
    make("p", { class: "row" }, view.read = make("button", { type: "button" }, "Put on the roster"), view.count), view.problems, view.rows,
    field("goalie", "Starts in net", { tag: "select" }), field("staff", "Behind the bench: name, role", { tag: "textarea", rows: 2 }));
  view.former?.append(make("option", { value: "" }, "choose"), ...choices);
  return view;
}

function wire(view, team, redraw, changed) {
  for (const name of ["name", "short", "colour", "staff"]) view[name].addEventListener("input", changed);
  view.goalie.addEventListener("change", () => ((team.goalie = view.goalie.value || null), changed()));
  view.colours.addEventListener("click", (event) => {
    const colour = event.target.closest("button")?.dataset.colour;
    if (colour) changed((view.colour.value = colour));
  });
  view.read.addEventListener("click", async () => {
    const told = await post("api/opening/roster", { text: view.paste.value });
    view.problems.replaceChildren(...(told.problems ?? (told.ok ? [] : [told])).map((one) => make("p", { class: "says" }, one.line ? `Line ${one.line}: ` : "", own(one.message), " ", own(one.fix ?? ""))));
    if (!told.ok) return;
    const again = new Set(told.players.map((one) => one.number));
    team.roster = [...team.roster.filter((one) => !again.has(one.number)), ...told.players];
    view.paste.value = (told.problems ?? []).map((one) => one.text).join("\n");
    redraw();
  });
  view.former?.addEventListener("change", async () => {
    const chosen = view.formerList[Number(view.former.value)];
    if (!chosen || view.former.value === "") return;
    const told = await post("api/opening/former", { file: chosen.file, team: chosen.team });
    if (!told.ok) return void view.problems.replaceChildren(make("p", { class: "says" }, own(told.message)));
    for (const name of ["name", "short", "colour"]) view[name].value = told.team[name] ?? view[name].value;
    view.staff.value = (told.team.staff ?? []).map((one) => `${one.name}, ${one.role}`).join("\n");
    team.roster = told.team.roster;
    redraw();
  });
}

function drawRoster(view, team, redraw) {
  const set = (player, name, value) => {
    if (player[name] === value) delete player[name];
    else player[name] = value;
    redraw();
    find(`[data-player="${CSS.escape(player.number)}"] [data-set="${value}"]`, view.rows)?.focus();
  };
  const toggle = (player, name, value, words) => make("button", { type: "button", "data-set": value, "aria-pressed": String(player[name] === value), "aria-label": `${player.number} ${words}`, onclick: () => set(player, name, value) }, words);
  view.rows.replaceChildren(...team.roster.map((player) => make("li", { "data-player": player.number, class: ["absent", "suspended"].includes(player.status) ? "out" : null },
    make("span", { class: "number num" }, own(player.number)), make("span", { class: "called" }, own(player.name ?? "")),
    make("span", { class: "toggles" },
      toggle(player, "position", "goalkeeper", "goalie"), toggle(player, "letter", "C", "C"), toggle(player, "letter", "A", "A"),
      toggle(player, "status", "absent", "scratched"), toggle(player, "status", "suspended", "suspended"),
      make("button", { type: "button", class: "quiet", "aria-label": `Take ${player.number} off the roster`, onclick: () => (team.roster.splice(team.roster.indexOf(player), 1), redraw()) }, "off")))));
}

function drawGoalies(view, team) {
  const able = team.roster.filter((one) => !["absent", "suspended"].includes(one.status));
  const goalkeepers = able.filter((one) => one.position === "goalkeeper");
  const list = goalkeepers.length ? goalkeepers : able;
  view.goalie.replaceChildren(make("option", { value: "" }, "not known yet"), ...list.map((one) => make("option", { value: one.number, selected: one.number === team.goalie }, `${one.number} ${one.name ?? ""}`)));
}

function drawCount(view, team) {
  const playing = team.roster.filter((one) => (one.status ?? "playing") === "playing").length;
  view.count.textContent = team.roster.length ? `${team.roster.length} on the roster, ${playing} playing` : "";
}
