// What a reader has already: ticks and amounts beside the materials, from which packs, what stays over,
// cost and total are worked out anew. Without this script the list stands as it was pressed.
"use strict";

(() => {
  const EPSILON = 1e-9;
  const MOST = 20000;
  const MM = { mm: 1, cm: 10, in: 25.4 };

  // "2.5", "2,5" → number; null where it is no amount.
  const readAmount = (text) => {
    const plain = text.trim().replace(",", ".");
    return /^\d{1,7}(\.\d{0,3})?$/.test(plain) ? Number(plain) : null;
  };

  // The cheapest mix of kinds with at least `need`; of equals, the one with the least left over: the
  // same search as the program's. [need, [{amount, price}]] → count of each kind.
  const choosePacks = (need, offers) => {
    const order = offers.map((_, at) => at).sort((a, b) =>
      offers[a].price / offers[a].amount - offers[b].price / offers[b].amount || offers[b].amount - offers[a].amount);
    const kinds = order.map((at) => offers[at]);
    let [best, tries] = [{ price: Infinity, over: Infinity, counts: [] }, 0];
    const whole = (amount, pack) => Math.max(0, Math.ceil(amount / pack.amount - EPSILON));
    const choose = (index, counts, missing, paid) => {
      const bulk = kinds[0];
      if (index === kinds.length) {
        const fill = whole(missing, bulk);
        const [price, over] = [paid + fill * bulk.price, fill * bulk.amount - missing];
        if (price < best.price || (price === best.price && over < best.over)) best = { price, over, counts: [fill, ...counts] };
        return;
      }
      for (let count = 0; count <= whole(missing, kinds[index]); count += 1) {
        tries += 1;
        const [rest, cost] = [missing - count * kinds[index].amount, paid + count * kinds[index].price];
        const floor = cost + (Math.max(0, rest) * bulk.price) / bulk.amount;
        if (floor > best.price + EPSILON || (count && tries > MOST)) return;
        choose(index + 1, [...counts, count], rest, cost);
      }
    };
    if (need > 0 && kinds.length) choose(1, [], need, 0);
    const found = offers.map(() => 0);
    best.counts.forEach((count, at) => (found[order[at]] = count));
    return found;
  };

  // Lengths are never joined: a length at hand stands in for packs that are together no longer than
  // it, the dearest first, or for all where it holds the whole need.
  const keepLengths = (need, packs, has) => {
    if (has >= need - EPSILON) return packs.map(() => 0);
    const [counts, dearest] = [packs.map((pack) => pack.count), packs.map((_, at) => at)];
    dearest.sort((a, b) => packs[b].price - packs[a].price);
    let room = has;
    for (const at of dearest) {
      const spared = Math.min(counts[at], Math.floor(room / packs[at].amount + EPSILON));
      counts[at] -= spared;
      room -= spared * packs[at].amount;
    }
    return counts;
  };

  // Sheets count by kind, since a plan is laid on sheets of that size.
  const keepSheets = (packs, has) => packs.map((pack, at) =>
    Math.max(0, Math.ceil(pack.count - Math.floor(has[at] ?? 0) / pack.amount - EPSILON)));

  // { unit, need, likely, packs, offers } and what is there → { packs with counts, left, cost }.
  const reckon = (line, has) => {
    const total = has.reduce((sum, one) => sum + (one ?? 0), 0);
    const from = line.unit === "ml" || line.unit === "pieces" ? line.offers : line.packs;
    let counts = [];
    if (line.unit === "sheets") counts = keepSheets(from, has);
    else if (line.unit === "mm") counts = keepLengths(line.need, from, total);
    else counts = choosePacks(line.need - total, from);
    const packs = from.map((pack, at) => ({ ...pack, count: counts[at] })).filter((pack) => pack.count);
    packs.sort((a, b) => b.amount - a.amount);
    const sum = (of) => packs.reduce((so_far, pack) => so_far + pack.count * of(pack), 0);
    return { packs, left: Math.max(0, sum((pack) => pack.amount) + total - line.likely), cost: sum((pack) => pack.price) };
  };

  if (typeof module !== "undefined") {
    module.exports = { readAmount, choosePacks, keepLengths, keepSheets, reckon };
    return;
  }

  const language = document.documentElement.lang;
  const figure = (number, digits) =>
    new Intl.NumberFormat(language, { maximumFractionDigits: digits, useGrouping: false }).format(number);
  const amountWords = (amount, unit) => {
    if (unit === "ml") return amount >= 1000 ? `${figure(amount / 1000, 2)}\u00a0l` : `${figure(amount, amount >= 10 ? 0 : 1)}\u00a0ml`;
    if (unit === "mm") return amount >= 1000 && units.unit() !== "in" ? `${figure(amount / 1000, 2)}\u00a0m` : units.text(amount);
    return figure(amount, 1);
  };
  const moneyWords = (price, currency) => {
    const digits = Number.isInteger(Math.round(price * 100) / 100) ? 0 : 2;
    return new Intl.NumberFormat(language, { style: "currency", currency, minimumFractionDigits: digits, maximumFractionDigits: digits }).format(price);
  };
  const stored = (key, value) => {
    try {
      if (value === undefined) return localStorage.getItem(key) ?? "";
      if (value) localStorage.setItem(key, value);
      else localStorage.removeItem(key);
    } catch {
      // Nothing can be kept: amounts then last for the page.
    }
    return "";
  };

  const part = (words, kind) => Object.assign(document.createElement("span"), { className: kind, textContent: words });
  // The words of a pack with another count: it comes first in them.
  const counted = ({ shown, count }) => {
    const words = shown.cloneNode(true);
    words.firstChild.data = words.firstChild.data.replace(/^\S+/, figure(count, 0));
    return words;
  };

  const lineOf = (row, name) => {
    const pack = (shown) => ({
      count: Number(shown.dataset.count), amount: Number(shown.dataset.amount), price: Number(shown.dataset.price), shown,
    });
    const [packsCell, costCell] = [row.querySelector(".packs"), row.querySelector("[data-column=cost]")];
    return {
      row, packsCell, costCell,
      key: `${name}/have/${row.dataset.tick}`,
      unit: row.dataset.unit,
      need: Number(row.dataset.need),
      likely: Number(row.dataset.likely),
      whole: Number(row.dataset.cost),
      cost: Number(row.dataset.cost),
      // A line whose price nobody has looked up tells none, whatever it is reckoned with.
      priced: costCell.textContent.trim() !== "",
      packs: [...packsCell.querySelectorAll(".pack")].map(pack),
      offers: JSON.parse(row.dataset.offers ?? "[]").map((offer) => ({ ...offer, shown: part(offer.words, "pack") })),
      tick: row.querySelector(".tick input"),
      inputs: [...row.querySelectorAll(".have input")],
      before: [packsCell, costCell].map((cell) => [...cell.childNodes]),
    };
  };

  // Lengths are typed in the unit that the reader chose, or in cm; kept in mm.
  const chosen = () => units.unit() || "cm";
  const scale = (line) => (line.unit === "mm" ? MM[chosen()] : 1);

  // What is no amount counts as nothing, and says so below its field.
  const showRefusal = (input, wrong) => {
    const label = input.closest(".have");
    let note = label.nextElementSibling?.matches(".have-wrong") ? label.nextElementSibling : null;
    if (!wrong) return note?.remove();
    if (!note) {
      note = Object.assign(part(say("have-wrong"), "have-wrong"), { id: `wrong-${count += 1}` });
      note.setAttribute("role", "alert");
      input.setAttribute("aria-describedby", note.id);
      label.after(note);
    }
    return undefined;
  };
  let count = 0;

  const showLine = (line, currency) => {
    const typed = line.inputs.map((input) => readAmount(input.value));
    line.inputs.forEach((input, at) => {
      const wrong = input.value.trim() !== "" && typed[at] === null;
      input.setAttribute("aria-invalid", String(wrong));
      showRefusal(input, wrong);
    });
    const has = typed.map((one) => (one ?? 0) * scale(line));
    const ticked = Boolean(line.tick?.checked);
    const some = has.some((one) => one > 0);
    line.used = ticked || some;
    const found = some ? reckon(line, has) : { packs: line.packs, left: 0, cost: line.whole };
    const packs = found.packs.map(counted);
    if (!packs.length) packs.push(part(say("have-enough"), "pack"));
    if (found.left > EPSILON) packs.push(part(say("have-left", { amount: amountWords(found.left, line.unit) }), "small-print"));
    // What is ticked is there, however much that is: it stays to be read, and costs nothing more.
    line.cost = ticked || !line.priced ? 0 : found.cost;
    line.packsCell.replaceChildren(...(some ? packs : line.before[0]));
    line.costCell.replaceChildren(...(line.used && line.priced ? [moneyWords(line.cost, currency)] : line.before[1]));
    units.show(line.row);
    return has;
  };

  const work = (table) => {
    const { currency } = table.dataset;
    const name = table.closest("[data-keep]")?.dataset.keep;
    const status = table.parentElement.querySelector(".have-sum");
    if (!name || !status) return;
    const shops = [...table.tBodies].map((body) => ({
      cell: body.querySelector(".shop td"),
      lines: [...body.querySelectorAll("tr[data-need]")].map((row) => lineOf(row, name)),
    }));
    const all = shops.flatMap((shop) => shop.lines);
    for (const shop of shops) shop.before = shop.cell.textContent;
    const sum = (lines, of) => lines.reduce((so_far, line) => so_far + line[of], 0);
    const showSums = () => {
      for (const shop of shops) {
        const used = shop.lines.some((line) => line.used);
        shop.cell.textContent = used ? moneyWords(sum(shop.lines, "cost"), currency) : shop.before;
      }
      const words = all.some((line) => line.used)
        ? say("have-sum", { cost: moneyWords(sum(all, "cost"), currency), whole: moneyWords(sum(all, "whole"), currency) })
        : "";
      if (status.textContent !== words) status.textContent = words;
    };
    const keyOf = (line, at) => (at ? `${line.key}/${at}` : line.key);
    const fill = () => {
      for (const line of all) {
        line.inputs.forEach((input, at) => {
          const kept = Number(stored(keyOf(line, at)));
          input.value = kept > 0 ? figure(kept / scale(line), 2) : "";
          if (line.unit === "mm") input.parentElement.querySelector(".have-unit").textContent =
            document.querySelector(`#units [value=${chosen()}]`)?.textContent ?? chosen();
        });
        showLine(line, currency);
      }
      showSums();
    };
    for (const line of all) {
      line.inputs.forEach((input) => input.addEventListener("input", () => {
        const has = showLine(line, currency);
        has.forEach((one, at) => stored(keyOf(line, at), one > 0 ? String(one) : ""));
        showSums();
      }));
      line.tick?.addEventListener("change", () => {
        showLine(line, currency);
        showSums();
      });
      for (const label of line.row.querySelectorAll(".have")) label.hidden = false;
    }
    fill();
    document.querySelector("#units")?.addEventListener("change", fill);
  };

  document.querySelectorAll("table.buy[data-currency]").forEach(work);
})();
