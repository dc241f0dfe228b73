// What keeps entries from being written: trouble with the file, or a record that is closed.

import { find, make, own, redraw } from "./dom.js";
import { onState } from "./state.js";

export function showTrouble() {
  onState((now) => {
    redraw(find("#trouble"), [now.trouble, now.closed, now.head_code], () => [trouble(now.trouble), closed(now)]);
    find("#keys")?.classList.toggle("closed", now.closed);
  });
}

const trouble = (one) => one && make("p", { class: "says" }, own(one.message), " ", own(one.fix));

function closed({ closed, head_code: code, role }) {
  if (!closed) return null;
  if (role !== "write") return make("p", { class: "notice" }, "The record is closed.");
  const signed = make("a", { href: "signoff" }, "Sign-off");
  return make(
    "p",
    { class: "notice" },
    "The record is closed: corrections and remarks only. ",
    code && `Head code ${code}. `,
    signed,
  );
}
