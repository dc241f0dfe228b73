// What the server tells by itself, and whether it still does.

import { take, takeClock } from "./state.js";

const SILENCE_MS = 12000;
const AGAIN_MS = 1500;
const listeners = new Set();
export let connected = false;
let source = null;
let heardAt = 0;

/** Calls `tell(connected)` now and at each change. */
export function onConnection(tell) {
  listeners.add(tell);
  tell(connected);
}

export function connect() {
  open();
  setInterval(() => {
    if (source && performance.now() - heardAt > SILENCE_MS) again();
  }, 1000);
  addEventListener("offline", again);
  addEventListener("online", again);
}

function open() {
  source = new EventSource("api/events");
  heardAt = performance.now();
  source.addEventListener("state", (event) => heard(() => take(JSON.parse(event.data)), true));
  source.addEventListener("clock", (event) => heard(() => takeClock(JSON.parse(event.data))));
  source.addEventListener("ping", () => heard(() => {}));
  source.addEventListener("bye", again);
  source.addEventListener("error", again);
}

function heard(then, isState = false) {
  heardAt = performance.now();
  then();
  if (isState) tell(true);
}

let waiting = null;

function again() {
  tell(false);
  source?.close();
  source = null;
  clearTimeout(waiting);
  waiting = setTimeout(open, AGAIN_MS);
}

function tell(now) {
  if (connected === now) return;
  connected = now;
  for (const listener of listeners) listener(now);
}
