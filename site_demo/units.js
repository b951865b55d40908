// Remembers which system of units a reader chose, from page to page. The choice itself is the style sheet's work.
(function () {
  "use strict";
  var chooser = document.querySelector("fieldset#units");  // a heading of an author's may be called so, too
  var root = document.documentElement;
  function kept() {
    try { return localStorage.getItem("units"); } catch (refused) { return null; }
  }
  function keep(units) {
    try { localStorage.setItem("units", units); } catch (refused) { /* the page works all the same */ }
  }
  function use(units) {
    if (units === "metric" || units === "us") root.dataset.units = units;
  }
  use(kept());
  if (!chooser) return;
  chooser.querySelector('input[value="' + root.dataset.units + '"]').checked = true;
  chooser.addEventListener("change", function (event) {
    use(event.target.value);
    keep(event.target.value);
  });
})();
