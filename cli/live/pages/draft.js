// One entry on its way: what it will do, what is said against it, and writing it. Used by the line, the forms and the keys.

import { post } from "./api.js";
import { connected } from "./connection.js";
import { make, own } from "./dom.js";
import { entry, isOurs, send } from "./entering.js";
import { onState, state } from "./state.js";

const REST_MS = 60;
const SEEN_MS = 1000; // what others wrote counts as seen when it has been on the page for so long

export class Draft {
  /** `place` shows it; `onOffer(text)` is told when another wording is chosen; `onWritten(answer)` when it stands in the log. */
  constructor(place, { onOffer = () => {}, onWritten = () => {}, previews = true } = {}) {
    Object.assign(this, { place, onOffer, onWritten, previews, text: "", asked: 0, sent: null, busy: false, again: false });
    Object.assign(this, { base: null, news: [] });
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
    if (answer.ok) return this.written(answer);
    if (answer.error === "stale" && answer.already) return this.written({ ...answer, seq: answer.already, effect: "It was written already." });
    if (answer.error === "stale") one.version = answer.version;
    else if (answer.error === "warned") one.override = answer.warnings.map((warning) => warning.code);
    else this.sent = null;
    this.again = Boolean(this.sent);
    this.show(refused(answer, (text) => this.offer(text), () => this.write(), () => this.drop()));
  }

  written(answer) {
    this.text = "";
    this.sent = null;
    this.forget();
    this.show([]);
    this.onWritten(answer);
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

function previewed(told, choose) {
  if (!told.ok) return problems(told, choose);
  return [
    make("p", { class: "effect" }, own(told.effect)),
    make("p", { class: "small faint" }, `Will be written: `, own(told.understood)),
    ...(told.different ?? []).map((line) => make("p", { class: "small" }, own(line))),
    ...told.warnings.map(warning),
    ...told.hints.map((hint) => make("p", { class: "small" }, "Note: ", own(hint.message), " ", own(hint.fix))),
  ];
}

const warning = (one) =>
  make("p", { class: "says" }, make("b", null, "Look again: "), own(one.message), make("span", { class: "fix" }, own(one.fix)));

function problems(told, choose) {
  const list = told.problems ?? (told.message ? [{ ...told, offers: [] }] : []);
  return list.map((one) => {
    const offers = one.offers ?? [];
    return make("div", { class: "says" }, make("p", null, own(one.message)), offers.length
        ? make("div", { class: "offers" }, "Write: ", offers.slice(0, 4).map((text) => make("button", { type: "button", onclick: () => choose(text) }, own(text))))
        : one.fix && make("p", { class: "fix" }, own(one.fix)));
  });
}

function refused(answer, choose, write, drop) {
  const anyway = make("div", { class: "row" },
    make("button", { type: "button", class: "main anyway", onclick: write }, "Write it anyway", make("kbd", null, "Enter")),
    make("button", { type: "button", onclick: drop }, "Not yet"));
  if (answer.error === "warned") return [make("p", { class: "effect" }, own(answer.effect ?? "")), ...answer.warnings.map(warning), anyway];
  if (answer.error !== "stale") return problems(answer, choose);
  return [meanwhile(answer.since), ...(answer.preview ? previewed(answer.preview, choose) : []), anyway];
}

function meanwhile(entries) {
  if (!entries.length) return null;
  const lines = entries.map((one) => make("li", null, `#${one.seq} `, own(one.said ?? one.text ?? "an entry"), one.by && ` (${one.by})`));
  return make("div", { class: "says" }, make("p", null, make("b", null, "Meanwhile somebody else wrote:")), make("ul", null, lines));
}
