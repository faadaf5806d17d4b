// Ticks for buying lists and steps. All reading works without this script; ticks stay on the
// reader's device.
"use strict";

(() => {
  // Read from a disc, faces come too late for the first view, but there they come soon.
  if (location.protocol === "file:") for (const face of document.fonts) face.display = "swap";

  const store = (() => {
    try {
      const probe = "guidegen-probe";
      localStorage.setItem(probe, "1");
      localStorage.removeItem(probe);
      return localStorage;
    } catch {
      return null; // Private windows may refuse to keep anything; ticks then last for the page.
    }
  })();

  const keep = (key, on, mark) => {
    if (!store) return;
    if (on) store.setItem(key, mark);
    else store.removeItem(key);
  };

  const tick = (key, words, host, hidden = "", mark = "1") => {
    const label = document.createElement("label");
    label.className = "tick";
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = Boolean(store && store.getItem(key));
    const text = document.createElement("span");
    text.textContent = words;
    if (hidden) {
      text.className = "vh";
      text.textContent = hidden;
    }
    label.append(box, text);
    host.classList.toggle("ticked", box.checked);
    box.addEventListener("change", () => {
      keep(key, box.checked, mark);
      host.classList.toggle("ticked", box.checked);
    });
    return label;
  };

  const tellChanged = (area, steps) => {
    const place = document.querySelector(".changed-steps");
    if (!place || !steps.length) return;
    place.textContent = `${say("changed")} `;
    steps.forEach((step, at) => {
      const link = document.createElement("a");
      link.href = `#${step.id}`;
      link.textContent = step.querySelector(".step-number").textContent;
      place.append(at ? ", " : "", link);
    });
  };

  for (const area of document.querySelectorAll("[data-keep]")) {
    const [name, changed] = [area.dataset.keep, []];
    for (const row of area.querySelectorAll("[data-tick]")) {
      row.cells[0].classList.add("has-tick");
      row.cells[0].prepend(tick(`${name}/${row.dataset.tick}`, "", row, say("have", { material: row.dataset.name })));
    }
    for (const step of area.querySelectorAll("[data-step]")) {
      const [key, mark] = [`${name}/step/${step.dataset.step}`, step.dataset.mark ?? "1"];
      const before = store && store.getItem(key);
      // The tick holds a mark of the step's words: with a new version of the guide it may differ.
      const language = (text) => text.split(":")[0];
      if (before && language(before) === language(mark) && before !== mark) changed.push(step);
      step.querySelector(".step-head").append(tick(key, say("done"), step, "", mark));
    }
    tellChanged(area, changed);
  }

  // Lists of steps show what is done; the overview leads to the first step that is not.
  const guide = document.body.dataset.guide;
  const links = [...document.querySelectorAll("[data-of-step]")];
  const markDone = () => {
    for (const link of links) {
      link.classList.toggle("done", Boolean(store && store.getItem(`${guide}/step/${link.dataset.ofStep}`)));
    }
    const place = document.querySelector(".go-on");
    const next = links.findIndex((link) => !link.classList.contains("done"));
    if (!place || next < 0 || !links.some((link) => link.classList.contains("done"))) return;
    const link = place.querySelector("a");
    link.href = links[next].href;
    link.textContent = link.parentElement.dataset.words.replace("{number}", next + 1);
    place.hidden = false;
  };
  markDone();
  document.addEventListener("change", markDone);

  // On a phone what is read once is folded away; on paper it is all there.
  const folds = [...document.querySelectorAll("details.fold")];
  const openAsked = () => {
    const asked = location.hash ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
    const closed = folds.filter((fold) => !fold.open && asked && fold.parentElement.contains(asked));
    for (const fold of closed) fold.open = true;
    if (closed.length) asked.scrollIntoView();
  };
  if (matchMedia("(max-width: 34rem)").matches) {
    for (const fold of folds) fold.open = false;
    openAsked();
    addEventListener("hashchange", openAsked);
  }
  addEventListener("beforeprint", () => {
    for (const fold of folds) fold.open = true;
  });

  // A drawing or table that moves sideways can be reached by the keyboard, whose arrows then move it.
  const moving = ".drawing, .prose table, .stack table";
  const reach = (one) => {
    const moves = one.scrollWidth > one.clientWidth && getComputedStyle(one).overflowX === "auto";
    if (moves === one.hasAttribute("tabindex")) return;
    if (moves) {
      one.tabIndex = 0;
      const name = one.querySelector("title, caption")?.textContent ?? "";
      if (name) one.setAttribute("aria-label", name);
    } else for (const name of ["tabindex", "aria-label"]) one.removeAttribute(name);
  };
  const sizes = new ResizeObserver((all) => {
    for (const { target } of all) reach(target.closest(moving));
  });
  for (const one of document.querySelectorAll(`main :is(${moving}), main .drawing > svg`)) sizes.observe(one);
})();
