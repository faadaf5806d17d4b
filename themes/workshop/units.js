// Units and size, chosen once: kept on the device, and in the address, so that a copied link carries
// them. Lengths on the page, in its texts and in its drawings carry their value in mm; without this
// script both units are shown, or the author's.
"use strict";

const units = (() => {
  const MM_PER_INCH = 25.4;
  const FINE = 1.5; // mm; what is shorter is told in 64ths: a sixteenth would be half of it off
  const UNITS = ["mm", "cm", "in"];

  // mm → inches with the nearest sixteenth: 82.55 → "3 1/4". Same rule as the program's.
  const inchText = (mm, denominator = 16) => {
    let rest = evenRound((Math.abs(mm) / MM_PER_INCH) * denominator);
    const sign = mm < 0 && rest ? "-" : "";
    const whole = Math.floor(rest / denominator);
    rest %= denominator;
    if (!rest) return `${sign}${whole}`;
    let below = denominator;
    while (rest % 2 === 0) [rest, below] = [rest / 2, below / 2];
    return `${sign}${whole ? `${whole} ` : ""}${rest}/${below}`;
  };

  // Halves to the even side, as Python rounds.
  const evenRound = (number) => {
    const low = Math.floor(number);
    if (number - low !== 0.5) return Math.round(number);
    return low % 2 ? low + 1 : low;
  };

  // A length in a unit; `bare` without its name, `drawn` as short as drawings write it. Empty where it
  // is too short for the fractions of an inch.
  const lengthText = (mm, unit, language, { inch = "in", bare = false, drawn = false } = {}) => {
    const say = (number, digits) =>
      new Intl.NumberFormat(language, {
        maximumFractionDigits: digits,
        roundingMode: "halfEven",
        useGrouping: false,
      }).format(number);
    if (unit === "in") {
      const words = inchText(mm, Math.abs(mm) < FINE ? 64 : 16);
      if (words === "0" && mm) return "";
      return bare ? words : drawn ? `${words}\u2033` : `${words}\u00a0${inch}`;
    }
    const words = unit === "cm" ? say(mm / 10, mm >= 100 ? 1 : 2) : say(mm, mm >= 100 ? 0 : 1);
    // A number alone is mm in a drawing (ISO 129-1), and nothing else.
    return bare || (drawn && unit === "mm") ? words : `${words}\u00a0${unit}`;
  };

  // A text with other words in places of it: [[start, end, words], …].
  const replaced = (text, places) => {
    const letters = [...text]; // places count characters, not halves of them
    for (const [start, end, words] of [...places].reverse()) letters.splice(start, end - start, words);
    return letters.join("");
  };

  // An address with the size put in after so many letters, "57 120", counted without it.
  const sizedAddress = (address, places, size) => replaced(address,
    places.split(" ").map((at) => [Number(at), Number(at), encodeURIComponent(size)]));

  if (typeof module !== "undefined") {
    module.exports = { inchText, lengthText, replaced, sizedAddress };
    return null;
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
      if (url.protocol !== location.protocol || url.origin !== location.origin || link.getAttribute("href").startsWith("#")) continue;
      for (const key of ["unit", "size"]) if (choice[key]) url.searchParams.set(key, choice[key]);
      link.href = url.href;
    }
  };

  const text = (mm, { unit = choice.unit || "mm", ...how } = {}) =>
    lengthText(mm, unit, root.lang, { inch: say("inch"), ...how });

  // What a length says: as it was written where that is the unit, or close to it, or where no other fits.
  const lengthOf = (one) => {
    const { mm, said, written = "mm" } = one.dataset;
    const long = choice.unit !== "in" && said.endsWith("\u00a0m");
    if (!choice.unit || choice.unit === written || long) return said;
    return text(Number(mm), { bare: "bare" in one.dataset, drawn: one.localName === "text" || "drawn" in one.dataset }) || said;
  };
  const nameOf = ({ dataset: { said, lengths } }) =>
    !choice.unit || choice.unit === "mm" ? said : replaced(said, lengths.split(" ").map((one) => {
      const [start, end, mm, bare] = one.split(",");
      return [Number(start), Number(end), text(Number(mm), { bare: bare !== undefined }) || [...said].slice(start, end).join("")];
    }));
  const unitName = ({ dataset }) =>
    choice.unit ? document.querySelector(`#units [value="${choice.unit}"]`)?.textContent ?? dataset.said : dataset.said;

  // Words of a drawing that have grown are written smaller until they leave neighbours and edges alone.
  const SMALLEST = 0.6;
  const over = (one, other) =>
    one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
  const boxOf = (one) => {
    const { left, right, top, bottom } = one.getBoundingClientRect();
    const [aside, down] = bottom - top < right - left ? [0, (bottom - top) / 4] : [(right - left) / 4, 0];
    return { left: left + aside, right: right - aside, top: top + down, bottom: bottom - down }; // the letters alone
  };
  const fit = (drawing) => {
    const [texts, sheet] = [[...drawing.querySelectorAll("text")], drawing.getBoundingClientRect()];
    if (!sheet.width) return;
    const changed = texts.filter((one) => one.matches("[data-said]") || one.querySelector("[data-said]"));
    for (const one of changed) one.style.fontSize = "";
    const boxes = new Map(texts.map((one) => [one, boxOf(one)]));
    const free = (one, box) => box.left >= sheet.left - 1 && box.right <= sheet.right + 1 &&
      texts.every((other) => other === one || !over(box, boxes.get(other)));
    for (const one of changed) {
      const size = Number(one.getAttribute("font-size"));
      for (let share = 1; share > SMALLEST && choice.unit && !free(one, boxes.get(one)); share -= 0.1) {
        one.style.fontSize = `${size * (share - 0.1)}px`;
        boxes.set(one, boxOf(one));
      }
    }
  };
  // Drawings are measured once they come into view: what is not shown has no size.
  const seen = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) if (isIntersecting) fit(target);
  });
  const fitDrawings = () => {
    seen.disconnect();
    for (const drawing of document.querySelectorAll(".drawing svg:has([data-said])")) seen.observe(drawing);
  };

  const showUnits = (place = document) => {
    if (choice.unit) root.dataset.unit = choice.unit;
    else delete root.dataset.unit;
    for (const [kind, words] of [["mm", lengthOf], ["lengths", nameOf], ["unit-name", unitName]]) {
      for (const one of place.querySelectorAll(`[data-${kind}]`)) {
        one.dataset.said ??= one.textContent;
        const now = words(one);
        if (one.textContent !== now) one.textContent = now;
      }
    }
    if (place === document) fitDrawings();
  };

  const showSize = () => {
    if (!choice.size) return;
    for (const one of document.querySelectorAll("[data-for-size]")) {
      const chosen = one.dataset.forSize === choice.size;
      one.classList.toggle("chosen", chosen);
      if (chosen && one.matches("option")) one.closest("select").value = choice.size;
      if (one.matches("details")) {
        one.open = chosen;
        // Files of the chosen size come first.
        if (chosen) one.parentElement.querySelector("details[data-for-size]").before(one);
      }
    }
    // Numbers in words that differ from size to size: those of the chosen size alone.
    for (const one of document.querySelectorAll(".by-size")) {
      for (const part of one.querySelectorAll("[data-in-sizes], .of-size")) {
        const { inSizes } = part.dataset;
        part.hidden = inSizes === undefined || !inSizes.split(" ").includes(choice.size);
      }
    }
    for (const link of document.querySelectorAll("a[data-to-size]")) {
      link.href = link.dataset.toSize.replace("*", encodeURIComponent(choice.size));
    }
    // A reported mistake tells the size: letters of the address after which it belongs.
    for (const link of document.querySelectorAll("a[data-size-at]")) {
      link.dataset.unsized ??= link.getAttribute("href");
      link.href = sizedAddress(link.dataset.unsized, link.dataset.sizeAt, choice.size);
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
  // A size that is found, or whose page is opened, is the reader's.
  document.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a[data-size-link]") : null;
    if (link && guide) store(`${guide}/size`, link.dataset.sizeLink);
  });

  if (choice.unit || choice.size) remember();
  if (choice.unit) showUnits();
  showSize();
  // For scripts that write lengths: in the reader's unit, and again when the reader takes another.
  return { text, show: showUnits, unit: () => choice.unit };
})();
