/* Runs before anything is painted. The theme's helpers for keeping choices, and the reader's kept choice of side. */
(function () {
  var script = document.currentScript;
  window.__md_scope = new URL(script.dataset.base, location);
  window.__md_hash = function (text) {
    return Array.from(text).reduce(function (h, c) { return (h << 5) - h + c.charCodeAt(0) }, 0);
  };
  window.__md_get = function (key, store, scope) {
    try {
      return JSON.parse((store || localStorage).getItem((scope || __md_scope).pathname + "." + key));
    } catch (e) { return null }
  };
  window.__md_set = function (key, value, store, scope) {
    try { (store || localStorage).setItem((scope || __md_scope).pathname + "." + key, JSON.stringify(value)) } catch (e) { /* private mode */ }
  };
  // The theme says so only at the end of the page, after the first paint.
  document.documentElement.classList.replace("no-js", "js");
  var side = __md_get("side");
  document.documentElement.setAttribute("data-show", side === "L" || side === "R" ? side : "both");
})();
