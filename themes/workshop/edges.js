// Edges of pieces: pointing at a line of a drawing marks its name and length in the list below it, and
// a name marks its line. Without this script the list and the names in the drawing are read.
"use strict";

(() => {
  if (typeof module !== "undefined") return;

  const work = (piece) => {
    const lines = [...piece.querySelectorAll("svg .edge[data-edge]")];
    const items = [...piece.querySelectorAll(".edges [data-edge]")];
    if (!lines.length || !items.length) return;
    const buttons = items.map((item) => {
      const button = document.createElement("button");
      button.type = "button";
      button.setAttribute("aria-pressed", "false");
      button.append(...item.childNodes);
      item.append(button);
      return button;
    });
    let kept = "";
    const point = (edge) => {
      for (const line of lines) line.classList.toggle("pointed", line.dataset.edge === edge);
      items.forEach((item, at) => {
        item.classList.toggle("pointed", item.dataset.edge === edge);
        buttons[at].setAttribute("aria-pressed", String(item.dataset.edge === kept));
      });
    };
    const keep = (edge) => {
      kept = kept === edge ? "" : edge; // once more lets go
      point(kept);
    };
    for (const one of [...lines, ...items]) {
      const { edge } = one.dataset;
      one.addEventListener("pointerenter", (event) => event.pointerType === "mouse" && point(edge));
      one.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && point(kept));
      one.addEventListener("click", () => keep(edge));
      one.addEventListener("focusin", () => point(edge));
      one.addEventListener("focusout", () => point(kept));
    }
  };

  document.querySelectorAll(".piece").forEach(work);
})();
