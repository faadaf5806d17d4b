// Drawings large: a button opens a cut plan, template sheet or piece over the page; wheel, pinch,
// drag, keys and buttons bring it nearer. Beside pieces and templates stand the lengths of their edges.
// Without this script drawings stand in the page as they are.
"use strict";

(() => {
  const MOST = 12;

  // A view of a drawing, zoomed by `factor` around a point of it and kept inside the drawing.
  const zoomed = (view, whole, factor, [x, y]) => {
    const width = Math.min(whole.width, Math.max(whole.width / MOST, view.width / factor));
    const share = width / view.width;
    return inside({ x: x - (x - view.x) * share, y: y - (y - view.y) * share, width, height: view.height * share }, whole);
  };
  const inside = (view, whole) => ({
    ...view,
    x: Math.min(Math.max(view.x, whole.x), whole.x + whole.width - view.width),
    y: Math.min(Math.max(view.y, whole.y), whole.y + whole.height - view.height),
  });

  if (typeof module !== "undefined") {
    module.exports = { zoomed };
    return;
  }
  if (!window.HTMLDialogElement) return;

  const dialog = document.createElement("dialog");
  dialog.className = "zoom";
  const [stage, lists, bar] = ["div", "div", "p"].map((tag) => document.createElement(tag));
  lists.className = "zoom-edges";
  stage.className = "zoom-stage drawing";
  bar.className = "zoom-bar";
  dialog.append(stage, lists, bar);
  let [svg, home, whole, view] = [null, null, null, null];

  const show = (next) => {
    view = next;
    svg.setAttribute("viewBox", `${view.x} ${view.y} ${view.width} ${view.height}`);
  };
  const middle = () => [view.x + view.width / 2, view.y + view.height / 2];
  const at = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [point.x, point.y];
  };
  const step = (factor) => show(zoomed(view, whole, factor, middle()));
  const move = (right, down) =>
    show(inside({ ...view, x: view.x + right * view.width, y: view.y + down * view.height }, whole));

  const button = (name, words, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.setAttribute("aria-label", say(name));
    made.addEventListener("click", act);
    bar.append(made);
  };
  button("zoom-in", "+", () => step(1.5));
  button("zoom-out", "\u2212", () => step(1 / 1.5));
  button("zoom-all", say("zoom-all"), () => show(whole));
  button("zoom-close", "\u00d7", () => dialog.close());

  const open = (drawing) => {
    svg = drawing;
    const box = svg.viewBox.baseVal;
    whole = { x: box.x, y: box.y, width: box.width, height: box.height };
    home = document.createComment("");
    svg.replaceWith(home);
    stage.append(svg);
    const pieces = [...svg.querySelectorAll("[data-piece]")].map((one) => one.dataset.piece);
    lists.replaceChildren(...edges.beside([...new Set(pieces)]));
    dialog.setAttribute("aria-label", svg.querySelector("title")?.textContent ?? "");
    dialog.showModal();
    show(whole);
  };
  dialog.addEventListener("close", () => {
    show(whole);
    home.replaceWith(svg);
    lists.replaceChildren();
  });
  dialog.addEventListener("keydown", (event) => {
    const acts = {
      "+": () => step(1.5), "=": () => step(1.5), "-": () => step(1 / 1.5), "0": () => show(whole),
      ArrowLeft: () => move(-0.15, 0), ArrowRight: () => move(0.15, 0),
      ArrowUp: () => move(0, -0.15), ArrowDown: () => move(0, 0.15),
    };
    if (event.ctrlKey || event.metaKey || event.altKey || !acts[event.key]) return;
    event.preventDefault();
    acts[event.key]();
  });
  stage.addEventListener("wheel", (event) => {
    event.preventDefault();
    show(zoomed(view, whole, Math.exp(-event.deltaY / 400), at(event)));
  }, { passive: false });

  const STILL = 4; // px; a finger that moves less taps
  const [fingers, starts] = [new Map(), new Map()];
  stage.addEventListener("pointerdown", (event) => {
    fingers.set(event.pointerId, event);
    starts.set(event.pointerId, event);
  });
  stage.addEventListener("pointermove", (event) => {
    const [before, start] = [fingers.get(event.pointerId), starts.get(event.pointerId)];
    if (!before) return;
    if (!stage.hasPointerCapture(event.pointerId)) {
      if (fingers.size < 2 && Math.hypot(event.clientX - start.clientX, event.clientY - start.clientY) < STILL) return;
      stage.setPointerCapture(event.pointerId); // from here on it is no tap on what lies under it
    }
    const other = [...fingers.values()].find((one) => one.pointerId !== event.pointerId);
    if (other) {
      const far = (one) => Math.hypot(one.clientX - other.clientX, one.clientY - other.clientY);
      if (far(before) > 0) show(zoomed(view, whole, far(event) / far(before), at(other)));
    } else {
      const [[x, y], [newX, newY]] = [at(before), at(event)];
      show(inside({ ...view, x: view.x + x - newX, y: view.y + y - newY }, whole));
    }
    fingers.set(event.pointerId, event);
  });
  for (const kind of ["pointerup", "pointercancel"]) {
    stage.addEventListener(kind, (event) => fingers.delete(event.pointerId));
  }

  // The style sheet keeps room for their buttons: its rule names the same drawings.
  const figures = document.querySelectorAll(
    ":is(.sheets, .maps, .piece, .cover, .size-top, .lengths) > .drawing:has(> svg),"
    + " .drawing:is(.wide, .joins, .body)",
  );
  if (figures.length) document.body.append(dialog);
  for (const figure of figures) {
    const opener = document.createElement("button");
    opener.type = "button";
    opener.className = "enlarge";
    const name = figure.querySelector("title")?.textContent ?? "";
    opener.setAttribute("aria-label", say("enlarge", { drawing: name }));
    opener.textContent = "+";
    opener.addEventListener("click", () => open(figure.querySelector("svg")));
    // Maps are small: a touch opens them, on an edge with its length.
    if (figure.parentElement.matches(".maps")) {
      figure.querySelector("svg").addEventListener("click", () => dialog.open || open(figure.querySelector("svg")));
    }
    figure.append(opener);
  }
})();
