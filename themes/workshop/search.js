// Search over all pages: an index made at press time, loaded once somebody searches. What is typed
// stays on the device.
"use strict";

(() => {
  const MOST = 20;
  const form = document.querySelector("form.search");
  if (!form) return;
  const [field, status] = [form.querySelector("input"), form.querySelector("[role=status]")];
  const list = document.querySelector(".found");
  const index = new URL(form.dataset.index, location.href);
  const words = (key, holes) => form.dataset[key].replace(/\{(\w+)\}/g, (_, hole) => holes[hole] ?? "");

  let engine = null;
  const load = () => {
    engine ??= import(new URL("pagefind.js", index)).then(async (found) => {
      await found.options({ excerptLength: 24 });
      await found.init();
      return found;
    });
    return engine;
  };

  // Words with found ones marked: text and <mark> alone are taken over.
  const excerpt = (html, host) => {
    for (const node of new DOMParser().parseFromString(html, "text/html").body.childNodes) {
      const made = document.createElement(node.nodeName === "MARK" ? "mark" : "span");
      made.textContent = node.textContent;
      host.append(made);
    }
  };

  const row = (title, address, html) => {
    const item = document.createElement("li");
    const [link, text] = [document.createElement("a"), document.createElement("p")];
    link.textContent = title;
    const url = new URL(address, location.href);
    link.href = url.origin === location.origin ? url.href : "#";
    excerpt(html, text);
    item.append(link, text);
    return item;
  };

  let asked = "";
  const search = async () => {
    const query = field.value.trim();
    if (query === asked) return;
    asked = query;
    const address = new URL(location.href);
    if (query) address.searchParams.set("q", query);
    else address.searchParams.delete("q");
    history.replaceState(history.state, "", address);
    if (!query) {
      list.replaceChildren();
      status.textContent = "";
      return;
    }
    try {
      const found = (await (await load()).search(query)).results;
      const pages = await Promise.all(found.slice(0, MOST).map((one) => one.data()));
      if (query !== asked) return; // somebody typed on meanwhile
      const rows = pages.flatMap((page) => {
        const places = page.sub_results.slice(0, 3);
        return (places.length ? places : [page]).map((place) => {
          const title = page.meta.title === place.title || !place.title
            ? page.meta.title
            : `${page.meta.title}: ${place.title}`;
          return row(title, place.url ?? page.url, place.excerpt);
        });
      });
      list.replaceChildren(...rows);
      status.textContent = words(rows.length ? "found" : "none", { count: rows.length, words: query });
    } catch {
      list.replaceChildren();
      status.textContent = words("failed", {});
    }
  };

  let waiting = 0;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    search();
  });
  field.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(search, 200);
  });
  form.hidden = false;
  field.value = new URLSearchParams(location.search).get("q") ?? "";
  if (field.value) search();
  else field.focus();
})();
