// Units and size, chosen once: kept on the device, and in the address, so that a copied link carries
// them. Lengths on the page carry their value in mm; without this script both units are shown.
"use strict";

(() => {
  const MM_PER_INCH = 25.4;
  const UNITS = ["mm", "cm", "in"];

  // mm → inches with the nearest sixteenth: 82.55 → "3 1/4". Same rule as the program's.
  const inchText = (mm) => {
    let rest = evenRound((Math.abs(mm) / MM_PER_INCH) * 16);
    const sign = mm < 0 && rest ? "-" : "";
    const whole = Math.floor(rest / 16);
    rest %= 16;
    if (!rest) return `${sign}${whole}`;
    let below = 16;
    while (rest % 2 === 0) [rest, below] = [rest / 2, below / 2];
    return `${sign}${whole ? `${whole} ` : ""}${rest}/${below}`;
  };

  // Halves to the even side, as Python rounds.
  const evenRound = (number) => {
    const low = Math.floor(number);
    if (number - low !== 0.5) return Math.round(number);
    return low % 2 ? low + 1 : low;
  };

  const lengthText = (mm, unit, language) => {
    const say = (number, digits) =>
      new Intl.NumberFormat(language, {
        maximumFractionDigits: digits,
        roundingMode: "halfEven",
        useGrouping: false,
      }).format(number);
    if (unit === "in") return `${inchText(mm)}\u00a0in`;
    if (unit === "cm") return `${say(mm / 10, mm >= 100 ? 1 : 2)}\u00a0cm`;
    return `${say(mm, mm >= 100 ? 0 : 1)}\u00a0mm`;
  };

  if (typeof module !== "undefined") {
    module.exports = { inchText, lengthText };
    return;
  }

  const store = (key, value) => {
    try {
      if (value === undefined) return localStorage.getItem(`guidegen/${key}`) ?? "";
      if (value) localStorage.setItem(`guidegen/${key}`, value);
      else localStorage.removeItem(`guidegen/${key}`);
      return value;
    } catch {
      return null; // Private windows may refuse: links then carry the choice from page to page.
    }
  };

  const root = document.documentElement;
  const asked = new URLSearchParams(location.search);
  const guide = document.body.dataset.guide ?? "";
  const [ownSize, sizes] = [document.body.dataset.size ?? "", (document.body.dataset.sizes ?? "").split(" ").filter(Boolean)];
  const choice = { unit: asked.get("unit") ?? store("unit") ?? "", size: "" };
  if (!UNITS.includes(choice.unit)) choice.unit = "";
  if (sizes.length > 1) {
    const named = ownSize || asked.get("size") || store(`${guide}/size`) || "";
    choice.size = sizes.includes(named) ? named : "";
  }

  const remember = () => {
    store("unit", choice.unit);
    if (choice.size) store(`${guide}/size`, choice.size);
    const params = new URLSearchParams(location.search);
    for (const key of ["unit", "size"]) {
      // The address of a size's own page tells its size already.
      if (choice[key] && !(key === "size" && ownSize)) params.set(key, choice[key]);
      else if (key === "unit" || sizes.length > 1) params.delete(key);
    }
    const query = params.toString();
    history.replaceState(history.state, "", `${location.pathname}${query ? `?${query}` : ""}${location.hash}`);
    if (store("unit") !== null) return;
    for (const link of document.querySelectorAll("a[href]")) {
      const url = new URL(link.href, location.href);
      if (url.origin !== location.origin || link.getAttribute("href").startsWith("#")) continue;
      for (const key of ["unit", "size"]) if (choice[key]) url.searchParams.set(key, choice[key]);
      link.href = url.href;
    }
  };

  const showUnits = () => {
    if (choice.unit) root.dataset.unit = choice.unit;
    else delete root.dataset.unit;
    for (const one of document.querySelectorAll("[data-mm]")) {
      one.dataset.said ??= one.textContent;
      const mm = Number(one.dataset.mm);
      const drawn = one.namespaceURI.endsWith("svg");
      if (!choice.unit || (drawn && choice.unit !== "in")) one.textContent = one.dataset.said;
      else one.textContent = drawn ? `${inchText(mm)}\u2033` : lengthText(mm, choice.unit, root.lang);
    }
  };

  const showSize = () => {
    if (!choice.size) return;
    for (const one of document.querySelectorAll("[data-for-size]")) {
      const chosen = one.dataset.forSize === choice.size;
      one.classList.toggle("chosen", chosen);
      if (chosen && one.matches("option")) one.closest("select").value = choice.size;
    }
    for (const link of document.querySelectorAll("a[data-to-size]")) {
      link.href = link.dataset.toSize.replace("*", encodeURIComponent(choice.size));
    }
    document.dispatchEvent(new CustomEvent("guidegen-size", { detail: choice.size }));
  };

  const chooser = document.querySelector(".units");
  if (chooser) {
    const select = chooser.querySelector("select");
    select.value = choice.unit;
    select.addEventListener("change", () => {
      choice.unit = select.value;
      remember();
      showUnits();
    });
    chooser.hidden = false;
  }
  const tape = document.querySelector(`.finder-unit [value="${choice.unit === "in" ? "in" : "cm"}"]`);
  if (tape && choice.unit) tape.checked = true;

  // A size that is found, or whose page is opened, is the reader's.
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a[data-size-link]") : null;
    if (link && guide) store(`${guide}/size`, link.dataset.sizeLink);
  });

  if (choice.unit || choice.size) remember();
  if (choice.unit) showUnits();
  showSize();
})();
