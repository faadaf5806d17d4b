// Made to measure: a body's measurements in, its templates out, all on the reader's device. Nothing is
// loaded before the reader asks; the program works beside the page and can be stopped at any time.
"use strict";

(() => {
  // "#measures=chest:980,waist:850&paper=a4" and back. After the hash: no server ever sees it.
  const readFragment = (hash) => {
    const given = new URLSearchParams(hash.replace(/^#/, ""));
    const pairs = (given.get("measures") ?? "").split(",").map((pair) => pair.split(":"));
    const body = Object.fromEntries(pairs.filter(([name, mm]) => /^[a-z0-9_]+$/.test(name) && Number(mm) > 0).map(([name, mm]) => [name, Number(mm)]));
    return { body, paper: given.get("paper") ?? "" };
  };
  const writeFragment = (body, paper) =>
    `#measures=${Object.entries(body).map(([name, mm]) => `${name}:${Math.round(mm * 100) / 100}`).join(",")}&paper=${paper}`;

  // Python, GEOS and the browser each say it in their own way.
  const isMemory = (why) => /memory|allocation failed|std::bad_alloc/i.test(why);

  if (typeof module !== "undefined") {
    module.exports = { readFragment, writeFragment, isMemory };
    return;
  }

  const KEPT = "guidegen-measured";
  const megabytes = (bytes) => new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: 1 }).format(bytes / 1e6);

  // The program in its worker: ask(work) answers once; what it says on the way goes to hear(said).
  const program = (address, hear) => {
    const worker = new Worker(address, { type: "module" });
    const waiting = new Map();
    let last = 0;
    const end = (why) => {
      for (const { fail } of waiting.values()) fail(new Error(why));
      waiting.clear();
    };
    worker.onmessage = ({ data }) => {
      if (data.stage) return hear(data);
      const { done, fail } = waiting.get(data.id) ?? {};
      waiting.delete(data.id);
      if (data.error) fail?.(new Error(data.error.trim().split("\n").pop()));
      else done?.(data.answer);
    };
    worker.onerror = (event) => end(event.message || "worker");
    return {
      ask: (work) => new Promise((done, fail) => {
        last += 1;
        waiting.set(last, { done, fail });
        worker.postMessage({ ...work, id: last });
      }),
      stop: (why = "") => {
        worker.terminate();
        end(why);
      },
    };
  };

  const cell = (tag, words) => {
    const made = document.createElement(tag);
    made.textContent = words;
    return made;
  };

  const fill = (table, rows, names) => {
    table.tBodies[0].replaceChildren(...rows.map((row) => {
      const made = document.createElement("tr");
      made.append(...names.map((name) => cell("td", row[name])));
      return made;
    }));
  };

  const work = (area) => {
    const form = area.closest("form");
    const find = (name) => area.querySelector(`.measured-${name}`);
    const words = (key, holes = {}) => area.dataset[key].replace(/\{(\w+)\}/g, (_, hole) => holes[hole] ?? "");
    const [state, bar, make, stop] = ["state", "bar", "make", "stop"].map(find);
    let [running, files, loaded, pdf, clock, typing] = [null, null, 0, "", 0, 0];

    const reason = (why) => (isMemory(why) ? words("memory") : why);

    const tell = (said) => {
      if (state.textContent !== said) state.textContent = said;
    };

    // Without a sign of life for so long it is stopped; each part that arrives is one.
    const patience = () => {
      clearTimeout(clock);
      clock = setTimeout(() => {
        running?.stop(words("late"));
        running = null;
      }, Number(area.dataset.minutes) * 60_000);
    };

    const hear = (said) => {
      patience();
      if (said.stage === "nested") {
        const svg = new DOMParser().parseFromString(said.svg, "image/svg+xml").documentElement;
        const box = document.createElement("div");
        box.className = "measured-drawing";
        box.append(document.importNode(svg, true));
        find("drawings").append(box);
        return;
      }
      if (said.stage === "load") {
        loaded += said.bytes;
        // Steps of half a megabyte: each chunk would fill a screen reader's queue.
        if (files.bytes > loaded) bar.value = loaded / files.bytes;
        tell(words("load", { done: megabytes(Math.min(loaded, files.bytes) - (Math.min(loaded, files.bytes) % 5e5)), all: megabytes(files.bytes) }));
        return;
      }
      bar.removeAttribute("value");
      tell(words(said.stage));
      if (said.kit) show(said.kit);
    };

    const begin = async () => {
      if (running) return running;
      const at = new URL(area.dataset.index, location.href);
      const answer = await fetch(at);
      if (!answer.ok) throw new Error(String(answer.status));
      files = await answer.json();
      files.address = at;
      files.core = new URL(files.core, at).href;
      files.own = new URL(files.own, at).href;
      files.order = new URL(area.dataset.order, location.href).href;
      loaded = 0;
      running = program(new URL(files.worker, files.own).href, hear);
      await running.ask({ do: "begin", core: files.core, own: files.own, order: files.order });
      return running;
    };

    const refuse = (problems) => {
      const list = find("problems");
      list.replaceChildren(...problems.map(({ code, message, cure }) => {
        const sentence = (text) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
        const row = cell("li", cure ? `${sentence(message)} ${sentence(cure)}` : sentence(message));
        row.dataset.code = code;
        return row;
      }));
      list.hidden = !problems.length;
      find("insist").hidden = !problems.some(({ code }) => code === "doubtful-body") && !find("sure").checked;
    };

    const show = (kit) => {
      fill(find("pieces"), kit.pieces, ["label", "name", "count", "material", "size"]);
      fill(find("amounts"), kit.amounts, ["material", "area"]);
      find("waived").textContent = kit.waived.join(". ");
      find("waived").hidden = !kit.waived.length;
      find("result").hidden = false;
      find("file").hidden = true;
    };

    const offer = (bytes, count, body, paper) => {
      URL.revokeObjectURL(pdf);
      pdf = URL.createObjectURL(new Blob([bytes], { type: "application/pdf" }));
      const link = find("file");
      link.href = pdf;
      link.download = `${area.dataset.guide}-made-to-measure-templates-${paper}.pdf`;
      link.textContent = `${area.dataset.file}, ${megabytes(bytes.length)} MB`;
      link.hidden = false;
      find("link").href = writeFragment(body, paper);
      find("keep").hidden = !window.caches || !navigator.serviceWorker;
      tell(words("done", { count, size: megabytes(bytes.length) }));
      link.focus();
    };

    const busy = (on) => {
      if (on) patience();
      else clearTimeout(clock);
      make.disabled = on;
      stop.hidden = bar.hidden = !on;
      if (!on && document.activeElement === document.body) make.focus();
    };

    make.addEventListener("click", async () => {
      const paper = find("paper").value;
      const body = { ...form.body };
      busy(true);
      refuse([]);
      find("result").hidden = true;
      find("drawings").replaceChildren();
      find("nested").open = false;
      try {
        const at = await begin();
        const made = await at.ask({
          do: "make", body, paper, sure: find("sure").checked, bothSides: find("both")?.checked ?? false, card: find("card").checked,
        });
        if (made.problems.length) {
          refuse(made.problems);
          tell(words("refused"));
        } else offer(made.pdf, made.pieces.length, body, paper);
      } catch (error) {
        running?.stop();
        running = null;
        tell(error.message ? words("failed", { why: reason(error.message) }) : words("stopped"));
      }
      busy(false);
    });

    // Once the program is there, figures are judged as they are typed.
    form.addEventListener("input", (event) => {
      clearTimeout(typing);
      if (!running || make.disabled || !event.target.dataset.measure) return;
      typing = setTimeout(async () => {
        const problems = await running?.ask({ do: "check", body: { ...form.body } }).catch(() => null);
        if (problems && !make.disabled) refuse(problems);
      }, 400);
    });

    stop.addEventListener("click", () => {
      running?.stop();
      running = null;
    });

    find("nested").addEventListener("toggle", async () => {
      if (!find("nested").open || find("drawings").childElementCount || !running) return;
      tell(words("nested"));
      try {
        await running.ask({ do: "nested" });
        tell("");
      } catch (error) {
        tell(error.message ? words("failed", { why: error.message }) : words("stopped"));
      }
    });

    find("keep").addEventListener("click", async () => {
      find("keep").disabled = true;
      try {
        const list = await (await fetch(files.address)).json();
        const kept = await caches.open(KEPT);
        await kept.addAll([files.address.href, files.order, ...list.files.map((name) => new URL(name, files.address).href)]);
        await navigator.serviceWorker.register(area.dataset.worker);
        tell(words("kept"));
      } catch (error) {
        tell(words("failed", { why: error.message }));
      }
      find("keep").disabled = false;
    });

    const given = readFragment(location.hash);
    if (Object.keys(given.body).length) {
      form.setBody?.(given.body);
      if (given.paper) find("paper").value = given.paper;
      if (!find("paper").value) find("paper").selectedIndex = 0;
    }
    area.dataset.ready = "yes";
    const able = window.WebAssembly && window.Worker && window.DecompressionStream && "noModule" in HTMLScriptElement.prototype;
    if (location.protocol === "file:" || !able) {
      tell(words(location.protocol === "file:" ? "local" : "old"));
      make.disabled = true;
    } else if (area.dataset.pressed) make.click();
  };

  document.querySelectorAll(".measured").forEach(work);
})();
