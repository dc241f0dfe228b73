"use strict";
const line = document.getElementById("details");
if (line) {
  const first = line.textContent;
  const items = [...document.querySelectorAll(".item")];
  // the browser's own bubble would cover what is pointed at: its text moves to the line below and stays the item's name
  for (const item of items) {
    const title = item.querySelector("title");
    item.setAttribute("aria-label", title.textContent);
    title.remove();
  }
  const tell = (item, spoken) => {
    line.setAttribute("aria-live", spoken ? "polite" : "off"); // a focused item is read out anyway
    line.textContent = item ? item.getAttribute("aria-label") : first;
    for (const other of items) other.classList.toggle("chosen", other === item);
  };
  const picture = document.querySelector(".picture");
  picture.addEventListener("pointerover", (event) => {
    const item = event.target.closest(".item");
    if (item) tell(item, true);
  });
  picture.addEventListener("pointerleave", () => tell(document.activeElement.closest(".item"), false));
  picture.addEventListener("focusin", (event) => tell(event.target.closest(".item"), false));
  picture.addEventListener("focusout", () => tell(null, false));
  picture.addEventListener("keydown", (event) => {
    const step = { ArrowRight: 1, ArrowLeft: -1 }[event.key];
    const at = items.indexOf(event.target.closest(".item"));
    if (!step || at < 0 || !items[at + step]) return;
    event.preventDefault();
    items[at + step].focus();
  });
}
