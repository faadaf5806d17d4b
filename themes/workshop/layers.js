// Layer stacks: a slider puts the layers together, and a layer and its line of the table show one
// another. Without this script the layers are pulled apart and named in the drawing.
"use strict";

(() => {
  if (typeof module !== "undefined") return;

  const work = (stack) => {
    const layers = [...stack.querySelectorAll("svg .layer[data-lift]")];
    const rows = [...stack.querySelectorAll("tbody tr")];
    const control = stack.querySelector(".apart");
    if (!layers.length || !control) return;
    const [range, drawing] = [control.querySelector("input"), layers[0].ownerSVGElement];
    range.addEventListener("input", () => {
      const apart = Number(range.value) / 100;
      for (const layer of layers) {
        layer.setAttribute("transform", `translate(0 ${Number(layer.dataset.lift) * (1 - apart)})`);
      }
      drawing.classList.toggle("closing", apart < 0.95); // names would meet; the table has them
    });
    control.hidden = false;
    const point = (number) => {
      layers.forEach((layer, at) => layer.classList.toggle("pointed", at === number));
      rows.forEach((row, at) => row.classList.toggle("pointed", at === number));
    };
    [layers, rows].forEach((ones) => ones.forEach((one, at) => {
      for (const kind of ["pointerenter", "click", "focusin"]) one.addEventListener(kind, () => point(at));
      one.addEventListener("pointerleave", (event) => {
        if (event.pointerType === "mouse") point(-1);
      });
    }));
  };

  document.querySelectorAll(".stack").forEach(work);
})();
