// Search over all pages: things by their names, then an index of all texts made at press time. Both
// are loaded once somebody searches. What is typed stays on the device.
"use strict";

(() => {
  const MOST = 20;
  const MOST_THINGS = 8;

  // Words as they are compared: letters without marks, in one case, and without the endings by which
  // one is written in the plural or as a verb: knives and knife, bevelling and bevels, Bänder and Band.
  const bare = (text) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replaceAll("ß", "ss");
  const stem = (word) => {
    let plain = bare(word).replace(/ies$/, "y").replace(/ves$/, "fe");
    if (/[äöü].*er$/i.test(word.normalize("NFC"))) plain = plain.slice(0, -2);
    const short = plain.replace(/(ing|es|en|ed|e|s|n)$/, "");
    return (short.length < 3 ? plain : short).replace(/([^aeiou])\1$/, "$1");
  };
  const wordsOf = (text) => text.split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  const likeness = (word, asked) => {
    if (stem(word) === stem(asked)) return 3;
    const [whole, part] = [bare(word), bare(asked)];
    if (whole.startsWith(part)) return 2;
    return part.length > 2 && whole.includes(part) ? 1 : 0;
  };
  // How well a text holds what is asked: as well as its worst word is found; 0 where one is missing.
  const holding = (text, asked) => {
    const [words, wanted] = [wordsOf(text), wordsOf(asked)];
    if (!wanted.length) return 0;
    return Math.min(...wanted.map((one) => Math.max(0, ...words.map((word) => likeness(word, one)))));
  };
  // Things that hold all that is asked, the best first: of equals by kind, then in the site's order.
  // Other words for a thing count half a step less than its name.
  const look = (things, asked) =>
    things
      .map((thing) => {
        const [, name, also] = thing;
        const other = Math.max(0, ...[...also, [name, ...also].join(" ")].map((text) => holding(text, asked)));
        return { thing, score: Math.max(holding(name, asked), other - 0.5) };
      })
      .filter(({ score }) => score > 0)
      .sort((a, b) => b.score - a.score || a.thing[0] - b.thing[0])
      .map(({ thing }) => thing);

  if (typeof module !== "undefined") {
    module.exports = { holding, look };
    return;
  }

  const form = document.querySelector("form.search");
  if (!form) return;
  const [field, status] = [form.querySelector("input"), form.querySelector("[role=status]")];
  const [named, list] = [document.querySelector(".found.things"), document.querySelector(".found.texts")];
  const index = new URL(form.dataset.index, location.href);
  const none = (words) => form.dataset.none.replaceAll("{words}", () => words);

  // A script, since a page that is read from a disc may load no data.
  let site = null;
  const loadThings = () => {
    site ??= new Promise((done) => {
      const script = document.createElement("script");
      script.onload = () => done(globalThis.thingsOfSite);
      script.onerror = () => done({ kinds: [], guides: [], things: [] });
      script.src = form.dataset.things;
      document.head.append(script);
    });
    return site;
  };

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

  const link = (words, address) => {
    const made = document.createElement("a");
    made.textContent = words;
    const url = new URL(address, location.href);
    made.href = url.origin === location.origin ? url.href : "#";
    return made;
  };

  const row = (title, address, ...rest) => {
    const item = document.createElement("li");
    const text = document.createElement("p");
    text.append(...rest);
    item.append(link(title, address), text);
    return item;
  };

  const textRow = (title, address, html) => {
    const made = row(title, address);
    excerpt(html, made.lastChild);
    return made;
  };

  // "Technique, also called …, in Guide one, Guide two": the guides after the first as links.
  const thingRow = ({ kinds, guides }, [kind, name, also, places]) => {
    const parts = [kinds[kind], ...also].join(", ");
    const further = places.flatMap(([guide, address], number) => {
      if (guide < 0) return [];
      return [number ? ", " : ": ", number ? link(guides[guide], address) : guides[guide]];
    });
    return row(name, places[0][1], parts, ...further);
  };

  const textRows = async (query) => {
    const found = (await (await load()).search(query)).results;
    const pages = await Promise.all(found.slice(0, MOST).map((one) => one.data()));
    const places = pages.flatMap((page) =>
      (page.sub_results.length ? page.sub_results.slice(0, 3) : [page]).map((place) => ({
        title: page.meta.title === place.title || !place.title
          ? page.meta.title
          : `${page.meta.title}: ${place.title}`,
        own: holding(place.title ?? page.meta.title, query) === 3,
        address: place.url ?? page.url,
        html: place.excerpt,
      }))
    );
    // What bears the name comes before what mentions it.
    return [...places.filter(({ own }) => own), ...places.filter(({ own }) => !own)];
  };

  const show = (host, rows) => {
    host.replaceChildren(...rows);
    host.hidden = !rows.length;
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
      show(named, []);
      show(list, []);
      status.textContent = "";
      return;
    }
    const known = await loadThings();
    if (query !== asked) return; // somebody typed on meanwhile
    const things = look(known.things, query).slice(0, MOST_THINGS).map((thing) => thingRow(known, thing));
    try {
      const shown = new Set(things.flatMap((thing) => [...thing.querySelectorAll("a")]).map(({ href }) => href));
      const places = (await textRows(query)).filter(
        ({ address: place }) => !shown.has(new URL(place, location.href).href)
      );
      if (query !== asked) return;
      // Both at once: a list that grows moves away from those who read it.
      show(named, things);
      show(list, places.map(({ title, address: place, html }) => textRow(title, place, html)));
      const count = things.length + places.length;
      status.textContent = count ? say("places-found", { count, words: query }) : none(query);
    } catch {
      if (query !== asked) return;
      show(named, things);
      show(list, []);
      status.textContent = form.dataset.failed;
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
