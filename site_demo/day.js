// The day of a brew: ticks, clocks, packets and readings, kept in this browser. The page is whole without it.
(function () {
  "use strict";
  const page = document.querySelector(".brew-day");
  const all = (what, within = page) => [...within.querySelectorAll(what)];
  const one = (what, within = page) => within.querySelector(what);
  const show = (what, seen = true) => { if (what) what.hidden = !seen; };
  const number = (text) => parseFloat(text.trim().replace(",", "."));
  const gravityOf = (text) => number(text.trim().replace(/^1([01]\d\d)$/, "1.$1").replace(/^(9[89]\d)$/, "0.$1"));

  // What is kept: by the page and the mark of the brew, so that a changed brew keeps no old ticks, only what was read.
  const KEY = `brew-day ${page.dataset.key} `, OWN = KEY + page.dataset.mark;
  let kept = { at: "start", shown: "all", ticks: {}, due: {}, typed: {} };
  function load() {
    try {
      const own = localStorage.getItem(OWN), older = Object.keys(localStorage).find((key) => key.startsWith(KEY));
      if (own) kept = { ...kept, ...JSON.parse(own) };
      else if (older) {
        kept.typed = JSON.parse(localStorage.getItem(older)).typed;
        say("This brew has changed since you began it: your readings are kept, ticks and clocks are not.");
      }
    } catch (refused) { /* nothing is kept, and the page works all the same */ }
  }
  function keep() {
    try { localStorage.setItem(OWN, JSON.stringify(kept)); } catch (refused) { /* as above */ }
  }
  function say(words) { one(".told").textContent = words; }

  // One step at a time, or all of them.
  const leaves = all(".leaf"), steps = all("li.leaf");
  const asked = () => leaves.findIndex((leaf) => leaf.id === location.hash.slice(1));
  const at = () => Math.max(leaves.findIndex((leaf) => leaf.id === kept.at), 0);
  function turn(to, focus) {
    const leaf = leaves[Math.min(Math.max(to, 0), leaves.length - 1)], here = leaves.indexOf(leaf);
    kept.at = leaf.id;
    leaves.forEach((it) => it.classList.toggle("now", it === leaf));
    one(".turn .count").textContent = steps.includes(leaf) ? `Step ${leaf.dataset.step} of ${steps.length}` : "";
    one(".turn .before").disabled = here === 0;
    one(".turn .on").textContent = here === 0 ? "Begin" : steps.includes(leaf) ? "Done, next" : "That is all";
    one(".turn .on").disabled = here === leaves.length - 1;
    if (focus) one("h2, h3", leaf).focus({ preventScroll: true });
    if (focus) leaf.scrollIntoView();
  }
  function lay(shown) {
    kept.shown = shown;
    page.classList.toggle("one", shown === "one");
    show(one(".turn"), shown === "one");
    one(`input[name=shown][value=${shown}]`).checked = true;
  }
  function tick(leaf, done) {
    if (done) kept.ticks[leaf.id] = 1;
    else delete kept.ticks[leaf.id];
    one(".tick", leaf).checked = done;
    leaf.classList.toggle("done", done);
  }

  // Clocks are kept as the time of day at which they are due.
  let sound = null;
  const clock = (ms) => new Date(ms).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
  function ring(leaf) {
    say(`It is time: ${one("h3", leaf).textContent.trim()}`);
    if (navigator.vibrate) navigator.vibrate([400, 200, 400]);
    if (!sound) return;
    for (const start of [0, 0.5, 1]) {
      const tone = sound.createOscillator();
      tone.connect(sound.destination);
      tone.start(sound.currentTime + start);
      tone.stop(sound.currentTime + start + 0.3);
    }
  }
  function clocks() {
    const now = Date.now(), boil = one(".of-the-boil"), end = boil && kept.due[boil.closest(".leaf").id];
    const due = { ...kept.due };
    for (const it of all("[data-before]")) {
      const when = end ? end - it.dataset.before * 60000 : 0;
      one("output", it).textContent = when ? clock(when) : "";
      if (it.closest("li.leaf") === it.parentElement) {
        show(it, Boolean(when));
        if (when) due[it.parentElement.id] = when;
      }
    }
    for (const it of all(".clock")) {
      const when = kept.due[it.closest(".leaf").id], left = Math.round((when - now) / 1000);
      show(one(".later", it), Boolean(when));
      show(one(".due", it), Boolean(when));
      one(".run", it).textContent = when ? "Start it again" : "Start the clock";
      if (!when) continue;
      one("output", it).textContent = clock(when);
      one(".left", it).textContent = left > 0 ? `in ${Math.floor(left / 60)}:${String(left % 60).padStart(2, "0")}` : "now";
    }
    for (const leaf of steps) {
      if (due[leaf.id] > clocks.seen && due[leaf.id] <= now) ring(leaf);
    }
    clocks.seen = now;
  }
  function start(leaf, due) {
    kept.due[leaf.id] = due;
    sound = sound || (window.AudioContext ? new AudioContext() : null);
    say(`Due at ${clock(due)}. Set an alarm for it: a phone that is locked may not ring.`);
    clocks();
  }

  // What is weighed from another packet: as much alpha acid as the plan has.
  function weights() {
    const packets = [];
    for (const row of all("[data-packet]")) {
      const { packet, grams, alpha, name } = row.dataset, says = number((kept.typed[`alpha.${packet}`] || ""));
      const fits = says > 0 && says <= 30, weighed = fits ? grams * alpha / says : 0;
      const step = weighed >= 10 ? 1 : 0.5, metric = `${Math.round(weighed / step) * step} g`;
      const us = `${Math.round(weighed / 28.349523125 / 0.05) * 5 / 100} oz`;
      const words = fits ? `<span class="metric">${metric}</span> <span class="us">${us}</span>` : "";
      one("output", row).innerHTML = words;
      const planned = one("td a.figure", row).getAttribute("href");
      for (const it of all("li.leaf a.figure").filter((link) => link.getAttribute("href") === planned)) {
        if (it.nextElementSibling && it.nextElementSibling.matches(".own")) it.nextElementSibling.remove();
        it.classList.toggle("replaced", fits);
        if (fits) it.insertAdjacentHTML("afterend", `<b class="own"> ${words} from your packet</b>`);
      }
      if (fits) packets.push(`${name}, ${says} % alpha, ${metric} instead of ${Math.round(grams * 10) / 10} g`);
    }
    return packets;
  }

  // What was read, and what to do about it: the row and the column of the table that are nearest, nothing in between.
  const typed = (name) => (kept.typed[name] || "").trim();
  function nearest(them, of, wanted) {
    const marks = them.map((it) => parseFloat(of(it))), apart = (marks[marks.length - 1] - marks[0]) / (marks.length - 1);
    const best = marks.reduce((found, mark, i) => Math.abs(mark - wanted) < Math.abs(marks[found] - wanted) ? i : found, 0);
    return Math.abs(marks[best] - wanted) <= Math.abs(apart) / 2 + 1e-6 ? best : -1;
  }
  // A sample's gravity as it would be at 20 °C: what lies between two of the page's numbers, put along a line.
  const warmth = page.dataset.warmth.split(" ").map(Number), HOTTEST = 5 * (warmth.length - 1);
  function celsius(name) {
    const unit = one(`[name="${name}-unit"]`), degrees = number(typed(name));
    return unit && unit.value === "°F" ? (degrees - 32) / 1.8 : degrees;
  }
  function times(degrees) {
    const below = Math.min(Math.floor(degrees / 5), warmth.length - 2);
    return warmth[below] + (warmth[below + 1] - warmth[below]) * (degrees / 5 - below);
  }
  function cooled(shown, heat) {
    const own = celsius("hydrometer.heat"), made = own >= 0 && own <= HOTTEST ? own : 20;
    return heat >= 0 ? shown * times(heat) / times(made) : shown;
  }
  function advise() {
    for (const it of all(".cases")) {
      const cask = it.dataset.step === "in the fermenter", level = cask ? "into the fermenter" : it.dataset.step;
      const shown = gravityOf(typed(`${cask ? "original gravity" : level}.gravity`)), heat = cask ? celsius("original gravity.heat") : NaN;
      const gravity = heat > HOTTEST ? shown : cooled(shown, heat);
      const litres = number(typed(`${level}.volume`)) * (one(`[name="${level}.volume-unit"]`).value === "gal" ? 3.785411784 : 1);
      const advice = it.previousElementSibling, rows = all("tbody tr", it), columns = all("thead th", it).slice(1);
      show(advice, shown > 0);
      if (advice.hidden) continue;
      const lacks = !(shown > 0.98 && shown < 1.2) ? "A gravity is written as 1.042 is: what does the hydrometer show?"
        : heat > HOTTEST ? "So warm a sample tells little: cool it to about 20 °C (68 °F), and read it again."
        : !(litres > 0) ? "How much wort is there? What to do depends on both." : "";
      advice.textContent = lacks;
      if (lacks) continue;
      const put = Math.abs(gravity - shown) > 0.0004 ? ` (${gravity.toFixed(3)} once the warmth of the sample is allowed for)` : "";
      const row = nearest(rows, (tr) => tr.dataset.gravity, gravity), hot = kept.typed[`${level}.volume-hot`];
      const column = nearest(columns, (th) => hot ? th.dataset.hot : th.dataset.cool, litres);
      advice.textContent = `This lies beyond the table${put}: read it once more, and look whether it is typed at the right place. If it stays so, brew on, and write it down.`;
      if (row < 0 || column < 0) continue;
      const cell = rows[row].cells[column + 1], minding = one(".minding", it);
      const as = `${rows[row].cells[0].textContent} and ${columns[column].textContent}`;
      advice.innerHTML = `<p>Nearest to ${as}${put}: <b>${cell.innerHTML}</b></p>`;
      if (minding && !cell.textContent.includes("as planned")) advice.innerHTML += minding.innerHTML;
    }
  }

  // The notes: a line a field, as one would type them.
  const UNITS = { gravity: "", minutes: " min", day: "", words: "", lines: "" };
  function notes() {
    const about = one("#measured").dataset, lines = [`recipe: ${about.recipe}`];
    if (about.edition) lines.push(`edition: ${about.edition}`);
    lines.push(`mark: ${page.dataset.mark}`);
    for (const field of all("#measured .asked[data-field]").map((it) => it.dataset.field)) {
      const parts = [];
      for (const slot of ["volume", "gravity", "heat", "minutes", "day", "words"]) {
        const name = `${field}.${slot}`, unit = one(`#measured [name="${name}-unit"]`);
        const value = slot in { day: 1, words: 1 } ? typed(name) : typed(name).replace(",", ".");
        const hot = slot === "volume" && kept.typed[`${name}-hot`] ? " hot" : "";
        if (value) parts.push(value + (unit ? ` ${unit.value}` : UNITS[slot]) + hot);
      }
      const several = typed(`${field}.lines`).split("\n").map((line) => line.trim()).filter(Boolean);
      if (parts.length) lines.push(`${field}: ${parts.join(" at ")}`);
      if (several.length) lines.push(`${field}:`, ...several.map((line) => `  - ${line}`));
    }
    const packets = weights(), words = typed("words");
    if (packets.length) lines.push("packets:", ...packets.map((line) => `  - ${line}`));
    one("#text").value = lines.join("\n") + "\n" + (words ? `\n${words}\n` : "");
  }
  function mirror() {
    for (const it of all("[name]")) {
      const value = kept.typed[it.name];
      if (it.type === "checkbox") it.checked = Boolean(value);
      else if (value !== undefined && it.type !== "radio" && it !== document.activeElement) it.value = value;
    }
  }
  function refresh() { mirror(); weights(); advise(); notes(); keep(); }

  // The screen kept awake, where the browser can.
  let lock = null;
  async function wake() {
    if (!one("#awake").checked || document.hidden) return;
    try { lock = await navigator.wakeLock.request("screen"); } catch (refused) {
      one("#awake").checked = false;
      say("This browser does not let the screen stay on just now.");
    }
  }

  page.addEventListener("input", (event) => {
    const it = event.target;
    if (!it.name || it.name === "shown") return;
    kept.typed[it.name] = it.type === "checkbox" ? (it.checked ? "1" : "") : it.value;
    refresh();
  });
  page.addEventListener("change", (event) => {
    const it = event.target, leaf = it.closest(".leaf");
    if (it.name === "shown") lay(it.value);
    if (it.matches(".tick")) {
      tick(leaf, it.checked);
      const next = steps.find((step) => !kept.ticks[step.id]);
      if (kept.shown === "all") turn(next ? leaves.indexOf(next) : leaves.length - 1);
    }
    if (it.id === "awake") { if (it.checked) wake(); else if (lock) lock.release(); }
    keep();
  });
  page.addEventListener("click", (event) => {
    const it = event.target, leaf = it.closest(".leaf");
    if (it.matches(".run")) start(leaf, Date.now() + it.closest(".clock").dataset.minutes * 60000);
    if (it.matches(".later")) start(leaf, kept.due[leaf.id] + 60000);
    if (it.matches(".before")) turn(at() - 1, true);
    if (it.matches(".on")) {
      if (steps.includes(leaves[at()])) tick(leaves[at()], true);
      turn(at() + 1, true);
    }
    if (it.matches(".copy")) {
      const text = one("#text"), done = () => { one(".copied").textContent = "Copied."; };
      text.select();
      if (navigator.clipboard) navigator.clipboard.writeText(text.value).then(done, () => { one(".copied").textContent = "Copy the marked text."; });
      else if (document.execCommand("copy")) done();
    }
    if (it.matches(".forget")) {
      kept = { at: "start", shown: kept.shown, ticks: {}, due: {}, typed: {} };
      keep();
      location.hash = "";
      location.reload();
    }
    keep();
  });
  window.addEventListener("hashchange", () => {
    if (asked() >= 0 && kept.shown === "one") turn(asked(), true);
  });

  load();
  all("[hidden].tools, [hidden].typing, [hidden].notes-text, [hidden].clock").forEach((it) => show(it));
  if (navigator.wakeLock) {
    show(one(".awake"));
    document.addEventListener("visibilitychange", wake);
  }
  steps.forEach((leaf) => tick(leaf, Boolean(kept.ticks[leaf.id])));
  lay(kept.shown);
  turn(asked() >= 0 ? asked() : at());
  clocks.seen = Date.now();
  clocks();
  setInterval(clocks, 1000);
  refresh();
  history.scrollRestoration = "manual";
  if (kept.at !== "start") one(".now").scrollIntoView();
})();
