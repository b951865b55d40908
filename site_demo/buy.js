// Keeps the ticks of a shopping list, and adds it up anew for the beers that are chosen.
(function () {
  "use strict";
  var KEY = "bought:" + location.pathname, boxes = Array.from(document.querySelectorAll(".shopping input[name]"));
  function kept() {
    try { return JSON.parse(localStorage.getItem(KEY)) || []; } catch (refused) { return []; }
  }
  function keep() {
    var turned = boxes.filter(function (it) { return it.checked !== it.defaultChecked; }).map(function (it) { return it.name; });
    try { localStorage.setItem(KEY, JSON.stringify(turned)); } catch (refused) { /* the list works all the same */ }
  }
  function said(number) { return String(Number(number.toPrecision(3))); }
  function scaled(text, part) {
    return text.replace(/(\d+)(\s)lb(?:\s([\d.]+)\soz)?|[\d.]+/, function (all, pounds, blank, ounces) {
      if (!pounds) return said(all * part);
      var oz = Math.round((pounds * 16 + Number(ounces || 0)) * part * 10) / 10, rest = said(oz % 16);
      return (oz < 16 ? [rest + blank + "oz"] : [Math.floor(oz / 16) + blank + "lb"].concat(rest === "0" ? [] : rest + blank + "oz")).join(" ");
    });
  }
  // Every text of a cell as the page came with it, so that the choice of all beers shows it again.
  function texts(cell) {
    var walk = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT), found = [];
    while (walk.nextNode()) found.push({ node: walk.currentNode, text: walk.currentNode.data });
    return found;
  }
  function adding(chooser) {
    var table = chooser.nextElementSibling, total = table.querySelector(".total");
    var rows = Array.from(table.querySelectorAll("[data-of]"), function (row) {
      var cells = [".weight", ".packs", "td.cost"].map(function (where) { var it = row.querySelector(where); return it ? texts(it) : []; });
      return { row: row, cells: cells, of: row.dataset.of.split(" ").map(function (it) { return it.split(","); }) };
    });
    var sum = total ? texts(total.querySelector("td")) : [];
    return function () {
      var all = !chooser.querySelector("input:not(:checked)"), paid = 0;
      rows.forEach(function (it) {
        var mine = it.of.filter(function (share) { return chooser.querySelector("[value='" + share[0] + "']").checked; });
        it.row.hidden = !mine.length;
        it.cells.forEach(function (cell, n) {
          function add(them) { return them.reduce(function (far, share) { return far + Number(share[n + 1]); }, 0); }
          var part = add(mine) / add(it.of);
          if (n === 2) paid += add(mine);
          cell.forEach(function (own) { own.node.data = all || !/\d/.test(own.text) ? own.text : n === 2 ? add(mine).toFixed(2) : scaled(own.text, part); });
        });
      });
      Array.from(table.tBodies).forEach(function (body) { body.hidden = !body.querySelector("tr:not([hidden]):is([data-of], .total)"); });
      sum.forEach(function (own) { if (/\d/.test(own.text)) own.node.data = all ? own.text : paid.toFixed(2); });
      table.caption.hidden = !all;
    };
  }
  kept().forEach(function (name) {
    boxes.forEach(function (it) { if (it.name === name) it.checked = !it.defaultChecked; });
  });
  document.querySelectorAll(".whose").forEach(function (chooser) {
    var show = adding(chooser);
    chooser.hidden = false;
    chooser.addEventListener("change", show);
    show();
  });
  document.querySelectorAll(".untick").forEach(function (it) {
    it.hidden = false;
    it.addEventListener("click", function (event) {
      if (event.target.tagName !== "BUTTON") return;
      it.parentElement.querySelectorAll(".box input").forEach(function (box) { box.checked = false; });
      keep();
    });
  });
  document.addEventListener("change", keep);
})();
