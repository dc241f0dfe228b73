// One entry on its way: what it will do, what is said against it, and writing it. Used by the line, the forms and the keys.

import { post } from "./api.js";
import { connected } from "./connection.js";
import { make } from "./dom.js";
import { meanwhile, previewed, refused } from "./draft_view.js";
import { entry, isOurs, send } from "./entering.js";
import { onState, state } from "./state.js";

const REST_MS = 60;
const SEEN_MS = 1000; // what others wrote counts as seen when it has been on the page for so long

export class Draft {
  text = "";
  sent = null; // the entry as it was sent, until it is written or changed
  again = false; // it was warned of, or others wrote meanwhile: the next time it is written all the same
  busy = false;
  base = null; // the version that it is made on
  news = [];
  asked = 0;
  timer = 0;

  /** `place` shows it; `onOffer(text)` is told when another wording is chosen; `onWritten(answer)` when it stands in the log. */
  constructor(place, { onOffer = () => {}, onWritten = () => {}, previews = true } = {}) {
    Object.assign(this, { place, onOffer, onWritten, previews });
    this.end = onState((now, before) => before && now.version !== before.version && this.changed(now, before));
  }

  /** Others wrote while this was being made: it is shown, and the entry stands on it once it could be seen. */
  changed(now, before) {
    const news = now.entries.filter((one) => one.seq > before.version && !isOurs(one.seq));
    if (this.text && news.length) {
      this.news.push(...news.reverse());
      setTimeout(() => (this.base = this.text ? now.version : null), SEEN_MS);
    }
    this.preview();
  }

  /** The words of the entry as they are now. */
  set(text) {
    if (text.trim() === this.text) return;
    this.text = text.trim();
    if (!this.text) this.forget();
    else this.base ??= state.version;
    this.sent = null;
    this.again = false;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.preview(), REST_MS);
  }

  async preview() {
    if (!this.previews || this.busy || this.again) return;
    if (!this.text) return this.show([]);
    const number = ++this.asked;
    const told = await post("api/preview", { text: this.text });
    if (number !== this.asked || this.busy || told.error === "lost") return;
    this.show([meanwhile(this.news), previewed(told, (text) => this.offer(text))]);
  }

  forget() {
    this.base = null;
    this.news = [];
  }

  offer(text) {
    this.set(text);
    this.onOffer(text);
  }

  /** Writes it; a second time where it was warned of or others wrote meanwhile, it is written all the same. */
  async write() {
    if (!this.text || this.busy || !connected) return null;
    this.sent ??= entry(this.text, this.base ?? state.version);
    return this.send(this.sent);
  }

  async send(one) {
    clearTimeout(this.timer);
    this.asked += 1;
    this.busy = true;
    const waiting = setTimeout(() => this.show([make("p", { class: "faint" }, "Sending …")]), 400);
    const answer = await send(one);
    clearTimeout(waiting);
    this.busy = false;
    this.answered(one, answer);
    return answer;
  }

  answered(one, answer) {
    this.again = false;
    if (answer.ok) return this.written(answer, one.text);
    if (answer.error === "stale") one.version = answer.version;
    else if (answer.error === "warned") one.override = answer.warnings.map((warning) => warning.code);
    else this.sent = null;
    this.again = Boolean(this.sent);
    const choices = { choose: (text) => this.offer(text), write: () => this.write(), drop: () => this.drop() };
    this.show(refused(answer, choices));
  }

  /** What was typed since it was sent stays. */
  written(answer, text) {
    if (this.text === text) {
      this.text = "";
      this.sent = null;
      this.forget();
      this.show([]);
    }
    this.onWritten(answer, text);
  }

  drop() {
    this.sent = null;
    this.again = false;
    this.preview();
  }

  show(parts) {
    this.place.replaceChildren(...parts.flat(2).filter(Boolean));
  }
}
