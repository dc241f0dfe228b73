// What a screen reader says by itself, and the short sound for those who asked for it.

import { isDue } from "./boxes.js";
import { find, say } from "./dom.js";
import { isOurs } from "./entering.js";
import { onState, sideName, state } from "./state.js";

const told = new Set();
let sound = null;

export function announceReleases(sides = ["home", "away"]) {
  const look = () => {
    for (const side of sides) for (const one of state.box[side]) tellOnce(side, one);
  };
  onState(look);
  setInterval(look, 500);
  onState((now, before) => before && now.version > before.version && announceOthers(now.entries[0]));
}

function tellOnce(side, one) {
  const key = `${one.penalty} ${one.part} ${one.watch}`;
  if (!isDue(one) || told.has(key)) return;
  told.add(key);
  say(find("#releases"), `${sideName(side)} ${one.who ?? "a team-mate"}: watch for ${one.watch} on the board.`);
  beep();
}

/** What this page wrote itself is announced when it is acknowledged. */
function announceOthers(entry) {
  if (entry && !isOurs(entry.seq)) announce(entry.text);
}

export const announce = (text) => say(find("#said"), text);

/** The sound is off until somebody presses the button, which is also what browsers want before a page may sound. */
export function soundButton(button) {
  button?.addEventListener("click", () => {
    sound = sound ? void sound.close() : new AudioContext();
    button.setAttribute("aria-pressed", String(Boolean(sound)));
    beep();
  });
}

function beep() {
  if (!sound) return;
  const [tone, level] = [sound.createOscillator(), sound.createGain()];
  tone.frequency.value = 660;
  level.gain.setValueAtTime(0.25, sound.currentTime);
  level.gain.exponentialRampToValueAtTime(0.001, sound.currentTime + 0.35);
  tone.connect(level).connect(sound.destination);
  tone.start();
  tone.stop(sound.currentTime + 0.36);
}
