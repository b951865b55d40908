// What fits a pot of just that size, how full it will be, and what the next larger one would add.
(function () {
  "use strict";
  var form = document.getElementById("narrow"), holds = document.getElementById("holds"), unit = document.getElementById("holds-in");
  if (!form) return;
  var rows = Array.from(document.querySelectorAll("tr[data-least]")), parts = document.querySelectorAll(".needs"), told = document.querySelector(".told-pot");
  function named(row) { return row.querySelector("a").textContent + " (" + row.closest("details").querySelector("h2").textContent.toLowerCase() + ")"; }
  function show() {
    var litres = parseFloat(holds.value.replace(",", ".")) * unit.value, asked = litres > 0, next = null;
    rows.forEach(function (row) {
      row.hidden = asked && +row.dataset.least > litres;
      if (row.hidden && (!next || +row.dataset.least < +next.dataset.least)) next = row;
      row.querySelector(".typed").textContent = asked ? Math.round(100 * row.dataset.full / litres) + "\u00a0%" : "";
    });
    parts.forEach(function (part) {
      part.classList.toggle("none", !part.querySelector("tr[data-least]:not([hidden])"));
      if (asked || form.querySelector('input:checked:not([value=""])')) part.open = true;
    });
    var left = rows.filter(function (row) { return !row.hidden; }).length;
    told.textContent = !asked ? "" : (left ? left + " of " + rows.length + " brews fit." : "Nothing of this book fits.")
      + (next ? " The next is " + named(next) + ": " + (Math.ceil(10 * next.dataset.least / unit.value) / 10) + "\u00a0" + (unit.value > 1 ? "gal" : "L") + "." : "");
    form.dispatchEvent(new Event("fewer"));
  }
  function keep() {
    var asked = new URLSearchParams(location.search);
    asked.delete("holds");
    asked.delete("in");
    if (holds.value) { asked.set("holds", holds.value); asked.set("in", unit.value > 1 ? "gal" : "L"); }
    try { history.replaceState(null, "", asked.size ? "?" + asked : location.pathname); } catch (refused) { /* a page from a disk */ }
  }
  function typed() {
    var any = form.querySelector('[name="pot"][value=""]');
    if (holds.value && any && !any.checked) { any.checked = true; any.dispatchEvent(new Event("change", { bubbles: true })); }
    show();
    keep();
  }
  holds.closest("p").hidden = false;
  holds.value = new URLSearchParams(location.search).get("holds") || "";
  if (new URLSearchParams(location.search).has("in")) unit.selectedIndex = new URLSearchParams(location.search).get("in") === "gal" ? 1 : 0;
  holds.addEventListener("input", typed);
  unit.addEventListener("change", typed);
  form.addEventListener("change", function (event) {
    if (event.target.name === "pot" && event.target.value) holds.value = "";
    show();
    keep();
  });
  form.addEventListener("reset", function () { setTimeout(function () { show(); keep(); }); });
  show();
})();
