"use strict";
// What the preview lays over a page: how things stand, in a bar; it loads the page anew once that looks otherwise.
(() => {
  const { page, mark } = document.currentScript.dataset;
  const element = (name, words = "", attributes = {}) => {
    const made = document.createElement(name);
    made.textContent = words;
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    return made;
  };
  const kept = (storage, key, value) => {
    try {
      if (value === undefined) return storage.getItem(key);
      storage.setItem(key, value);
    } catch {
      // a browser that keeps nothing
    }
    return null;
  };

  const over = element("div", "", { id: "gristbook-preview" });
  const root = over.attachShadow({ mode: "open" });
  const bar = element("details", "", { part: "bar" });
  const said = element("summary", "Preview", { role: "status" });
  const list = element("ul");
  const lead = element("label");
  const leads = element("input", "", { type: "checkbox" });
  leads.checked = kept(localStorage, "preview-leads") !== "no";
  leads.addEventListener("change", () => kept(localStorage, "preview-leads", leads.checked ? "yes" : "no"));
  lead.append(leads, " lead me to the page of the file that I save");
  bar.append(said, list, lead);
  root.append(element("link", "", { rel: "stylesheet", href: "/.preview/preview.css" }), bar);

  let told = "";
  said.addEventListener("click", () => kept(sessionStorage, "preview-closed", bar.open ? told : ""));

  const counted = (number, what) => (number ? `${number} ${what}${number === 1 ? "" : "s"}` : "");

  const row = (it) => {
    const line = element("li", "", { class: it.severity });
    const where = element(it.page && !it.own ? "a" : "code", it.where);
    if (where.href !== undefined) where.href = it.page;
    line.append(where, ` ${it.severity}: ${it.words}`);
    return line;
  };

  const show = ({ problems, more, stale }) => {
    const errors = problems.filter((it) => it.severity === "error");
    const counts = [counted(errors.length, "error"), counted(problems.length - errors.length + more, "warning")];
    const words = counts.filter(Boolean).join(", ") || "nothing wrong";
    said.textContent = stale ? `As it last was: ${words}` : `Preview: ${words}`;
    bar.className = errors.length ? "error" : problems.length ? "warning" : "";
    list.replaceChildren(...problems.map(row), ...(more ? [element("li", `and ${more} more`)] : []));
    told = JSON.stringify(problems.map((it) => it.where + it.words));
    const concerns = stale || errors.some((it) => it.own || page === "index.html");
    bar.open = Boolean(concerns) && kept(sessionStorage, "preview-closed") !== told;
  };

  let news = null;
  const listen = () => {
    news?.close();
    news = null;
    if (document.visibilityState === "hidden") return; // a browser has few lines to one server
    news = new EventSource(`/.preview/news?page=${encodeURIComponent(page)}`);
    news.onmessage = (event) => {
      const it = JSON.parse(event.data);
      if (it.lead && leads.checked) location.assign(it.lead);
      else if (it.mark !== mark) location.reload();
      else show(it);
    };
    news.onerror = () => {
      said.textContent = "The preview has ended";
      bar.className = "ended";
    };
  };
  document.addEventListener("visibilitychange", listen);
  addEventListener("pagehide", () => news?.close());
  addEventListener("pageshow", (event) => event.persisted && listen());
  document.body.append(over);
  listen();
})();
