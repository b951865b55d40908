// Leads on from an old address to where its page is now, and takes along the place on the page that was asked for.
(function () {
  "use strict";
  var link = document.getElementById("moved");
  var prefix = link.dataset.prefix;
  if (location.hash) link.hash = (prefix ? prefix + "." : "") + location.hash.slice(1);
  location.replace(link.href);
})();
