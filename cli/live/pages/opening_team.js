// One team's card: what it is called, its jerseys, its roster, who starts in net, who stands behind the bench.

import { post } from "./api.js";
import { make, own } from "./dom.js";
import { drawRoster, readRoster } from "./opening_roster.js";

const COLOURS = ["white", "black", "red", "blue", "green", "gold", "orange", "purple", "grey"];
const ROSTER_HINT = "12 Pia Holm C\n31 Wren Castle goalie";

/** Fills in the card; gives `{sheet(), goalie()}`, what stands in it. */
export function teamCard(card, side, header, former, changed) {
  const known = header[side] ?? {};
  const team = { roster: [...(known.roster ?? [])], goalie: header.goalies?.[side] ?? null };
  const view = build(card, side, known, former);
  const redraw = () => {
    drawRoster(view, team, redraw);
    changed();
  };
  listen(view, team, former, { redraw, changed });
  showStaff(view, known.staff);
  drawRoster(view, team, redraw);
  return { goalie: () => view.goalie.value || null, sheet: () => sheet(view, team) };
}

function build(card, side, known, former) {
  const view = {
    colours: make("div", { class: "chips" }, COLOURS.map(colourButton)),
    rows: make("ul", { class: "rows" }),
    count: make("p", { class: "faint" }),
    problems: make("div", { role: "status" }),
    read: make("button", { type: "button" }, "Put on the roster"),
  };
  const field = (name, label, { tag = "input", ...attributes } = {}) => {
    view[name] = make(tag, { id: `${side}-${name}`, autocomplete: "off", ...attributes });
    return make("div", { class: "setting" }, make("label", { for: view[name].id }, label), view[name]);
  };
  card.replaceChildren(
    make("h2", null, make("span", { class: `mark ${side}`, "aria-hidden": "true" }), side === "home" ? "Home" : "Away"),
    make(
      "div",
      { class: "pair" },
      field("name", "Team", { value: known.name ?? "" }),
      field("short", "Short name", { value: known.short ?? "", maxlength: 12 }),
    ),
    field("colour", "Jerseys", { value: known.colour ?? "" }),
    view.colours,
    former.length ? field("former", "Roster of a former game", { tag: "select" }) : "",
    field("paste", "Roster: paste or type, a player a line", { tag: "textarea", rows: 3, placeholder: ROSTER_HINT }),
    make("p", { class: "row" }, view.read, view.count),
    view.problems,
    view.rows,
    field("goalie", "Starts in net", { tag: "select" }),
    field("staff", "Behind the bench: name, role", { tag: "textarea", rows: 2 }),
  );
  view.former?.append(make("option", { value: "" }, "choose"), ...former.map(formerChoice));
  return view;
}

const formerChoice = (one, at) =>
  make("option", { value: String(at) }, `${one.team}, ${one.date ?? one.file} (${one.players})`);

function colourButton(colour) {
  const swatch = make("span", { class: "swatch", "aria-hidden": "true" });
  swatch.style.background = colour;
  return make("button", { type: "button", "data-colour": colour }, swatch, colour);
}

function listen(view, team, former, { redraw, changed }) {
  for (const name of ["name", "short", "colour", "staff"]) view[name].addEventListener("input", changed);
  view.goalie.addEventListener("change", () => {
    team.goalie = view.goalie.value || null;
    changed();
  });
  view.colours.addEventListener("click", (event) => {
    view.colour.value = event.target.closest("button")?.dataset.colour ?? view.colour.value;
    changed();
  });
  view.read.addEventListener("click", async () => {
    await readRoster(view, team);
    redraw();
  });
  view.former?.addEventListener("change", async () => {
    if (view.former.value === "") return;
    await takeFormer(view, team, former[Number(view.former.value)]);
    redraw();
  });
}

async function takeFormer(view, team, { file, team: name }) {
  const told = await post("api/opening/former", { file, team: name });
  view.problems.replaceChildren(...(told.ok ? [] : [make("p", { class: "says" }, own(told.message))]));
  if (!told.ok) return;
  for (const field of ["name", "short", "colour"]) view[field].value = told.team[field] ?? view[field].value;
  showStaff(view, told.team.staff);
  team.roster = told.team.roster;
}

function showStaff(view, staff = []) {
  view.staff.value = staff.map((one) => [one.name, one.role, one.credential].filter(Boolean).join(", ")).join("\n");
}

function sheet(view, team) {
  const typed = ["short", "colour"].map((field) => [field, view[field].value.trim()]).filter(([, value]) => value);
  const lines = view.staff.value.split("\n").map((line) => line.split(",").map((part) => part.trim()));
  const staff = lines
    .filter(([name]) => name)
    .map(([name, role, credential]) => ({ name, role: role || "coach", ...(credential ? { credential } : {}) }));
  return {
    name: view.name.value.trim(),
    ...Object.fromEntries(typed),
    ...(team.roster.length ? { roster: team.roster } : {}),
    ...(staff.length ? { staff } : {}),
  };
}
