"use strict";
// Keeps what is ticked, counts it, and shows which line is next. Without it the page can be read
// and ticked all the same. Nothing is fetched and nothing is sent; ticks stay in this browser, and
// where it keeps nothing (a private window, a strict setting) they last while the page is open.
(() => {
  const key = "levigate bench page " + document.body.dataset.key;
  const all = (query, within = document) => [...within.querySelectorAll(query)];
  const boxes = all("input[type=checkbox]");
  const choices = all("input[type=radio]");
  const said = document.querySelector(".said");
  const groups = new Map();  // the boxes of one batch on one card
  for (const box of boxes) {
    if (!groups.has(box.name)) groups.set(box.name, []);
    groups.get(box.name).push(box);
  }
  const counts = new Map(all(".count").map(count => [count.dataset.of, count]));

  const read = () => {
    try {
      const kept = JSON.parse(localStorage.getItem(key));
      return Array.isArray(kept) ? new Set(kept) : null;
    } catch { return null; }
  };
  const keep = () => {
    const on = [...boxes, ...choices].filter(one => one.checked).map(one => one.id);
    try { localStorage.setItem(key, JSON.stringify(on)); } catch { /* then not */ }
  };
  const apply = on => {
    for (const box of boxes) box.checked = on.has(box.id);
    for (const one of choices) if (on.has(one.id)) one.checked = true;
  };

  // The next line is the first without a tick behind the last that has one: who skips a line on
  // purpose isn't led back to it.
  const words = (ticked, of) => ticked === of ? `all ${of} ticked` : `${ticked} of ${of} ticked`;
  const show = (group, name) => {
    const ticked = group.filter(box => box.checked).length;
    const last = group.map(box => box.checked).lastIndexOf(true);
    const next = ticked > 0 ? group[last + 1] ?? group.find(box => !box.checked) : undefined;
    for (const box of group) box.closest("label").classList.toggle("next", box === next);
    counts.get(name).textContent = words(ticked, group.length);
  };
  const show_all = () => groups.forEach(show);

  const before = new Map();  // what a card held when it was started over
  const offer = (button, back) => {
    button.textContent = back ? "Bring the ticks back" : "Start over";
    if (!back) before.delete(button);
  };
  const changed = box => {
    show(groups.get(box.name), box.name);
    said.textContent = counts.get(box.name).textContent;
    offer(box.closest(".card").querySelector(".start-over"), false);
    keep();
  };
  const start_over = button => {
    const within = all("input[type=checkbox]", button.closest(".card"));
    const kept = before.get(button);
    const on = within.filter(box => box.checked);
    if (!kept && on.length === 0) return;
    for (const box of within) box.checked = kept ? kept.includes(box) : false;
    offer(button, !kept);
    if (!kept) before.set(button, on);
    said.textContent = kept ? "The ticks are back." : "All ticks of this card are gone.";
    keep();
    show_all();
  };

  const kept = read();
  if (kept) apply(kept);
  for (const box of boxes) box.addEventListener("change", () => changed(box));
  for (const one of choices) one.addEventListener("change", keep);
  for (const button of all(".start-over")) {
    button.hidden = false;
    button.addEventListener("click", () => start_over(button));
  }
  addEventListener("storage", event => {  // the same page in another window
    const other = event.key === key && read();
    if (other) { apply(other); show_all(); }
  });
  show_all();
})();
