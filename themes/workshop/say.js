// What the scripts say: the page holds their words, in its language, as data of its body.
"use strict";

const say = (() => {
  if (typeof document === "undefined") return null;
  const words = JSON.parse(document.body.dataset.say ?? "{}");
  const figures = new Intl.NumberFormat(document.documentElement.lang, {
    maximumFractionDigits: 2,
    useGrouping: false,
  });
  const plural = new Intl.PluralRules(document.documentElement.lang);
  // Words that depend on a number have a text for each plural form of the language; {count} chooses.
  const form = (said, { count }) => (typeof said === "string" ? said : said[plural.select(count)] ?? said.other);
  // say("step-of", { number: 3, count: 12 }) → "3 of 12"; numbers as the language writes them.
  return (key, values = {}) =>
    form(words[key] ?? key, values).replace(/\{(\w+)\}/g, (_, name) =>
      typeof values[name] === "number" ? figures.format(values[name]) : String(values[name])
    );
})();
