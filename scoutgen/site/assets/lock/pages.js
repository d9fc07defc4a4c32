/* On every page of a locked site: Lock and Remove in reach, and off to the gate when it was locked elsewhere. */
(function () {
  "use strict";
  var base = new URL("../..", document.currentScript.src);
  var phone = navigator.serviceWorker, gone = false, look = null;
  var gateStyle = new URL(document.currentScript.dataset.look, base);

  function ask(words) {
    return phone.ready.then(function (registration) {
      return new Promise(function (done) {
        var channel = new MessageChannel();
        channel.port1.onmessage = function (event) { done(event.data) };
        // A worker that does not answer keeps nobody from the gate.
        setTimeout(done, 10000);
        registration.active.postMessage(words, [channel.port2]);
      });
    });
  }
  /* What is on the screen goes at once, with every script's hold on it, whatever becomes of the way to the gate. */
  function leave(text) {
    gone = true;
    var scheme = document.body.dataset.mdColorScheme;
    document.open();
    document.close();
    document.documentElement.lang = "en";
    document.documentElement.dataset.scheme = scheme;
    document.title = "Private pages";
    [["viewport", "width=device-width,initial-scale=1"], ["color-scheme", "light dark"]].forEach(function (said) {
      var meta = document.createElement("meta");
      meta.name = said[0];
      meta.content = said[1];
      document.head.append(meta);
    });
    if (look) document.adoptedStyleSheets = [look];
    var main = document.createElement("main");
    main.textContent = text;
    document.body.append(main);
    return main;
  }
  /* Fetched while it is still to be had: after Remove there is nothing on the phone, and perhaps no connection. */
  function fetchLook() {
    return fetch(gateStyle).then(function (response) { return response.text() }).then(function (text) {
      look = new CSSStyleSheet();
      look.replaceSync(text);
    }).catch(function () { look = null });
  }
  function toGate() {
    if (gone) return;
    var here = location.href.slice(base.href.length), gate = base.href + (here ? "#to=" + encodeURIComponent(here) : "");
    var away = location.pathname !== base.pathname;
    leave("Locked.");
    if (away) return location.replace(gate);
    // From the home page only what follows # would change, and the page stay.
    history.replaceState(null, "", gate);
    location.reload();
  }
  function lookAgain() {
    if (document.visibilityState === "visible") ask({ ask: "gate" }).then(function (terms) { if (terms && terms.locked) toGate() });
  }

  // The theme leaves what was searched for in the address, which a browser without the worker would tell the host.
  addEventListener("load", function () {
    setTimeout(function () {
      if (location.search) history.replaceState(history.state, "", location.pathname + location.hash);
    }, 500);
  });

  if (!phone) return;
  phone.addEventListener("message", function (event) {
    if (event.data && event.data.scoutgenLock === "locked") toGate();
  });
  phone.startMessages();
  document.addEventListener("visibilitychange", lookAgain);
  addEventListener("pageshow", function (event) { if (event.persisted) lookAgain() });
  // Left on a desk, a page is put away by the clock too.
  setInterval(lookAgain, 600e3);
  ask({ ask: "keep" });

  function button(text, act) {
    var made = document.createElement("button");
    made.type = "button";
    made.textContent = text;
    made.addEventListener("click", function () { act(made) });
    return made;
  }
  function lock() { ask({ ask: "lock" }).then(toGate) }
  function remove(made) {
    if (made.dataset.sure === undefined) {
      made.dataset.sure = "";
      made.textContent = "Tap again to remove everything from this phone";
      return;
    }
    // Gone first, so that the word "locked", which all open pages get, does not send this one to the gate.
    gone = true;
    made.disabled = true;
    made.textContent = "Removing …";
    fetchLook().then(function () {
      var asked = ask({ ask: "lock" }).then(function () { return ask({ ask: "remove" }) });
      return scoutgenRemoved.takeOff(asked, base);
    }).then(function () {
      scoutgenRemoved.forget(base);
      scoutgenRemoved.show(leave(""), base);
    });
  }

  // The page about this phone has such a button too; in a locked site it takes the key along.
  document.addEventListener("click", function (event) {
    var made = event.target.closest("[data-offline=remove]");
    if (!made) return;
    event.stopImmediatePropagation();
    remove(made);
  }, true);

  var row = document.createElement("p");
  row.className = "lock-row";
  row.append(button("Lock", lock), button("Remove from this phone", remove));
  (document.querySelector(".site-foot") || document.body).append(row);
  var bar = document.querySelector(".thumb-bar");
  if (bar) {
    var quick = button("", lock), words = document.createElement("span");
    var drawing = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    var path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    drawing.setAttribute("viewBox", "0 0 24 24");
    drawing.setAttribute("aria-hidden", "true");
    path.setAttribute("d", "M7 10V7a5 5 0 0 1 10 0v3h1a1 1 0 0 1 1 1v9a1 1 0 0 1-1 1H6a1 1 0 0 1-1-1v-9a1 1 0 0 1 1-1zm2 0h6V7a3 3 0 0 0-6 0z");
    drawing.append(path);
    words.textContent = "Lock";
    quick.append(drawing, words);
    bar.append(quick);
  }
})();
