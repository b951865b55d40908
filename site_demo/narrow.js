// Counts what a further choice would leave, and keeps the choice in the address. The hiding is the style sheet's work.
(function () {
  "use strict";
  var form = document.getElementById("narrow");
  if (!form) return;
  var beers = Array.from(document.querySelectorAll("[data-is]:not(.again)"));
  var choices = Array.from(form.querySelectorAll("input[type=radio], select[name] option"), function (it) {
    return { it: it, name: (it.closest("select") || it).name, value: it.value, key: it.id.slice(3), told: it.parentElement.querySelector(".count") };
  });
  function wanted() {
    return choices.filter(function (choice) { return (choice.it.checked || choice.it.selected) && choice.value; });
  }
  function count(them) {
    return beers.filter(function (beer) {
      var keys = beer.dataset.is.split(" ");
      return !beer.hidden && them.every(function (it) { return keys.includes(it.key); });
    }).length;
  }
  function show() {
    var now = wanted();
    choices.forEach(function (it) {
      var others = now.filter(function (other) { return other.name !== it.name; });
      var left = it.value && count(others.concat(it));
      if (it.it.selected !== undefined) it.it.text = it.it.text.replace(/\d+\)$/, left + ")");
      else if (it.told) it.told.textContent = left;
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
    var found = choices.find(function (choice) { return choice.name === name && choice.value === value; }), it = found && found.it;
    if (it) it[it.selected === undefined ? "checked" : "selected"] = true;
    for (var part = it && it.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
  });
  form.addEventListener("change", function () {
    var more = form.querySelector(".choose");
    if (more && wanted().length) more.open = true;  // whoever has chosen once goes on choosing
    show();
    keep();
  });
  form.addEventListener("fewer", show);
  form.addEventListener("reset", function () { setTimeout(function () { show(); keep(); }); });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  show();
})();
