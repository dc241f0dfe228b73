// The page's own copy of the game clock: counted on from what the server said, never more than "about".

import { receivedAt, state } from "./state.js";

/** Tenths of the clock copy's period that are over, or null when nobody has set it. */
export function playedNow() {
  const clock = state.clock;
  if (!clock.set) return null;
  const gone = clock.running ? (performance.now() - receivedAt) / 100 : 0;
  const most = clock.period === state.period.number ? state.period.length_t : Infinity;
  return Math.min(clock.played_t + gone, most);
}

/** The reading that the copy shows now, such as "7:31". */
export function readingNow() {
  const played = playedNow();
  if (played === null) return null;
  if (state.clock.period !== state.period.number) return state.clock.clock;
  return shown(state.counts === "down" ? state.period.length_t - played : played);
}

/** Whole seconds, rounded up where the board counts down, as boards do. */
export function shown(tenths) {
  const seconds = state.counts === "down" ? Math.ceil(tenths / 10 - 1e-6) : Math.floor(tenths / 10);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}

export const setAgo = () => state.clock.set_ago_s + (performance.now() - receivedAt) / 1000;

export function ago(seconds) {
  const whole = Math.round(seconds);
  return whole < 60 ? `${whole} s ago` : `${Math.round(whole / 60)} min ago`;
}

/** Seconds until `playedAt` (tenths of the copy's period), about; null where the copy cannot tell. */
export function secondsUntil(playedAt, period) {
  const played = playedNow();
  if (played === null || playedAt === null || playedAt === undefined || period !== state.clock.period) return null;
  return (playedAt - played) / 10;
}

export function span(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
}
