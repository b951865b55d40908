// Keeps the kettle that a reader came for while he follows its numbers, and finds what an old address meant.
(function () {
  "use strict";
  function came() {
    var asked = decodeURIComponent(location.hash.slice(1));
    var kettle = asked.split(".")[0];
    var label = document.querySelector('.kettles label[id="' + CSS.escape(kettle) + '"]');
    if (label) label.querySelector("input").checked = true;
    var there = document.getElementById(asked) || document.getElementById(asked.slice(asked.indexOf(".") + 1));
    if (!there) return;
    for (var part = there.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
    if (there.id !== asked || label) there.scrollIntoView();
  }
  addEventListener("hashchange", came);
  came();
})();
