// Filter of the home page: guides that hold every word that is typed, in any order.
"use strict";

(() => {
  // Letters without marks and in one case: "Gürtel" is found by "gurtel".
  const plain = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
  const holds = (text, asked) => {
    const words = plain(text);
    return plain(asked).split(/\s+/).every((word) => words.includes(word));
  };

  if (typeof module !== "undefined") {
    module.exports = { holds };
    return;
  }

  for (const form of document.querySelectorAll(".filter")) {
    const field = form.querySelector("input");
    const cards = [...document.querySelectorAll("[data-words]")];
    const further = form.querySelector(".search-all");
    const start = further.href;
    const show = () => {
      further.href = field.value.trim() ? `${start}?q=${encodeURIComponent(field.value.trim())}` : start;
      for (const card of cards) card.hidden = !holds(card.dataset.words, field.value);
      const left = cards.filter((card) => !card.hidden).length;
      form.querySelector("[role=status]").textContent = say("guides-shown", { left, count: cards.length });
    };
    form.addEventListener("submit", (event) => event.preventDefault());
    field.addEventListener("input", show);
    form.hidden = false;
    show();
  }
})();
