// Says on the page whether it is connected, and takes nothing before it has the state again.

import { connect, onConnection } from "./connection.js";
import { pending } from "./entering.js";
import { find, say } from "./dom.js";

const TAKE_ENTRIES = ".keys button, button[type=submit]";

export function showConnection() {
  let before = null;
  onConnection((now) => {
    find("#link").className = now ? "link" : "link lost";
    say(find("#link"), now ? "connected" : "not connected");
    const lost = before !== null && !now;
    before = now;
    find("#lost").hidden = now || !lost;
    for (const button of document.querySelectorAll(TAKE_ENTRIES)) button.toggleAttribute("disabled", !now);
    if (lost)
      say(
        find("#lost-more"),
        pending()
          ? "Your last entry is not acknowledged; it is sent again by itself, and written once."
          : "What you typed stays here. Keys wait until the game is back.",
      );
  });
  connect();
}
