// Size finder: a body's measurements in, the size that serves it best out. What is typed stays on the
// device. Same rule as the program's own advice: leading measurements are lower limits; among the sizes
// that close, the root of the mean square of misfits in size steps.
"use strict";

(() => {
  const LONE_STEP = 0.05; // share of a measurement that stands for a step where sizes show none

  const TAPE = 2; // mm to which a tape is read
  const PER_UNIT = { mm: 1, cm: 10, in: 25.4 };

  // "345", "34.5", "34,5", "13 3/8" in mm, cm or inches → mm; NaN where it is no length.
  const readLength = (text, unit) => {
    const words = text.trim().replace(",", ".");
    const found = /^(\d+(?:\.\d+)?)?(?:\s*(?:^|\s)(\d+)\/(\d+))?$/.exec(words);
    if (!found || words === "") return NaN;
    // 133/8 is more likely 13 3/8 with its space forgotten than a true length.
    if (found[2] && Number(found[2]) >= Number(found[3])) return NaN;
    const number = Number(found[1] ?? 0) + (found[2] ? Number(found[2]) / Number(found[3]) : 0);
    const mm = number * PER_UNIT[unit];
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

  // Names of leading measurements in which a size is smaller than the body: it does not close.
  const tooSmall = (misfits, leads) =>
    misfits.filter((misfit) => leads.includes(misfit.name) && misfit.difference > TAPE).map((misfit) => misfit.name);

  // The size that closes and has least misfit, of the leading measurements alone where there are any; of
  // two alike the larger one. Where none closes, the one that lacks least. null without any measurement.
  const adviseSize = (sizes, body, leads = []) => {
    const steps = sizeSteps(sizes);
    const exact = (number) => Math.round(number * 1e9);
    let best = null;
    for (const size of sizes) {
      const misfits = misfitsOf(body, size, steps);
      if (!misfits.length) continue;
      const lead = misfits.filter((misfit) => leads.includes(misfit.name));
      const counted = lead.length ? lead : misfits;
      const score = Math.sqrt(counted.reduce((sum, misfit) => sum + misfit.steps ** 2, 0) / counted.length);
      const short = tooSmall(misfits, leads);
      const lacks = Math.max(0, ...lead.filter((misfit) => short.includes(misfit.name)).map((misfit) => misfit.steps));
      const better = best && (exact(lacks) - exact(best.lacks) || exact(score) - exact(best.score));
      if (!best || better <= 0) best = { size, score, misfits, short, lacks };
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

  const misfitWords = (misfit, unit) => {
    const off = Math.abs(misfit.difference);
    if (off <= TAPE) return say("fits");
    const share = Math.round(10 * Math.abs(misfit.steps)) / 10;
    const side = misfit.difference > 0 ? "more" : "less";
    return say(side, { length: units.text(off, { unit }), share });
  };

  // What is wrong at a measurement stands at its field: far off, or outside what a body can have.
  const warnings = (form, advice, body, unit) => {
    for (const field of form.querySelectorAll("[data-measure]")) {
      const { measure, least, most } = field.dataset;
      const [mm, misfit] = [body[measure], advice?.misfits.find((one) => one.name === measure)];
      const odd = mm < Number(least || 0) || mm > Number(most || Infinity);
      const short = advice?.short.includes(measure);
      let words = "";
      if (odd) words = say("odd", { least: units.text(Number(least || 0), { unit }), most: most ? units.text(Number(most), { unit }) : "–" });
      else if (short) words = say("too-small", { size: advice.size.name, length: units.text(misfit.difference, { unit }) });
      else if (misfit && Math.abs(misfit.steps) > 1) words = misfitWords(misfit, unit);
      const note = form.querySelector(`#note-${CSS.escape(measure)}`);
      if (note.textContent !== words) note.textContent = words;
    }
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
    const kind = advice.short.length ? ".finder-short" : far.length ? ".finder-far" : ".finder-near";
    place.append(form.querySelector(kind).content.cloneNode(true));
  };

  // What was typed comes back with the page, as long as its tab is open.
  const kept = (form, typed) => {
    const key = `guidegen/finder/${document.body.dataset.guide ?? location.pathname}`;
    try {
      if (typed) sessionStorage.setItem(key, JSON.stringify(typed));
      return typed ?? JSON.parse(sessionStorage.getItem(key) ?? "{}");
    } catch {
      return {}; // Private windows may refuse: then the fields begin empty.
    }
  };

  const work = (form) => {
    const sizes = JSON.parse(form.dataset.sizes);
    const leads = form.dataset.leads.split(" ").filter(Boolean);
    const fields = [...form.querySelectorAll("[data-measure]")];
    const tape = (unit) => form.querySelector(`[name="unit"][value="${unit}"]`);
    const before = kept(form);
    for (const field of fields) field.value = before[field.dataset.measure] ?? field.value;
    (tape(before.unit) ?? tape(units.unit() || form.dataset.unit)).checked = true;
    // A table in another unit is measured in that unit: 1000 beside mm is not 10 m.
    document.querySelector(".units select")?.addEventListener("change", () => {
      tape(units.unit() || form.dataset.unit).checked = true;
      find();
    });
    const find = () => {
      const unit = form.querySelector('[name="unit"]:checked').value;
      const body = {};
      for (const field of fields) {
        const mm = readLength(field.value, unit);
        const wrong = field.value.trim() !== "" && Number.isNaN(mm);
        field.setAttribute("aria-invalid", String(wrong));
        if (!Number.isNaN(mm)) body[field.dataset.measure] = mm;
      }
      form.querySelector(".finder-wrong").hidden = !form.querySelector('[aria-invalid="true"]');
      form.body = body; // for what is made to measure
      const advice = adviseSize(sizes, body, leads);
      answer(form, advice, unit);
      warnings(form, advice, body, unit);
    };
    const remember = () => {
      const unit = form.querySelector('[name="unit"]:checked').value;
      const typed = fields.map((field) => [field.dataset.measure, field.value]);
      kept(form, Object.fromEntries([["unit", unit], ...typed]));
    };
    form.addEventListener("submit", (event) => event.preventDefault());
    form.addEventListener("input", () => {
      find();
      remember();
    });
    // Measurements in mm that came with the page's address.
    form.setBody = (body) => {
      tape("mm").checked = true;
      for (const field of fields) field.value = body[field.dataset.measure] ?? field.value;
      find();
    };
    form.hidden = false;
    find();
  };

  // What makes templates to measure is a script of its own, which most readers of a page never need.
  const offerMeasured = (form) => {
    const area = form.querySelector(".measured");
    if (!area) return;
    area.hidden = false;
    const load = () => {
      if (area.dataset.loading) return;
      area.dataset.loading = "yes";
      const script = document.createElement("script");
      script.src = area.dataset.script;
      document.head.append(script);
    };
    for (const sign of ["focusin", "pointerdown"]) form.addEventListener(sign, load, { once: true });
    area.querySelector(".measured-make").addEventListener("click", () => {
      if (!area.dataset.ready) area.dataset.pressed = "yes"; // before the script was there
    });
    if (location.hash.startsWith("#measures=")) load();
  };

  document.querySelectorAll("form[data-sizes]").forEach((form) => {
    work(form);
    offerMeasured(form);
  });
})();
