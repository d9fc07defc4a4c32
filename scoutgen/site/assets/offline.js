/* Keeps the site on the phone (worker.js does the work), says so in the foot, and offers a new version when there is one.
   Nothing here is needed to read the site while there is a signal. */
(function () {
  "use strict";
  var workerAddress = document.currentScript.dataset.worker;
  var builtHere = document.currentScript.dataset.built;
  var STORE = "scoutgen " + __md_scope.href;
  var WITH_SIGNAL = " The site works while there is a signal.";
  var registration, askedToLoad, last;

  function each(name, work) { document.querySelectorAll("[data-offline=" + name + "]").forEach(work) }
  function megabytes(bytes) { return Math.max(1, Math.round(bytes / 1e6)) + " MB" }

  // The time as every page has it; the day too when that is not today.
  function when(built) {
    var now = new Date(), two = function (n) { return String(n).padStart(2, "0") };
    var today = now.getFullYear() + "-" + two(now.getMonth() + 1) + "-" + two(now.getDate());
    return built.slice(0, 10) === today ? built.slice(11) : built;
  }

  // kept: true, false or, where there is nothing to choose, null.
  function say(line, kept, done) {
    each("line", function (place) { place.textContent = line });
    each("remove", function (button) { button.hidden = kept !== true });
    each("keep", function (button) { button.hidden = kept !== false });
    each("progress", function (bar) {
      bar.hidden = done === undefined;
      if (done !== undefined) bar.value = done;
    });
  }

  function told(state) {
    // What is being fetched for the next version is not what the reader reads.
    if (state.update) return;
    last = state;
    // Another tab has loaded a new version, or the browser shows a page it had put aside: what is being read stays until
    // the reader wants the new one here too.
    if (navigator.serviceWorker.controller && state.built !== builtHere && !askedToLoad) {
      bar("New version from " + when(state.built) + ", tap to load", function () { location.reload() });
    }
    var some = state.kept + " of " + state.of + " files";
    if (state.whole) {
      say("Kept on this phone, works without a signal. Built " + when(state.built) + ", " + megabytes(state.bytes) + ".", true);
    } else if (state.problem === "full") {
      say("Not kept whole: this phone, or a private window, has no room for " + megabytes(state.bytes) + "." + WITH_SIGNAL, true);
    } else if (state.problem === "signal") {
      say("Kept in part, " + some + ": the rest follows when there is a signal.", true);
    } else if (state.problem) {
      say("Not kept whole: " + state.problem + "." + WITH_SIGNAL, true);
    } else {
      say("Being kept on this phone: " + some + ".", true, state.kept / state.of);
    }
  }

  function ask(worker, what) {
    return new Promise(function (answered) {
      var channel = new MessageChannel();
      channel.port1.onmessage = function (event) { answered(event.data) };
      worker.postMessage({ ask: what }, [channel.port2]);
      setTimeout(answered, 5000);
    });
  }

  function bar(words, work) {
    var place = document.querySelector(".update-bar");
    if (!place) {
      place = document.createElement("div");
      place.className = "update-bar";
      place.setAttribute("role", "status");
      document.body.appendChild(place);
    }
    var button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", work);
    place.replaceChildren(button);
  }

  function offer(worker) {
    ask(worker, "about").then(function (state) {
      if (!state) return;
      bar("New version from " + when(state.built) + ", tap to load", function () {
        askedToLoad = true;
        worker.postMessage({ ask: "load" });
      });
    });
  }

  function carryOn(worker) {
    worker.postMessage({ ask: "keep" });
    ask(worker, "about").then(function (state) { if (state) told(state) });
  }

  function follow(worker) {
    worker.addEventListener("statechange", function () {
      if (worker.state === "installed" && registration.active) offer(worker);
      if (worker.state === "activated") carryOn(worker);
      if (worker.state === "redundant" && !registration.active && !(last && last.problem)) {
        say("Not kept on this phone." + WITH_SIGNAL, false);
      }
    });
  }

  function keep() {
    return navigator.serviceWorker.register(workerAddress, { updateViaCache: "none" }).then(function (found) {
      registration = found;
      found.addEventListener("updatefound", function () { follow(found.installing) });
      if (found.installing) follow(found.installing);
      if (found.waiting && found.active) offer(found.waiting);
      if (found.active) carryOn(found.active);
      // An app on the home screen may ask that nothing of it be thrown out; a page in a browser would have to ask the reader.
      if (matchMedia("(display-mode: standalone)").matches && navigator.storage && navigator.storage.persist) {
        navigator.storage.persist().catch(function () { });
      }
    }, function () {
      say("Not kept on this phone: this browser does not let it, as in some private windows." + WITH_SIGNAL, null);
    });
  }

  function remove() {
    say("Taking it off this phone …", null);
    var worker = registration && (registration.active || registration.waiting || registration.installing);
    (worker ? ask(worker, "remove") : Promise.resolve())
      .then(function () { return caches.delete(STORE) })
      .then(function () { return registration && registration.unregister() })
      .catch(function () { })
      .then(function () {
        [localStorage, sessionStorage].forEach(function (store) {
          Object.keys(store).forEach(function (key) {
            if (key.indexOf(__md_scope.pathname + ".") === 0) store.removeItem(key);
          });
        });
        // Only as long as this tab: otherwise the next page of this visit would keep it all again.
        __md_set("removed", true, sessionStorage);
        registration = null;
        say("Removed from this phone: pages, choices and all. The next visit keeps it again.", false);
      });
  }

  function start() {
    each("remove", function (button) { button.addEventListener("click", remove) });
    each("keep", function (button) {
      button.addEventListener("click", function () {
        __md_set("removed", false, sessionStorage);
        say("Being kept on this phone …", null);
        keep();
      });
    });
    if (!isSecureContext) {
      return say("Not kept on this phone: that needs an address that begins with https." + WITH_SIGNAL, null);
    }
    if (!navigator.serviceWorker) {
      return say("Not kept on this phone: this browser does not let it, as in some private windows." + WITH_SIGNAL, null);
    }
    navigator.serviceWorker.addEventListener("message", function (event) {
      if (event.data && event.data.scoutgen) told(event.data.scoutgen);
    });
    navigator.serviceWorker.startMessages();
    navigator.serviceWorker.addEventListener("controllerchange", function () {
      if (askedToLoad) return location.reload();
      if (navigator.serviceWorker.controller) carryOn(navigator.serviceWorker.controller);
    });
    addEventListener("visibilitychange", function () {
      if (!document.hidden && registration) registration.update().catch(function () { });
    });
    if (__md_get("removed", sessionStorage)) return say("Not kept on this phone: removed. The next visit keeps it again.", false);
    var saving = navigator.connection && navigator.connection.saveData;
    if (saving && !navigator.serviceWorker.controller) return say("Not kept on this phone yet, since it is set to save data.", false);
    keep();
  }

  // After everything the page itself needs.
  if (document.readyState === "complete") start(); else addEventListener("load", start);
})();
