// What entries can be made of: rosters, infractions, words. Fetched once, and again when a roster changes.

import { get } from "./api.js";
import { onState } from "./state.js";

const NOTHING = {
  teams: {
    home: { called: ["home", "h"], roster: [], staff: [] },
    away: { called: ["away", "a"], roster: [], staff: [] },
  },
  infractions: [],
  parts: [],
  verbs: [],
  options: [],
};
export let setup = NOTHING;
const listeners = new Set();

/** Calls `tell()` when rosters or words have come, or have changed. */
export const onSetup = (tell) => listeners.add(tell);

export function keepSetup() {
  onState(async (now, before) => {
    if (before && before.roster_stamp === now.roster_stamp && setup !== NOTHING) return;
    const told = await get("api/setup");
    if (!told.ok) return;
    setup = told;
    for (const tell of listeners) tell();
  });
}

/** Those of a side who may play, by number. */
export function players(side) {
  const there = setup.teams[side]?.roster.filter((one) => !["absent", "suspended"].includes(one.status)) ?? [];
  return [...there].sort((a, b) => a.number.localeCompare(b.number, "en", { numeric: true }));
}

export const goalkeepers = (side) => players(side).filter((one) => one.position === "goalkeeper");
