// Sending entries, one after another, each under its own id: what was sent twice is written once.

import { newId, post } from "./api.js";
import { connected, onConnection } from "./connection.js";
import { state, take } from "./state.js";

const ours = new Set(); // numbers of the entries written from this page: they make nothing stale
const queue = [];
let busy = false;

/** An entry to be sent: made when the state had `version`. */
export function entry(text, version = state.version) {
  return { text, version, id: newId(), override: [] };
}

/** The answer to `one`; waits for what was sent before it, and for the connection. */
export function send(one) {
  return new Promise((resolve) => {
    queue.push({ one, resolve });
    work();
  });
}

export const isOurs = (seq) => ours.has(seq);

/** How many entries wait for an answer. */
export const pending = () => queue.length;

async function work() {
  if (busy || !queue.length || !connected) return;
  busy = true;
  const { one, resolve } = queue[0];
  const answer = await post("api/enter", { ...one, version: based(one.version) });
  busy = false;
  if (answer.error === "lost") return void setTimeout(work, 500);
  if (answer.error === "too_many") return void setTimeout(work, 1000 * Math.max(answer.wait_s, 0.2));
  queue.shift();
  if (answer.ok) ours.add(answer.seq);
  if (answer.state) take(answer.state);
  resolve(answer);
  work();
}

onConnection((now) => now && work());

/** The version that an entry is based on, entries of this page itself not counted as news. */
function based(version) {
  let known = version;
  while (ours.has(known + 1)) known += 1;
  return known;
}
