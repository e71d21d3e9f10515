// Ticks stay where they were made, for this plan in this browser, beside those of the file, which came with the page.
// On a phone only the step in hand is unfolded: the first that is not ticked. Without scripts the boxes still tick, and
// forget, and every step is unfolded.
(function () {
  "use strict";
  var key = "railskirt ticks " + document.documentElement.getAttribute("data-mark");
  var all = function (what, within) { return Array.prototype.slice.call((within || document).querySelectorAll(what)); };
  var boxes = all("input[data-tick]"), narrow = window.matchMedia("screen and (max-width: 40rem)");

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

  function fold() {
    // This text stands inside XML, which forbids the usual signs for "and" and "less than".
    var steps = all("li.step"), free = function (box) { return !box.checked; };
    var inHand = steps.filter(function (step) { return all(".before input", step).some(free); })[0];
    steps.forEach(function (step) {
      all("details", step).forEach(function (how) { how.open = !narrow.matches || step === inHand; });
    });
  }

  var before = kept();
  boxes.forEach(function (box) {
    box.checked = box.defaultChecked || before.indexOf(box.getAttribute("data-tick")) !== -1;
    box.addEventListener("change", function () { keep(); fold(); });
  });
  fold();
  narrow.addEventListener("change", fold);
  window.addEventListener("beforeprint", function () {
    all("details").forEach(function (how) { how.open = true; });
  });
  window.addEventListener("afterprint", fold);
})();
