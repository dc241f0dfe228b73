// What is seldom written: each puts the beginning of an entry into the line.

import { find, letGo, make } from "./dom.js";
import { focusLine } from "./entry_line.js";
import { likelyReading } from "./likely.js";

const SELDOM = [
  ["Remark", "remark "],
  ["Officials set the clock", "READING clock "],
  ["Penalty shot", "READING home penalty shot ? saved"],
  ["Shootout attempt", "home shootout ? scored"],
  ["Skaters seen", "READING seen 5 on 4"],
  ["Player seen on the ice", "READING home seen ? ice"],
  ["Official ended a penalty", "READING home ruling "],
  ["Figures of the board", "READING home figures goals 0 shots 0 source board"],
  ["New number", "home roster 21 was 12"],
  ["Late arrival or scratch", "home roster 14 playing"],
  ["Remembered late", "late READING "],
  ["Close the record", "close played"],
];

export function openMore(opener) {
  const dialog = find("#more");
  const items = SELDOM.map(([words, begun]) =>
    make(
      "button",
      {
        type: "button",
        onclick: () => (dialog.close(), focusLine(begun.replace("READING", likelyReading("more")).trimStart())),
      },
      words,
    ),
  );
  find(".choices", dialog).replaceChildren(...items);
  dialog.addEventListener("click", letGo);
  dialog.onclose = () => document.activeElement === document.body && opener?.focus();
  dialog.showModal();
}
