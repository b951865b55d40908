// Keeps the kettle that a reader came for while he follows its numbers, and finds what an old address meant.
(function () {
  "use strict";
  function place(name) { return document.getElementById(name); }
  function gone(it) {
    for (; it; it = it.parentElement) if (getComputedStyle(it).display === "none") return true;
    return false;
  }
  function came(followed) {
    var asked = decodeURIComponent(location.hash.slice(1));
    var label = document.querySelector('.kettles label[id="' + CSS.escape(asked.split(".")[0]) + '"]');
    var chosen = document.querySelector(".kettles label[id]:has(:checked)");
    if (label && !(followed && chosen)) (chosen = label).querySelector("input").checked = true;
    // A figure of the kettle that is shown, else one that all share; one figure where it has not several.
    var figure = label ? asked.slice(label.id.length + 1) : asked;
    function named(names) {
      return names.flatMap(function (it) { return [chosen && place(chosen.id + "." + it), place(it)]; }).filter(Boolean);
    }
    var found = named([figure, figure.replace(/\.all$/, "")]).concat(place(asked) || []);
    if (!found.length) { // an old name: weights were called rounded, and numbers counted what is told once now
      var base = figure.replace(/-rounded\b/, "").replace(/-\d+$/, "");
      found = named([figure.replace(/-rounded\b/, ""), base, base + "-2"]).filter(function (it) { return it.tagName !== "DETAILS"; });
    }
    var there = found.find(function (it) { return !gone(it); }) || found.pop();
    if (!there) return;
    if (gone(there)) { // only another kettle has it
      var row = there.closest(".k");
      chosen = row ? place("kettle-" + /k(\d+)/.exec(row.className)[1]) : label && label.querySelector("input");
      if (chosen) chosen.checked = true;
    }
    for (var part = there.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
    if (there.id !== asked && (followed || !label)) location.replace("#" + there.id);
    else there.scrollIntoView();
  }
  addEventListener("hashchange", came);
  came();
})();
