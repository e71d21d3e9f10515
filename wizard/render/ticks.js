// Ticks stay where they were made, for this plan in this browser, beside those of the file, which came with the page.
// Without scripts the boxes still tick, and forget.
(function () {
  "use strict";
  var key = "railskirt ticks " + document.documentElement.getAttribute("data-mark");
  var boxes = Array.prototype.slice.call(document.querySelectorAll("input[data-tick]"));

  function kept() {
    try {
      var found = JSON.parse(window.localStorage.getItem(key));
      return Array.isArray(found) ? found : [];
    } catch (refused) {
      return [];
    }
  }

  function keep() {
    var ticked = boxes.filter(function (box) { return box.checked; });
    var ids = ticked.map(function (box) { return box.getAttribute("data-tick"); });
    try {
      window.localStorage.setItem(key, JSON.stringify(ids));
    } catch (refused) {
      // A browser that keeps nothing for a file: the boxes go on working.
    }
  }

  var before = kept();
  boxes.forEach(function (box) {
    box.checked = box.defaultChecked || before.indexOf(box.getAttribute("data-tick")) !== -1;
    box.addEventListener("change", keep);
  });
})();
