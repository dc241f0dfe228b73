// The addresses for other people's screens.

import { get } from "./api.js";
import { find, make } from "./dom.js";

const told = await get("api/addresses");
find("#reach").textContent = !told.ok
  ? told.message
  : told.lan
    ? "Anybody in the rink's network who has an address can use it. Give the first one only to people who write."
    : "These work on this computer alone. Start with --lan for tablets and phones in the rink's network.";
find("#addresses").replaceChildren(
  ...(told.addresses ?? []).map((one) =>
    make(
      "li",
      { class: "card" },
      make("h2", null, one.title),
      make("img", { src: one.qr, alt: `QR code: ${one.title}`, width: "200", height: "200" }),
      make("p", { class: "small" }, make("a", { href: one.url }, one.url)),
    ),
  ),
);
