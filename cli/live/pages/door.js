// The page at the door of one box: who sits, what to watch for, and its one entry, "door opened".

import { announceReleases, soundButton } from "./announce.js";
import { showBoxes } from "./boxes.js";
import { find, make, own } from "./dom.js";
import { Draft } from "./draft.js";
import { openForm } from "./forms.js";
import { showConnection } from "./link.js";
import { showScore } from "./score.js";
import { first } from "./state.js";
import { showTrouble } from "./trouble.js";

const { side } = first();

function written(answer) {
  const back = make("button", { type: "button", onclick: () => takeBack(answer.seq) }, "Take it back");
  find("#last").replaceChildren(
    make("p", { class: "written" }, `#${answer.seq} `, own(answer.effect)),
    make("p", null, back),
  );
}

/** A door that was not this one: the entry is voided, like any other that was wrong. */
function takeBack(seq) {
  const place = make("div", { class: "draft" });
  find("#last").replaceChildren(place);
  const draft = new Draft(place, {
    previews: false,
    onWritten: () => find("#last").replaceChildren(make("p", { class: "written" }, `#${seq} taken back`)),
  });
  draft.set(`void ${seq}`);
  draft.write();
}

showScore();
showBoxes([side], (team, one) =>
  make(
    "button",
    {
      type: "button",
      class: "door",
      onclick: (event) =>
        openForm("door", {
          one: { chosen: `${team} door #${one.penalty}` },
          byTouch: event.detail > 0,
          onWritten: written,
        }),
    },
    "Door opened",
  ),
);
announceReleases([side]);
soundButton(find("#sound"));
showTrouble();
showConnection();
