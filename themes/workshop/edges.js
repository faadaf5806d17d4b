// Edges of pieces: pointing at a line of a drawing marks its name and length in the lists, and a name
// marks its lines: of the piece, and of its template among the template sheets. Without this script
// the lists and the names in the drawings are read.
"use strict";

const edges = (() => {
  if (typeof module !== "undefined") return null;

  const keyOf = (one) => `${one.dataset.piece} ${one.dataset.edge}`;
  const selector = "[data-piece][data-edge]";
  let [kept, pointed] = ["", ""];

  // Lines and names of one edge are marked, wherever they stand; those of the last one no more.
  const point = (key) => {
    for (const one of document.querySelectorAll(selector)) {
      const own = keyOf(one);
      if (own !== key && own !== pointed && own !== kept) continue;
      one.classList.toggle("pointed", own === key || own === kept);
      one.querySelector("button")?.setAttribute("aria-pressed", String(own === kept));
    }
    pointed = key;
  };
  const keep = (key) => {
    const before = kept;
    kept = before === key ? "" : key; // once more lets go
    point(before);
    point(kept);
  };
  const own = (event) => (event.target instanceof Element ? event.target.closest(selector) : null);
  const hover = (event, key) => event.pointerType === "mouse" && own(event) && point(key(own(event)));
  document.addEventListener("pointerover", (event) => hover(event, keyOf));
  document.addEventListener("pointerout", (event) => hover(event, () => kept));
  document.addEventListener("focusin", (event) => own(event) && point(keyOf(own(event))));
  document.addEventListener("focusout", (event) => own(event) && point(kept));
  document.addEventListener("click", (event) => {
    const edge = own(event);
    if (!edge) return;
    keep(keyOf(edge));
    if (edge.closest("svg")) document.querySelector("dialog[open] [aria-pressed=true]")?.scrollIntoView({ block: "nearest" });
  });

  // The lists beside a drawing that is shown large: [id of a piece] → heading and names with lengths.
  const beside = (pieces) => pieces.flatMap((piece) => {
    const shown = document.getElementById(`piece-${piece}`);
    const [name, list] = [shown?.querySelector("h3"), shown?.querySelector(".edges")];
    return name && list ? [name.cloneNode(true), list.cloneNode(true)] : [];
  });

  for (const line of document.querySelectorAll(".edge-line")) {
    line.setAttribute("vector-effect", "non-scaling-stroke"); // as wide under a finger at any scale
  }
  for (const piece of document.querySelectorAll("article.piece")) {
    for (const one of piece.querySelectorAll("svg .edge[data-edge], .edges [data-edge]")) {
      one.dataset.piece = piece.id.replace("piece-", "");
    }
    for (const item of piece.querySelectorAll(".edges [data-edge]")) {
      const button = document.createElement("button");
      button.type = "button";
      button.setAttribute("aria-pressed", "false");
      button.append(...item.childNodes);
      item.append(button);
    }
  }
  return { beside };
})();
