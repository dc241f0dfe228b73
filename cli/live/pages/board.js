// The page's clock copy: start and stop with one key, set by typing what the board shows. Nothing depends on it.

import { post } from "./api.js";
import { readingNow } from "./clock.js";
import { find, say } from "./dom.js";
import { state, takeClock } from "./state.js";

export function startBoard() {
  const form = find("#board form");
  form.addEventListener("submit", async (event) => {
    if (event.submitter?.value === "close") return;
    event.preventDefault();
    const typed = find("#board-reading").value.trim();
    const told = await clock({ do: "set", reading: typed, running: find("#board-running").checked });
    if (told.ok) find("#board").close();
    else
      say(
        find("#board-problem"),
        told.problems?.[0] ? `${told.problems[0].message} ${told.problems[0].fix}` : told.message,
      );
  });
}

export function toggleClock() {
  return clock({ do: state.clock.set && state.clock.running ? "stop" : "start" });
}

export function openBoard() {
  say(find("#board-problem"), "");
  find("#board-reading").value = readingNow() ?? state.reading?.clock ?? "";
  find("#board-running").checked = Boolean(state.clock.set && state.clock.running);
  find("#board").showModal();
  find("#board-reading").select();
}

async function clock(wish) {
  const told = await post("api/clock", wish);
  if (told.ok) takeClock(told.clock);
  return told;
}
