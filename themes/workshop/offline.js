// Keeps a guide on the device: its pages, and the documents of one size. Nothing is kept unasked.
"use strict";

(() => {
  if (typeof module !== "undefined" || !window.caches || !navigator.serviceWorker) return;
  if (!window.isSecureContext || location.protocol === "file:") return; // a disc needs no copy

  const megabytes = (bytes) =>
    new Intl.NumberFormat(document.documentElement.lang, { maximumFractionDigits: 1, minimumFractionDigits: 1 })
      .format(bytes / 1e6);
  const sum = (files) => Object.values(files).reduce((all, bytes) => all + bytes, 0);

  const work = async (area) => {
    const base = new URL(area.dataset.list, location.href);
    const name = `guidegen-guide-${new URL(".", base).pathname}`;
    const noteAt = new URL("saved.note", base); // a name that no file of a guide has
    const [size, save, remove] = ["select", ".offline-save", ".offline-remove"].map((one) => area.querySelector(one));
    const asked = area.querySelector(".offline-asked");
    const [more, said] = asked.children;
    const [state, bar] = [area.querySelector("[role=status]"), area.querySelector("progress")];
    const words = (key, holes = {}) =>
      area.dataset[key].replace(/\{(\w+)\}/g, (_, hole) => holes[hole] ?? "");

    const noted = async () => {
      if (!(await caches.has(name))) return null;
      const note = await (await caches.open(name)).match(noteAt);
      return note ? note.json() : null;
    };
    const newest = async () => {
      try {
        const answer = await fetch(base, { cache: "no-cache" });
        return answer.ok ? await answer.json() : null;
      } catch {
        return null;
      }
    };

    let list = await newest();
    const chosen = () => (size ? size.value : Object.keys((list ?? { sizes: {} }).sizes)[0]);
    const offered = () => list?.asked?.[chosen()] ?? {};
    const wanted = () => ({
      ...list.pages,
      ...(list.sizes[chosen()] ?? {}),
      ...(more.checked ? offered() : {}),
    });
    const same = (note) => note.size === chosen() && Boolean(note.asked) === more.checked;
    const tell = async () => {
      const note = await noted();
      const old = Boolean(note && list && note.version !== list.version);
      area.classList.toggle("kept", Boolean(note) && !old);
      remove.hidden = !note;
      asked.hidden = !sum(offered());
      said.textContent = words("asked", { size: megabytes(sum(offered())) });
      save.hidden = !list || Boolean(note && !old && same(note));
      if (list) save.textContent = words(old ? "again" : "save", { size: megabytes(sum(wanted())) });
      if (!note) state.textContent = "";
      else state.textContent = words(old ? "old" : "kept", { size: megabytes(note.bytes), name: note.size });
    };

    const keep = async () => {
      list = await newest();
      if (!list) return;
      const files = wanted();
      const all = sum(files);
      save.disabled = true;
      bar.hidden = false;
      let done = 0;
      try {
        await navigator.serviceWorker.register(area.dataset.worker);
        await navigator.serviceWorker.ready;
        await caches.delete(name);
        const cache = await caches.open(name);
        for (const [path, bytes] of Object.entries(files)) {
          const address = new URL(path.split("/").map(encodeURIComponent).join("/"), base);
          const answer = await fetch(address, { cache: "no-cache" });
          if (!answer.ok) throw new Error(String(answer.status));
          await cache.put(address, answer);
          done += bytes;
          bar.value = all ? done / all : 1;
        }
        const note = { version: list.version, size: chosen(), asked: more.checked, bytes: all };
        await cache.put(noteAt, new Response(JSON.stringify(note)));
        if (navigator.storage && navigator.storage.persist) await navigator.storage.persist();
        await tell();
      } catch {
        await caches.delete(name);
        await tell();
        state.textContent = words("failed");
      }
      save.disabled = false;
      bar.hidden = true;
    };

    save.addEventListener("click", keep);
    remove.addEventListener("click", async () => {
      await caches.delete(name);
      list = (await newest()) ?? list;
      await tell();
      if (!save.hidden) save.focus();
    });
    for (const choice of [size, more]) if (choice) choice.addEventListener("change", tell);
    const note = await noted();
    if (size && note) size.value = note.size;
    more.checked = Boolean(note?.asked);
    if (!list && !note) return;
    await tell();
    area.hidden = false;
  };

  for (const area of document.querySelectorAll(".offline")) work(area);
})();
