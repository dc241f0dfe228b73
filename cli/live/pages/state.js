// The game as the server last told it, and who wants to know. Nothing else is kept here.

const listeners = new Set();
export let state = null;
export let receivedAt = 0;

export function first() {
  take(JSON.parse(document.getElementById("state").textContent));
  return state;
}

/** Takes a state unless a newer one is shown already; true when it was taken. */
export function take(next) {
  if (!next || isOlder(next)) return false;
  const before = state;
  state = next;
  receivedAt = performance.now();
  for (const tell of listeners) tell(state, before);
  return true;
}

function isOlder(next) {
  return state !== null && next.boot === state.boot && next.stamp < state.stamp;
}

export function takeClock(clock) {
  if (state) take({ ...state, clock });
}

/** Calls `tell(state, before)` now and at each change, until the function that it returns is called. */
export function onState(tell) {
  listeners.add(tell);
  if (state) tell(state, null);
  return () => listeners.delete(tell);
}

export const sideName = (side) => (side === "home" ? "Home" : "Away");
export const teamName = (side) => state.teams[side].short || state.teams[side].name;
