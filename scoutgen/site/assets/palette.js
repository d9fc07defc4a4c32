/* Colours before the first paint: the reader's choice, else what the phone is set to. */
(function () {
  var kept = __md_get("__palette");
  var color = kept && kept.color || {};
  var options = Array.from(document.querySelectorAll("[data-md-color-media]"));
  // "Follow the phone" and nothing kept are the same; the theme keeps for the first which scheme it showed last.
  var chosen = color.media && color.media !== "(prefers-color-scheme)" &&
    options.find(function (option) { return option.getAttribute("data-md-color-media") === color.media });
  var dark = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
  var option = chosen || options.find(function (option) {
    return option.getAttribute("data-md-color-media") === "(prefers-color-scheme: " + dark + ")";
  });
  if (!option) return;
  ["scheme", "primary", "accent"].forEach(function (name) {
    document.body.setAttribute("data-md-color-" + name, option.getAttribute("data-md-color-" + name));
  });
})();
