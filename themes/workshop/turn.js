// The finished thing: a button brings the drawing of all its sides, which a drag, keys, buttons and a
// slider then turn; a switch shows the colours that its steps give it. Without this script three
// views stand in the page as bare foam, and a link leads to the sheet of all sides.
"use strict";

(() => {
  // The side that is seen `by` steps further round, of `count`.
  const side = (at, by, count) => (((at + by) % count) + count) % count;

  if (typeof module !== "undefined") {
    module.exports = { side };
    return;
  }

  const PULL = 36; // px of a drag for one side

  const make = (tag, name, words = "") => {
    const made = document.createElement(tag);
    made.className = name;
    made.textContent = words;
    if (tag === "button") made.type = "button";
    return made;
  };

  // Paints are data of the drawing; bare foam keeps the tints of the theme.
  const paint = (look) => {
    const painted = look.querySelector(".painted-switch input")?.checked ?? false;
    for (const group of look.querySelectorAll("[data-paint]")) {
      for (const path of group.children) path.style.fill = painted ? group.dataset.paint : "";
    }
  };

  const turner = (look, link, svg) => {
    const names = JSON.parse(link.dataset.sides);
    const groups = [...svg.querySelectorAll("[data-turn]")];
    const count = groups.length;
    const stage = make("figure", "drawing turning");
    const [left, right] = [make("button", "turn-by", "\u2039"), make("button", "turn-by", "\u203a")];
    const range = make("input", "turn-range");
    const said = make("figcaption", "turn-said");
    left.setAttribute("aria-label", link.dataset.left);
    right.setAttribute("aria-label", link.dataset.right);
    Object.assign(range, { type: "range", min: 0, max: count - 1, step: 1, value: 0 });
    range.setAttribute("aria-label", link.dataset.at);
    svg.removeAttribute("width");
    svg.removeAttribute("height");
    svg.querySelector("desc")?.remove();
    const title = svg.querySelector("title");

    let at = 0;
    const show = (next) => {
      at = next;
      groups.forEach((group, number) => group.toggleAttribute("hidden", number !== at));
      svg.setAttribute("viewBox", groups[at].dataset.box);
      const words = `${names[at] ?? ""} (${say("step-of", { number: at + 1, count })})`;
      title.textContent = words;
      said.textContent = words;
      range.value = at;
      range.setAttribute("aria-valuetext", words);
    };
    const by = (steps) => show(side(at, steps, count));
    left.addEventListener("click", () => by(1));
    right.addEventListener("click", () => by(-1));
    range.addEventListener("input", () => show(Number(range.value)));
    // A slider ends; the thing goes round.
    range.addEventListener("keydown", (event) => {
      const steps = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1 }[event.key];
      if (!steps || event.ctrlKey || event.metaKey || event.altKey) return;
      event.preventDefault();
      by(steps);
    });

    let from = null;
    svg.addEventListener("pointerdown", (event) => {
      from = { x: event.clientX, at };
      svg.setPointerCapture(event.pointerId);
    });
    svg.addEventListener("pointermove", (event) => {
      // What is near goes with the hand.
      if (from) show(side(from.at, -Math.round((event.clientX - from.x) / PULL), count));
    });
    for (const kind of ["pointerup", "pointercancel"]) svg.addEventListener(kind, () => (from = null));

    const bar = make("p", "turn-bar");
    bar.append(left, range, right);
    stage.append(svg, bar, said);
    show(0);
    return { stage, range };
  };

  const work = (look) => {
    const [link, views] = [look.querySelector(".turn"), look.querySelector(".finished")];
    const choice = look.querySelector(".painted-switch");
    if (choice) {
      choice.hidden = false;
      choice.addEventListener("change", () => paint(look));
    }
    // From a disc a script may read no files: there the link leads to the sheet of all sides.
    if (!link || location.protocol === "file:") return;
    const button = make("button", "turn-on", link.dataset.turn);
    const failed = make("span", "turn-failed");
    failed.setAttribute("role", "status");
    link.replaceWith(button, failed);
    let turned = null;
    const open = async () => {
      if (!turned) {
        const answer = await fetch(link.href);
        if (!answer.ok) throw new Error(String(answer.status));
        const file = new DOMParser().parseFromString(await answer.text(), "image/svg+xml");
        if (file.documentElement.localName !== "svg") throw new Error("no drawing");
        turned = turner(look, link, document.importNode(file.documentElement, true));
        views.after(turned.stage);
        paint(look);
      }
    };
    button.addEventListener("click", async () => {
      button.disabled = true;
      failed.textContent = "";
      try {
        await open();
        const turning = views.hidden;
        views.hidden = !turning;
        turned.stage.hidden = turning;
        button.textContent = turning ? link.dataset.turn : link.dataset.gone;
        button.disabled = false;
        (turning ? button : turned.range).focus();
      } catch {
        failed.textContent = link.dataset.failed;
        button.disabled = false;
      }
    });
  };

  document.querySelectorAll(".look").forEach(work);
})();
