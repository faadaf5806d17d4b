// Work view: one step at a time in large type, and timers for waits. The page below is the same;
// without this script it reads as one long page.
"use strict";

(() => {
  // ms left → "1:05:00" or "4:09"; rounded up, so that 0:00 means that the time is up.
  const clockWords = (ms) => {
    const all = Math.max(0, Math.ceil(ms / 1000));
    const [hours, minutes, seconds] = [Math.floor(all / 3600), Math.floor(all / 60) % 60, all % 60];
    const two = (number) => String(number).padStart(2, "0");
    return hours ? `${hours}:${two(minutes)}:${two(seconds)}` : `${minutes}:${two(seconds)}`;
  };

  // How a swipe turns the steps: 1 on, -1 back, 0 not at all, as in a scroll or a tap.
  const swipeTurn = (right, down) =>
    Math.abs(right) < 60 || Math.abs(right) < 2 * Math.abs(down) ? 0 : right < 0 ? 1 : -1;

  if (typeof module !== "undefined") {
    module.exports = { clockWords, swipeTurn };
    return;
  }

  const memory = new Map();
  const kept = (key) => {
    try {
      return localStorage.getItem(key);
    } catch {
      return memory.get(key) ?? null;
    }
  };
  const keep = (key, value) => {
    memory.set(key, value);
    try {
      if (value === null) localStorage.removeItem(key);
      else localStorage.setItem(key, value);
    } catch {
      // Private windows may refuse: it then lasts for the page.
    }
  };

  let sound = null;
  const allowSound = () => {
    // Browsers let a page sound only once somebody has touched it.
    if (!sound && window.AudioContext) sound = new AudioContext();
    if (sound && sound.state === "suspended") sound.resume();
  };
  const ring = () => {
    if (navigator.vibrate) navigator.vibrate([300, 150, 300]);
    if (!sound || sound.state !== "running") return;
    for (const beat of [0, 0.35, 0.7]) {
      const [tone, level] = [sound.createOscillator(), sound.createGain()];
      const start = sound.currentTime + beat;
      tone.frequency.value = 880;
      level.gain.setValueAtTime(0.4, start);
      level.gain.exponentialRampToValueAtTime(0.001, start + 0.3);
      tone.connect(level).connect(sound.destination);
      tone.start(start);
      tone.stop(start + 0.3);
    }
  };

  const button = (words, act) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words;
    made.addEventListener("click", act);
    return made;
  };

  const timer = (step, minutes, name, number) => {
    const key = `${name}/timer/${step.dataset.step}`;
    const place = document.createElement("p");
    const face = document.createElement("span");
    const said = document.createElement("span");
    place.className = "timer";
    face.setAttribute("role", "timer");
    said.setAttribute("role", "status");
    let rung = false;
    const start = button(say("timer-start"), () => {
      allowSound();
      rung = false;
      keep(key, String(Date.now() + minutes * 60000));
      show();
    });
    const stop = button(say("timer-stop"), () => {
      keep(key, null);
      show();
      start.focus();
    });
    const show = () => {
      const end = Number(kept(key));
      const left = end - Date.now();
      start.hidden = Boolean(end);
      stop.hidden = face.hidden = !end;
      face.textContent = clockWords(left);
      const over = Boolean(end) && left <= 0;
      const words = over ? say("wait-over", { number }) : "";
      if (said.textContent !== words) said.textContent = words;
      stop.textContent = say(over ? "timer-back" : "timer-stop");
      place.classList.toggle("over", over);
      if (over && !rung) {
        rung = true;
        ring();
      }
      return end ? { left, number, over } : null;
    };
    place.append(face, said, start, stop);
    step.querySelector(".wait-line").after(place);
    return show;
  };

  const work = (area) => {
    const name = area.dataset.keep;
    const waits = JSON.parse(area.dataset.waits);
    const steps = [...area.querySelectorAll("[data-step]")];
    // Hazards that a step or stage brings are read before it, as a page of their own.
    const pages = [...area.querySelectorAll("[data-before], [data-step]")];
    const stepOf = (page) => page.dataset.step ?? page.dataset.before;
    const [opener, bar] = [document.querySelector(".work-start"), document.querySelector(".work-bar")];
    const [count, running] = [bar.querySelector(".work-count"), bar.querySelector(".work-timers")];
    const [back, next, close] = ["back", "next", "close"].map((way) => bar.querySelector(`[data-work="${way}"]`));
    let now = -1;
    let lock = null;

    const timers = steps.flatMap((step, index) =>
      waits[step.dataset.step] ? [timer(step, waits[step.dataset.step], name, index + 1)] : []
    );
    const tell = () => {
      const found = timers.map((show) => show()).filter(Boolean);
      const words = found.map((t) => t.over
        ? say("step-over", { number: t.number })
        : say("step-left", { number: t.number, time: clockWords(t.left) }));
      running.textContent = words.join(", ");
    };

    const stayAwake = async () => {
      if (now < 0 || document.hidden || !navigator.wakeLock) return;
      try {
        lock = await navigator.wakeLock.request("screen");
      } catch {
        lock = null; // A low battery may forbid it.
      }
    };

    const turnTo = (index) => {
      if (index < 0 || index >= pages.length) return;
      if (now >= 0) pages[now].classList.remove("now");
      now = index;
      const page = pages[now];
      page.classList.add("now");
      keep(`${name}/work`, stepOf(page));
      history.replaceState(null, "", `#${page.id}`); // a copied address leads to this page
      const number = place(stepOf(page)) + 1;
      count.textContent = say(page.dataset.step ? "step-of" : "before-step", { number, count: steps.length });
      back.disabled = now === 0;
      next.disabled = now === pages.length - 1;
      window.scrollTo(0, 0);
      const head = page.querySelector("h3");
      head.tabIndex = -1;
      head.focus({ preventScroll: true });
    };
    const open = (index) => {
      document.body.classList.add("working");
      bar.hidden = false;
      turnTo(index);
      stayAwake();
    };
    const leave = () => {
      const page = pages[now];
      document.body.classList.remove("working");
      page.classList.remove("now");
      bar.hidden = true;
      now = -1;
      keep(`${name}/work`, null);
      if (lock) lock.release();
      page.scrollIntoView();
    };
    const place = (id) => steps.findIndex((step) => step.dataset.step === id);
    const addressed = () => pages.findIndex((page) => page.id === decodeURIComponent(location.hash.slice(1)));
    const pageOf = (index) => pages.indexOf(steps[index]);
    // The page of a step, or of the hazards before it.
    const begin = (index) => {
      const page = pageOf(index);
      return page > 0 && pages[page - 1].dataset.before ? page - 1 : page;
    };

    opener.querySelector("button").addEventListener("click", () => {
      allowSound();
      const undone = steps.findIndex((step) => !step.classList.contains("ticked"));
      open(begin(Math.max(0, undone)));
    });
    back.addEventListener("click", () => turnTo(now - 1));
    next.addEventListener("click", () => turnTo(now + 1));
    close.addEventListener("click", leave);
    document.addEventListener("keydown", (event) => {
      if (now < 0 || event.altKey || event.ctrlKey || event.metaKey) return;
      if (event.key === "ArrowRight" || event.key === "PageDown") turnTo(now + 1);
      else if (event.key === "ArrowLeft" || event.key === "PageUp") turnTo(now - 1);
      else if (event.key === "Escape") leave();
      else return;
      event.preventDefault();
    });
    let touch = null;
    area.addEventListener("touchstart", (event) => {
      touch = event.touches.length === 1 ? event.touches[0] : null;
    }, { passive: true });
    area.addEventListener("touchend", (event) => {
      const end = event.changedTouches[0];
      if (now < 0 || !touch) return;
      const turn = swipeTurn(end.clientX - touch.clientX, end.clientY - touch.clientY);
      if (turn) turnTo(now + turn);
    });
    window.addEventListener("hashchange", () => {
      const found = addressed();
      if (now >= 0 && found >= 0) turnTo(found);
    });
    document.addEventListener("visibilitychange", stayAwake);
    // After a reload a running timer may ring once somebody has touched the page again.
    for (const kind of ["click", "keydown"]) {
      document.addEventListener(kind, () => {
        if (!sound && timers.some((show) => show())) allowSound();
      });
    }
    setInterval(tell, 1000);
    tell();
    opener.hidden = false;
    const last = place(kept(`${name}/work`));
    if (last >= 0) open(addressed() >= 0 ? addressed() : pageOf(last));
  };

  document.querySelectorAll("[data-waits]").forEach(work);
})();
