// Size finder: a body's measurements in, the size of least misfit out. What is typed stays in the
// page. Same rule as the program's own advice: root of the mean square of misfits in size steps.
"use strict";

(() => {
  const LONE_STEP = 0.05; // share of a measurement that stands for a step where sizes show none

  // "34.5", "34,5", "13 3/8" in cm or inches → mm; NaN where it is no length.
  const readLength = (text, unit) => {
    const words = text.trim().replace(",", ".");
    const found = /^(\d+(?:\.\d+)?)?(?:\s*(?:^|\s)(\d+)\/(\d+))?$/.exec(words);
    if (!found || words === "") return NaN;
    // 133/8 is more likely 13 3/8 with its space forgotten than a true length.
    if (found[2] && Number(found[2]) >= Number(found[3])) return NaN;
    const number = Number(found[1] ?? 0) + (found[2] ? Number(found[2]) / Number(found[3]) : 0);
    const mm = number * (unit === "in" ? 25.4 : 10);
    return Number.isFinite(mm) && mm > 0 ? mm : NaN;
  };

  // What each measurement changes from one size to the next, on average, in mm.
  const sizeSteps = (sizes) => {
    const steps = {};
    for (const name of new Set(sizes.flatMap((size) => Object.keys(size.values)))) {
      const values = sizes.map((size) => size.values[name]).filter((value) => value !== undefined);
      const most = Math.max(...values);
      const step = (most - Math.min(...values)) / Math.max(1, values.length - 1);
      steps[name] = step || LONE_STEP * most;
    }
    return steps;
  };

  // Misfits of one size, the farthest off first.
  const misfitsOf = (body, size, steps) =>
    Object.keys(size.values)
      .filter((name) => name in body)
      .map((name) => {
        const difference = body[name] - size.values[name];
        return { name, difference, steps: difference / steps[name] };
      })
      .sort((a, b) => Math.abs(b.steps) - Math.abs(a.steps) || (a.name < b.name ? -1 : 1));

  // The size of least misfit; of two alike the larger one. null without any measurement.
  const adviseSize = (sizes, body) => {
    const steps = sizeSteps(sizes);
    let best = null;
    for (const size of sizes) {
      const misfits = misfitsOf(body, size, steps);
      if (!misfits.length) continue;
      const squares = misfits.reduce((sum, misfit) => sum + misfit.steps ** 2, 0);
      const score = Math.sqrt(squares / misfits.length);
      if (!best || Math.round(score * 1e9) <= Math.round(best.score * 1e9)) {
        best = { size, score, misfits };
      }
    }
    return best;
  };

  if (typeof module !== "undefined") {
    module.exports = { adviseSize, readLength };
    return;
  }

  const element = (tag, words, name = "") => {
    const made = document.createElement(tag);
    made.textContent = words;
    if (name) made.className = name;
    return made;
  };

  const lengthWords = (mm, unit) =>
    unit === "in" ? units.text(mm, { unit }) : say("{number}\u00a0cm", { number: Math.round(mm) / 10 });

  const misfitWords = (misfit, unit) => {
    const off = Math.abs(misfit.difference);
    if (off < 0.5) return say("fits");
    const share = Math.round(10 * Math.abs(misfit.steps)) / 10;
    const side = misfit.difference > 0 ? "more" : "less";
    return say(side, { length: lengthWords(off, unit), share });
  };

  const answer = (form, advice, unit) => {
    const place = form.querySelector(".finder-answer");
    place.replaceChildren();
    if (!advice) return;
    const head = element("p", `${say("your-size")} `, "finder-size");
    const link = element("a", advice.size.name);
    link.href = advice.size.href;
    link.dataset.sizeLink = advice.size.name;
    head.append(link);
    const list = element("ul", "", "pairs finder-misfits");
    for (const misfit of advice.misfits) {
      const row = element("li", "");
      const label = form.querySelector(`[for="measure-${misfit.name}"]`).textContent;
      row.append(element("div", label, "term"), element("div", misfitWords(misfit, unit), "def"));
      list.append(row);
    }
    place.append(head, list);
    const far = advice.misfits.filter((misfit) => Math.abs(misfit.steps) > 1);
    place.append(form.querySelector(far.length ? ".finder-far" : ".finder-near").content.cloneNode(true));
  };

  const work = (form) => {
    const sizes = JSON.parse(form.dataset.sizes);
    const find = () => {
      const unit = form.querySelector('[name="unit"]:checked').value;
      const body = {};
      for (const field of form.querySelectorAll("[data-measure]")) {
        const mm = readLength(field.value, unit);
        const wrong = field.value.trim() !== "" && Number.isNaN(mm);
        field.setAttribute("aria-invalid", String(wrong));
        if (!Number.isNaN(mm)) body[field.dataset.measure] = mm;
      }
      form.querySelector(".finder-wrong").hidden = !form.querySelector('[aria-invalid="true"]');
      answer(form, adviseSize(sizes, body), unit);
    };
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", find);
    form.hidden = false;
    find();
  };

  document.querySelectorAll("form[data-sizes]").forEach(work);
})();
