// Sorts a table by the column whose head is pressed, and the other way round when it is pressed again.
(function () {
  "use strict";
  document.querySelectorAll("table.sorted").forEach(function (table) {
    var heads = Array.from(table.tHead.rows[0].cells), body = table.tBodies[0];
    function key(row, column) {
      var cell = row.cells[column], data = cell.querySelector("data"), by = cell.dataset.by || (data && data.value);
      return by ? +by : cell.textContent.trim();
    }
    function order(column, down) {
      var rows = Array.from(body.rows, function (row) { return { row: row, key: key(row, column) }; });
      rows.sort(function (one, other) {
        if (one.key === "" || other.key === "") return (one.key === "") - (other.key === ""); // what says nothing comes last
        var by = typeof one.key === "number" && typeof other.key === "number" ? one.key - other.key : String(one.key).localeCompare(String(other.key), document.documentElement.lang);
        return down ? -by : by;
      });
      rows.forEach(function (it) { body.append(it.row); });
      heads.forEach(function (head) { head.removeAttribute("aria-sort"); });
      heads[column].setAttribute("aria-sort", down ? "descending" : "ascending");
    }
    heads.forEach(function (head, column) {
      var button = document.createElement("button");
      button.type = "button";
      button.append.apply(button, Array.from(head.childNodes));
      head.append(button);
      button.addEventListener("click", function () { order(column, head.getAttribute("aria-sort") === "ascending"); });
    });
  });
})();
