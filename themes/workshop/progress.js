// Progress as a file: what is ticked and which timers run, to keep or to take to another device.
"use strict";

(() => {
  const MOST = 5000;

  // A progress file → what to keep of it: short texts of this guide alone; null where it is none.
  const readProgress = (text, guide) => {
    try {
      const { kind, guide: of, kept } = JSON.parse(text);
      if (kind !== "guidegen-progress" || of !== guide || typeof kept !== "object" || !kept) return null;
      const entries = Object.entries(kept).filter(([key, value]) =>
        belongs(key, guide) && key.length < 200 && typeof value === "string" && value.length < 60);
      return entries.length <= MOST ? entries : null;
    } catch {
      return null;
    }
  };
  const belongs = (key, guide) => key.startsWith(`${guide}/`) || key.startsWith(`${guide}-`);

  if (typeof module !== "undefined") {
    module.exports = { readProgress };
    return;
  }

  const area = document.querySelector(".progress");
  const guide = document.body.dataset.guide;
  if (!area || !guide) return;
  const [save, load, status] = ["button", "input", "[role=status]"].map((one) => area.querySelector(one));
  try {
    localStorage.getItem(guide);
  } catch {
    return; // Nothing is kept here, so there is nothing to save.
  }

  save.addEventListener("click", () => {
    const kept = {};
    for (const key of Object.keys(localStorage).sort()) if (belongs(key, guide)) kept[key] = localStorage.getItem(key);
    const text = JSON.stringify({ kind: "guidegen-progress", guide, kept }, null, 1);
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
    link.download = `${guide}-progress.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    status.textContent = say("progress-saved", { file: link.download });
  });
  load.addEventListener("change", async () => {
    const [file] = load.files;
    if (!file) return;
    const entries = file.size < 1e6 ? readProgress(await file.text(), guide) : null;
    if (!entries) {
      status.textContent = say("progress-wrong");
      return;
    }
    for (const key of Object.keys(localStorage)) if (belongs(key, guide)) localStorage.removeItem(key);
    for (const [key, value] of entries) localStorage.setItem(key, value);
    location.reload();
  });
  area.hidden = false;
})();
