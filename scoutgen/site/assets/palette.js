/* Colours before the first paint: the reader's choice, else what the phone is set to. */
(function () {
  var kept = __md_get("__palette");
  var media = kept && kept.color && kept.color.media;
  var dark = media === "(prefers-color-scheme: dark)" ||
    (media !== "(prefers-color-scheme: light)" && matchMedia("(prefers-color-scheme: dark)").matches);
  var option = document.querySelector(
    "[data-md-color-media='(prefers-color-scheme: " + (dark ? "dark" : "light") + ")']");
  if (!option) return;
  ["scheme", "primary", "accent"].forEach(function (name) {
    document.body.setAttribute("data-md-color-" + name, option.getAttribute("data-md-color-" + name));
  });
})();
