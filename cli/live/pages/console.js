// The page of the clock and the record.

import { announce, announceReleases, soundButton } from "./announce.js";
import { openBoard, startBoard, toggleClock } from "./board.js";
import { showBoxes } from "./boxes.js";
import { openChange } from "./change.js";
import { Draft } from "./draft.js";
import { find, letGo, make, own, redraw } from "./dom.js";
import { focusLine, startLine } from "./entry_line.js";
import { openForm, toTheTop } from "./forms.js";
import { setSingleKeys, singleKeys, startKeys } from "./keys.js";
import { showConnection } from "./link.js";
import { openMore } from "./more.js";
import { showRecord } from "./record.js";
import { showScore } from "./score.js";
import { keepSetup } from "./setup.js";
import { first, onState } from "./state.js";
import { showTrouble } from "./trouble.js";

const FORM_OF = {
  g: "goal",
  p: "penalty",
  s: "stop",
  f: "go",
  k: "goalie",
  t: "timeout",
  d: "door",
  l: "early",
  n: "shot",
  e: "end",
  u: "undo",
};

function written(answer) {
  const lines = [make("p", { class: "written" }, `#${answer.seq} `, own(answer.effect))];
  if (answer.head_code) lines.push(make("p", { class: "code" }, answer.head_code));
  find("#last").replaceChildren(...lines);
  toTheTop();
  announce(`Written. ${answer.effect}`);
}

function shot(side) {
  const place = make("div", { class: "draft" });
  const draft = new Draft(place, {
    previews: false,
    onWritten: (answer) => (draft.end(), place.remove(), written(answer)),
  });
  find("#quick").append(place);
  draft.set(`${side} shot`);
  draft.write().then((answer) => !answer?.ok && find(".anyway", place)?.focus());
}

function act(key, byTouch) {
  if (key === "h" || key === "a") return shot(key === "h" ? "home" : "away");
  if (key === "m") return openMore(document.activeElement);
  openForm(FORM_OF[key], { byTouch, onWritten: written });
}

function help() {
  find("#single-keys").checked = singleKeys();
  find("#help").showModal();
}

first();
keepSetup();
showScore();
showBoxes(["home", "away"], (side, one) =>
  make(
    "button",
    {
      type: "button",
      class: "quiet door",
      onclick: (event) =>
        openForm("door", {
          one: { chosen: `${side} door #${one.penalty}` },
          byTouch: event.detail > 0,
          onWritten: written,
        }),
    },
    "door opened",
  ),
);
showRecord(({ seq }) => openChange({ seq, byTouch: true, onWritten: written }));
announceReleases();
startLine({ onWritten: written });
startBoard();
startKeys(act, { "/": () => focusLine(), "?": help, " ": toggleClock, b: openBoard });
soundButton(find("#sound"));
find("#ask").addEventListener("click", help);
find("#clock-toggle").addEventListener("click", toggleClock);
find("#clock-set").addEventListener("click", openBoard);
find("#single-keys").addEventListener("change", (event) => setSingleKeys(event.target.checked));
document.addEventListener("click", letGo);
onState((now) => {
  redraw(find("#clock-toggle"), now.clock.set && now.clock.running, (runs) => [
    make("span", { class: "unseen" }, "the page's clock: "),
    runs ? "Stop" : "Start",
    make("kbd", null, "Space"),
  ]);
});
showTrouble();
showConnection();
