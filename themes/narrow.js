// Counts what a further choice would leave, and keeps the choice in the address. The hiding is the style sheet's work.
(function () {
  "use strict";
  var form = document.getElementById("narrow");
  if (!form) return;
  var beers = Array.from(document.querySelectorAll("[data-is]:not(.again)"));
  var choices = Array.from(form.querySelectorAll("input"));
  function wanted() {
    return choices.filter(function (it) { return it.checked && it.value; });
  }
  function count(them) {
    return beers.filter(function (beer) {
      var keys = beer.dataset.is.split(" ");
      return !beer.hidden && them.every(function (it) { return keys.includes(it.value); });
    }).length;
  }
  function show() {
    var now = wanted();
    choices.forEach(function (it) {
      var others = now.filter(function (other) { return other.name !== it.name; });
      var told = it.parentElement.querySelector(".count");
      if (told) told.textContent = count(others.concat(it));
    });
    var left = count(now);
    form.querySelector("output").textContent = !now.length ? "" : left ? left + " of " + beers.length : "No beer of this book is all of that.";
  }
  function keep() {
    var asked = new URLSearchParams(location.search);
    choices.forEach(function (it) { asked.delete(it.name); });
    wanted().forEach(function (it) { asked.append(it.name, it.value); });
    try { history.replaceState(null, "", asked.size ? "?" + asked : location.pathname); } catch (refused) { /* a page from a disk */ }
  }
  new URLSearchParams(location.search).forEach(function (value, name) {
    var it = choices.find(function (choice) { return choice.name === name && choice.value === value; });
    if (it) it.checked = true;
    for (var part = it && it.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
  });
  form.addEventListener("change", function () { show(); keep(); });
  form.addEventListener("fewer", show);
  form.addEventListener("reset", function () { setTimeout(function () { show(); keep(); }); });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  show();
})();
