// Lets a reader see one system of units. Without it, both are shown.
(function () {
  "use strict";
  var chooser = document.getElementById("units");
  var root = document.documentElement;
  if (!chooser) return;
  function kept() {
    try { return localStorage.getItem("units"); } catch (refused) { return null; }
  }
  function keep(units) {
    try { localStorage.setItem("units", units); } catch (refused) { /* the page works all the same */ }
  }
  function use(units) {
    if (units === "metric" || units === "us") root.dataset.units = units;
    else delete root.dataset.units;
  }
  var first = chooser.querySelector('input[value="' + kept() + '"]');
  if (first) { first.checked = true; use(first.value); }
  chooser.hidden = false;
  chooser.addEventListener("change", function (event) {
    use(event.target.value);
    keep(event.target.value);
  });
})();
