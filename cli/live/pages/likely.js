// The reading that is offered before anybody has typed one: what the board shows as far as it is known, else nothing.

import { readingNow } from "./clock.js";
import { onState, receivedAt, state } from "./state.js";

/** For how many seconds after such an entry play counts as stopped at its reading, though no faceoff is written. */
const STANDS_S = { stoppage: 180, timeout: 180, penalty_assessed: 60, goal: 60 };
const COPY_STANDS_S = 180;
/** What is done at the whistle that was written, however long ago, unless the page's clock says otherwise. */
const AT_THE_WHISTLE = new Set(["go", "goalie", "timeout", "line"]);

let whistle = null; // {clock, period, until, called}: the one that was written while this page was open

onState((now, before) => {
  const newest = now.entries?.[0];
  if (!before || now.version <= before.version || !(newest?.kind in STANDS_S) || !isAt(now.reading, newest.at)) return;
  const known = whistle && isAt(whistle, newest.at) ? whistle : { until: 0, called: false };
  whistle = {
    ...newest.at,
    until: Math.max(known.until, performance.now() + 1000 * STANDS_S[newest.kind]),
    called: known.called || newest.kind === "stoppage",
  };
});

const isAt = (one, other) => Boolean(one && other) && one.clock === other.clock && one.period === other.period;

/** The reading to begin `form` with; "" where nobody typed it and no clock gives it, so that it has to be typed. */
export function likelyReading(form = "line") {
  if (state.ended && !state.over) return nextPeriod();
  if (copyTells(form)) return readingNow();
  return stands(form) ? state.reading.clock : "";
}

/** Whether the page's clock is the better witness: it runs, or was just set or stopped, and no entry contradicts it. */
function copyTells(form) {
  const { clock } = state;
  if (!clock.set || clock.check || clock.period !== state.period.number) return false;
  const moved = clock.moved_ago_s !== null;
  if (clock.running) return moved || !stands(form);
  return moved && clock.moved_ago_s + (performance.now() - receivedAt) / 1000 < COPY_STANDS_S;
}

/** Whether play is stopped at the reading that was written last. A goal is scored at no whistle but one that was called. */
function stands(form) {
  if (state.in_play || !state.reading) return false;
  if (AT_THE_WHISTLE.has(form)) return true;
  const isFresh = isAt(whistle, state.reading) && performance.now() < whistle.until;
  return isFresh && (form !== "goal" || whistle.called);
}

function nextPeriod() {
  const next = state.next ?? {
    period: state.period.number + 1,
    clock: state.counts === "down" ? state.period.length : "0:00",
  };
  return `${next.period} ${next.clock}`;
}
