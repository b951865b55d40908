// Shows what has the words that are typed: all of them, or else most; what is called so comes first. Capitals, accents
// and endings (-s, -ed, -ing) do not count. What is asked stays in the address.
(function () {
  "use strict";
  var SMALL = "a an and as at can do for from how i if in is it my of on or the to too what when where with".split(" ");
  var main = document.querySelector(".find"), asked = document.getElementById("asked"), said = main.querySelector("[role=status]");
  function plain(text) { return text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().replace(/ß/g, "ss").replace(",", "."); }
  function stem(word) {
    if (word.length < 4 || /\d/.test(word)) return word;
    var one = word.replace(/ies$/, "y").replace(/(ch|sh|ss|x|z)es$/, "$1").replace(/([^su])s$/, "$1"), bare = one.replace(/(ing|ed)$/, "");
    return (bare.length > 2 && /[aeiouy]/.test(bare) ? bare : one).replace(/e$/, "").replace(/([^aeiou])\1$/, "$1");
  }
  // The words of a text, each with how much more it is worth than one that is only said of a thing.
  function words(text, named) {
    return (text.replace(/['’]s\b/g, "").match(/\d+(?:[.,]\d+)*|[\p{L}\p{M}]+/gu) || []).map(function (as) {
      var word = plain(as);
      return { as: as, word: word, stem: stem(word), named: named };
    });
  }
  var groups = Array.from(main.querySelectorAll("section"), function (section) {
    var kind = words(section.querySelector("h2").textContent, 2), list = section.querySelector("ul");
    return { section: section, list: list, things: Array.from(list.children, function (it) {
      var names = words(it.querySelector("a").textContent, 3).concat(words(it.dataset.called || "", 2));
      return { it: it, words: names.concat(words(it.textContent + " " + (it.dataset.also || ""), 0), kind) };
    }) };
  });
  var things = groups.flatMap(function (group) { return group.things; });
  // What a thing is worth to one who asks for a word: more if it is called so, and if the word is whole.
  function worth(thing, part) {
    return thing.words.reduce(function (best, it) {
      var fits = it.stem === part.stem ? 2 : !/\d/.test(part.word) && it.word.startsWith(part.word) ? 1 : 0;
      return Math.max(best, fits && fits + it.named);
    }, 0);
  }
  // How many slips of the finger lie between two words: a letter too many, too few, another, or two that changed places.
  function slips(one, other) {
    var rows = [Array.from({ length: other.length + 1 }, function (_, at) { return at; })];
    for (var i = 1; i <= one.length; i += 1) {
      rows[i] = [i];
      for (var j = 1; j <= other.length; j += 1) {
        rows[i][j] = Math.min(rows[i - 1][j] + 1, rows[i][j - 1] + 1, rows[i - 1][j - 1] + (one[i - 1] !== other[j - 1]));
        if (i > 1 && j > 1 && one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1]) rows[i][j] = Math.min(rows[i][j], rows[i - 2][j - 2] + 1);
      }
    }
    return rows[one.length][other.length];
  }
  function nearest(part) {
    var least = part.stem.length < 4 ? 0 : part.stem.length < 7 ? 2 : 3, found = null;
    things.forEach(function (thing) {
      thing.words.forEach(function (it) {
        if (!it.named || Math.abs(it.stem.length - part.stem.length) >= least) return;
        var far = slips(part.stem, it.stem);
        if (far < least) { least = far; found = it.as; }
      });
    });
    return found;
  }
  function offer(missing) {
    var better = missing.reduce(function (text, part) {
      var near = nearest(part);
      return near ? text.replace(part.as, near) : text;
    }, asked.value);
    if (better === asked.value) return;
    var button = document.createElement("button");
    button.type = "button";
    button.textContent = better;
    button.addEventListener("click", function () { asked.value = better; find(); asked.focus(); });
    said.append(" Did you mean ", button, "?");
  }
  function find() {
    var typed = words(asked.value, 0), wanted = typed.filter(function (part) { return !SMALL.includes(part.word); });
    if (!wanted.length) wanted = typed;
    var most = 0;
    things.forEach(function (thing) {
      thing.worths = wanted.map(function (part) { return worth(thing, part); });
      thing.has = thing.worths.filter(Boolean).length;
      thing.worth = typed.reduce(function (sum, part) { return sum + worth(thing, part); }, 0);
      most = Math.max(most, thing.has);
    });
    var left = things.filter(function (thing) { return !(thing.it.hidden = wanted.length > 0 && (!most || thing.has < most)); });
    groups.forEach(function (group) {
      group.list.append.apply(group.list, group.things.slice().sort(function (one, other) { return other.worth - one.worth; }).map(function (thing) { return thing.it; }));
      group.best = Math.max.apply(null, group.things.map(function (thing) { return thing.it.hidden ? -1 : thing.worth; }));
      group.section.hidden = group.best < 0;
    });
    main.append.apply(main, groups.slice().sort(function (one, other) { return other.best - one.best; }).map(function (group) { return group.section; }));
    tell(wanted, most, left.length);
    try { history.replaceState(null, "", asked.value ? "?for=" + encodeURIComponent(asked.value) : location.pathname); } catch (refused) { /* a page from a disk */ }
  }
  function tell(wanted, most, left) {
    var missing = wanted.filter(function (part, at) { return !things.some(function (thing) { return thing.worths[at]; }); });
    var names = missing.map(function (part) { return "“" + part.as + "”"; }).join(" or ");
    said.textContent = !wanted.length ? "" : most === wanted.length ? left + " found" : missing.length ? "Nothing has " + names + "." : "Nothing has all of these words.";
    if (most && most < wanted.length) said.append(" " + left + (left > 1 ? " have " : " has ") + most + " of the " + wanted.length + " words.");
    offer(missing);
  }
  asked.closest("p").hidden = false;
  asked.value = new URLSearchParams(location.search).get("for") || "";
  asked.addEventListener("input", find);
  if (asked.value) find();
  asked.focus({ preventScroll: true });
})();
