// Words of the trade: their meaning beside the word, on hover, focus and the first tap (WCAG 2.2,
// 1.4.13). Without this script the link leads to the glossary, and its title tells the meaning.
"use strict";

(() => {
  if (typeof module !== "undefined") return;
  const links = [...document.querySelectorAll("a.to-term[title]")];
  if (!links.length) return;

  const LINGER = 200; // ms in which a pointer may cross from the word to its meaning
  const note = document.createElement("div");
  note.id = "meaning-of-term";
  note.className = "meaning";
  note.setAttribute("role", "tooltip");
  note.hidden = true;
  document.getElementById("main").append(note);
  let [shown, leaving] = [null, 0];

  const hide = () => {
    clearTimeout(leaving);
    shown?.removeAttribute("aria-describedby");
    shown = null;
    note.hidden = true;
  };
  const stay = () => clearTimeout(leaving);
  const leave = () => {
    stay();
    leaving = setTimeout(hide, LINGER);
  };
  // Below the last line of the word, or above the first where there is no room; never out of sight.
  const place = (link) => {
    const [lines, view] = [link.getClientRects(), document.documentElement];
    const [first, last] = [lines[0], lines[lines.length - 1]];
    const { width, height } = note.getBoundingClientRect();
    const below = last.bottom + height <= view.clientHeight || first.top < height;
    const left = Math.max(8, Math.min(last.left, view.clientWidth - width - 8));
    note.style.left = `${left + scrollX}px`;
    note.style.top = `${(below ? last.bottom : first.top - height) + scrollY}px`;
  };
  const show = (link) => {
    stay();
    if (shown === link) return;
    hide();
    shown = link;
    note.textContent = link.dataset.meaning;
    note.hidden = false;
    link.setAttribute("aria-describedby", note.id);
    place(link);
  };

  for (const link of links) {
    link.dataset.meaning = link.title;
    link.removeAttribute("title"); // the browser's own would cover it
    let first = false;
    link.addEventListener("pointerenter", (event) => event.pointerType === "mouse" && show(link));
    link.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && document.activeElement !== link && leave());
    link.addEventListener("pointerdown", (event) => {
      first = event.pointerType === "touch" && shown !== link;
    });
    link.addEventListener("focus", () => show(link));
    link.addEventListener("blur", leave);
    link.addEventListener("click", (event) => {
      if (!first) return;
      event.preventDefault(); // the first tap explains, the next one follows the link
      first = false;
      show(link);
    });
  }
  note.addEventListener("pointerenter", stay);
  note.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && document.activeElement !== shown && leave());
  document.addEventListener("pointerdown", (event) => {
    if (shown && event.target !== note && event.target !== shown) hide();
  });
  document.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !shown) return;
    event.stopPropagation();
    hide();
  }, true);
})();
