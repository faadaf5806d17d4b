// Preview of guidegen: loads the page again when there is a new version, and tells over the last
// good one why there is none.
"use strict";

(() => {
  const mine = document.currentScript.dataset.version;
  const events = new EventSource("/live.files/events");
  let panel = null;

  const tell = (faults) => {
    if (!panel) {
      panel = document.createElement("section");
      panel.className = "guidegen-live";
      panel.setAttribute("role", "alert");
      const head = document.createElement("h2");
      head.textContent = "Not pressed: this is the last good version";
      const hide = document.createElement("button");
      hide.type = "button";
      hide.textContent = "Hide";
      hide.addEventListener("click", () => panel.remove());
      const words = document.createElement("pre");
      words.tabIndex = 0;
      panel.append(head, hide, words);
    }
    panel.querySelector("pre").textContent = faults;
    document.body.append(panel);
  };

  events.addEventListener("message", (event) => {
    const { version, faults } = JSON.parse(event.data);
    if (faults) tell(faults);
    else if (version !== mine) {
      events.close();
      location.reload();
    }
  });
  // Nothing is kept on the device: what is read is what was written last.
  navigator.serviceWorker?.getRegistrations().then((all) => all.forEach((one) => one.update()));
  for (const area of document.querySelectorAll(".offline")) {
    const note = document.createElement("p");
    note.className = "guidegen-live-note";
    note.textContent = "Saving for offline: not in the preview, which keeps nothing on the device. Readers find it here in the pressed site.";
    area.before(note);
  }

  // Browsers keep a left page for "back", and few connections to one host.
  window.addEventListener("pagehide", () => events.close());
  window.addEventListener("pageshow", (event) => {
    if (event.persisted) location.reload();
  });
})();
