// Hides what has no word that begins with what is typed; capitals and accents do not count. What is asked stays in the address.
(function () {
  "use strict";
  var asked = document.getElementById("asked"), said = document.querySelector("output");
  function words(text) {
    return text.normalize("NFD").replace(/[\u0300-\u036f]/g, "").toLowerCase().replace(/ß/g, "ss").split(/[^a-z0-9]+/).filter(Boolean);
  }
  var things = Array.from(document.querySelectorAll(".find li"), function (it) {
    return { it: it, words: words(it.textContent + " " + (it.dataset.also || "")) };
  });
  function find() {
    var wanted = words(asked.value), left = 0;
    things.forEach(function (thing) {
      var there = wanted.every(function (part) { return thing.words.some(function (word) { return word.startsWith(part); }); });
      thing.it.hidden = !there;
      if (there) left += 1;
    });
    document.querySelectorAll(".find section").forEach(function (part) { part.hidden = !part.querySelector("li:not([hidden])"); });
    said.textContent = !wanted.length ? "" : left ? left + " found" : "Nothing of this book begins so.";
    try { history.replaceState(null, "", asked.value ? "?for=" + encodeURIComponent(asked.value) : location.pathname); } catch (refused) { /* a page from a disk */ }
  }
  asked.closest("p").hidden = false;
  asked.value = new URLSearchParams(location.search).get("for") || "";
  asked.addEventListener("input", find);
  if (asked.value) find();
  asked.focus({ preventScroll: true });
})();
