/* The left/right switch, the colours, the bar for the thumb, and search that reads what was meant. */
(function () {
  "use strict";
  var root = document.documentElement;
  var SIDES = [["L", "Lefties", "Lefties: what concerns left-handed hitters"],
    ["R", "Righties", "Righties: what concerns right-handed hitters"], ["both", "Both", "Both"]];

  function show(side) {
    root.setAttribute("data-show", side);
    __md_set("side", side);
    document.querySelectorAll(".side-switch button").forEach(function (button) {
      button.setAttribute("aria-pressed", String(button.dataset.side === side));
    });
  }

  var slot = document.querySelector(".side-slot");
  if (slot) {
    var group = document.createElement("div");
    group.className = "side-switch";
    group.setAttribute("role", "group");
    group.setAttribute("aria-label", "Show hitters");
    SIDES.forEach(function (side) {
      var button = document.createElement("button");
      button.type = "button";
      button.dataset.side = side[0];
      button.textContent = side[1];
      button.setAttribute("aria-label", side[2]);
      group.appendChild(button);
    });
    group.addEventListener("click", function (event) {
      var button = event.target.closest("button");
      if (!button) return;
      // What the reader looks at stays where it is while parts above it come and go.
      var before = slot.getBoundingClientRect().top;
      show(button.dataset.side);
      scrollBy(0, slot.getBoundingClientRect().top - before);
    });
    slot.appendChild(group);
    show(root.getAttribute("data-show"));
    // A link into the hidden side opens it.
    var reveal = function () {
      var target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
      var part = target && target.closest(".side");
      if (part && root.getAttribute("data-show") !== "both" && part.dataset.side !== root.getAttribute("data-show")) {
        show("both");
        target.scrollIntoView();
      }
    };
    addEventListener("hashchange", reveal);
    reveal();
  }

  // A link into a part that opens on a tap opens it; not every browser does so by itself.
  var unfold = function () {
    var target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    var closed = target && target.closest("details:not([open])");
    if (!closed) return;
    for (; closed; closed = closed.parentElement.closest("details")) closed.open = true;
    target.scrollIntoView();
  };
  addEventListener("hashchange", unfold);
  unfold();

  // Colours: the buttons at the foot say what the header's one button goes through.
  var choices = document.querySelectorAll("[data-palette]");
  var shades = document.querySelectorAll("[data-md-component=palette] input");
  var tell = function () {
    choices.forEach(function (button) {
      // The theme shows the label that leads on from the chosen one.
      var label = document.getElementById(button.dataset.palette).nextElementSibling;
      button.setAttribute("aria-pressed", String(Boolean(label && !label.hidden)));
    });
  };
  choices.forEach(function (button) {
    button.addEventListener("click", function () { document.getElementById(button.dataset.palette).click() });
  });
  shades.forEach(function (shade) { shade.addEventListener("change", function () { setTimeout(tell) }) });
  if (shades.length) setTimeout(tell);

  // Menu and search: by thumb or key, closed with Escape, after which the reader is where he was.
  var opener = null;
  var drawer = document.getElementById("__drawer");
  document.querySelectorAll(".thumb-bar [data-open]").forEach(function (button) {
    button.addEventListener("click", function () {
      var toggle = document.getElementById(button.dataset.open);
      if (!toggle) return;
      toggle.click();
      opener = button;
      if (button.dataset.open === "__search") {
        var box = document.querySelector("[data-md-component=search-query]");
        if (box) box.focus();
      }
    });
  });
  if (drawer) {
    drawer.addEventListener("change", function () {
      var button = document.querySelector("[data-open=__drawer]");
      if (button) button.setAttribute("aria-expanded", String(drawer.checked));
      if (!drawer.checked) return;
      var link = document.querySelector(".md-sidebar--primary .md-nav__link[href]");
      // It can take the focus when it has begun to slide in.
      if (link) requestAnimationFrame(function () { requestAnimationFrame(function () { link.focus({ preventScroll: true }) }) });
    });
    addEventListener("keydown", function (event) {
      if (event.key !== "Escape") return;
      var search = document.getElementById("__search");
      if (drawer.checked) drawer.click();
      // The theme closes the search itself, and leaves the focus nowhere.
      else if (!search || !search.checked) return;
      if (opener) setTimeout(function () { opener.focus() });
    }, true);
  }

  // The search worker does not fold accents or take "#27" apart. What the reader sees stays as typed; what the worker
  // gets is folded as the index is (scoutgen/site/search.py, fold). A number finds that number only: 2 is not 27.
  var query = document.querySelector("[data-md-component=search-query]");
  var own = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value");
  var WHOLE = { "ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "ß": "ss", "æ": "ae", "œ": "oe", "ı": "i" };
  var SAID = { lefty: "lhp", righty: "rhp", curveball: "curve", changeup: "change" };
  function fold(text) {
    return text.toLowerCase()
      .replace(/[øłđðþßæœı]/g, function (c) { return WHOLE[c] })
      .normalize("NFKD").replace(/[\u0300-\u036f'’‘`´]/g, "")
      .replace(/[\s\-#,.:;()\/·–—"*+~^]+/g, " ")
      .replace(/(^| )(\d+)(?= |$)/g, "$1$2^1")
      // As a reader says it: the pages have the charted word.
      .replace(/(^| )(lefty|righty|curveball|changeup)(?= |$)/g, function (_, gap, said) { return gap + SAID[said] })
      // A hand stands in no title; with a team's name beside it, it is the pitchers that are meant.
      .replace(/(^| )([lr]hp)(?= .|$)/g, "$1$2^1000");
  }
  if (query) {
    Object.defineProperty(query, "value", {
      get: function () { return fold(own.get.call(query)) },
      set: function (text) { own.set.call(query, text) }
    });
  }
})();
