// Keeps the kettle that a reader came for while he follows its numbers, and finds what an old address meant.
(function () {
  "use strict";
  function place(name) { return document.getElementById(name); }
  function came() {
    var asked = decodeURIComponent(location.hash.slice(1));
    var label = document.querySelector('.kettles label[id="' + CSS.escape(asked.split(".")[0]) + '"]');
    if (label) label.querySelector("input").checked = true;
    var chosen = document.querySelector(".kettles label[id]:has(:checked)");
    var own = !label && chosen && place(chosen.id + "." + asked);
    var there = own || place(asked) || place(asked.slice(asked.indexOf(".") + 1));
    if (!there) return;
    for (var part = there.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
    if (own) location.replace("#" + own.id);
    else if (there.id !== asked || label) there.scrollIntoView();
  }
  addEventListener("hashchange", came);
  came();
})();
