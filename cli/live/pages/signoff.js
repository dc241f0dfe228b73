// The page to hand to the referee: what weighs most first, corrections from there, then closing and the head code.

import { get } from "./api.js";
import { openChange } from "./change.js";
import { drawClosing } from "./closing.js";
import { find, make, own, redraw } from "./dom.js";
import { showConnection } from "./link.js";
import { keepSetup } from "./setup.js";
import { first, onState, sideName, state } from "./state.js";

function written(answer) {
  find("#last").replaceChildren(make("p", { class: "written" }, `#${answer.seq} `, own(answer.effect)));
}

const change = (seq) =>
  state.stage === "game" &&
  seq &&
  make(
    "button",
    {
      type: "button",
      class: "quiet",
      "aria-label": `change entry ${seq}`,
      onclick: (event) => correct(seq, event.detail > 0),
    },
    "change",
  );

async function correct(seq, byTouch) {
  await openChange({ seq, byTouch, onWritten: written });
  find("#putting-right").scrollIntoView({ block: "center" });
}

function draw(told) {
  const ejected = new Set(told.ejections.map((one) => one.seq));
  const grave = [...told.ejections, ...told.majors.filter((one) => !ejected.has(one.seq))];
  redraw(find("#grave"), [grave, state.stage], () =>
    grave.length
      ? grave.map((one) => row(one, `${one.when ?? ""} ${sideName(one.team)}`, `${one.who}: ${one.text}`, "grave"))
      : make("li", null, "None."),
  );
  redraw(find("#goals"), [told.goals, state.stage], () =>
    told.goals.length
      ? told.goals.map((one) => row(one, `${one.when} ${sideName(one.team)}`, one.text))
      : make("li", null, "None."),
  );
  redraw(find("#final"), told.final, drawFinal);
  redraw(find("#totals"), [told.goalies, told.penalty_minutes], () => drawTotals(told));
  redraw(find("#checklist"), [told.checklist, told.missing], () => drawChecklist(told));
  drawClosing(told, (answer) => (written(answer), refresh()));
}

const row = (one, lead, text, kind = null) =>
  make(
    "li",
    { class: kind },
    make("span", { class: "at" }, lead),
    make("span", { class: "text" }, own(text)),
    change(one.seq),
  );

function drawFinal(final) {
  const decided = final.decided_in && final.decided_in !== "regulation" ? ` in ${final.decided_in}` : "";
  return [
    own(state.teams.home.name),
    ` ${final.home} – ${final.away} `,
    own(state.teams.away.name),
    decided && make("small", null, ` decided${decided}`),
  ];
}

const counted = (number, what) => `${number} ${number === 1 ? what : `${what}s`}`;

function drawTotals(told) {
  const nets = told.goalies.map((one) =>
    make(
      "p",
      null,
      `${sideName(one.team)} ${one.goalie ?? "not named"}: ${counted(one.shots, "shot")}, ${counted(one.saves, "save")}`,
    ),
  );
  const minutes = ["home", "away"].map((side) =>
    make("p", null, `${sideName(side)}: ${counted(told.penalty_minutes[side].total, "penalty minute")}`),
  );
  return [...nets, ...minutes];
}

function drawChecklist(told) {
  const items = [
    ...told.missing.map((text) => make("li", null, own(text))),
    ...told.checklist.map((one) =>
      make(
        "li",
        null,
        one.seq && `#${one.seq} `,
        own(one.message),
        " ",
        make("span", { class: "faint" }, own(one.fix)),
        " ",
        change(one.seq),
      ),
    ),
  ];
  return items.length ? make("ul", { class: "ticks" }, items) : make("p", null, "Nothing is missing.");
}

async function refresh() {
  const told = await get("api/signoff");
  if (told.ok) draw(told);
  else find("#checklist").replaceChildren(make("p", { class: "says" }, own(told.message)));
}

first();
keepSetup();
onState((now, before) => (!before || before.version !== now.version) && refresh());
showConnection();
