/* The page that asks for the passphrase. The key is made here and handed to the worker, which says whether it opens the
   site; there is no other check than the cipher's own. */
(function () {
  "use strict";
  var base = new URL("..", document.currentScript.src);
  // The page for unknown addresses looks for this script in several places, and for its style at the root.
  if (document.documentElement.dataset.gate) return;
  document.documentElement.dataset.gate = base.pathname;
  document.querySelectorAll("link[href^='/']").forEach(function (link) {
    var named = link.getAttribute("href").match(/(?:gate\/)?[^/]+$/)[0];
    if (new URL(named, base).href !== link.href) link.href = new URL(named, base).href;
  });
  // The colours chosen on the pages, where they are not to follow the phone.
  try {
    var colours = JSON.parse(localStorage.getItem(base.pathname + ".__palette")).color;
    if (colours.media !== "(prefers-color-scheme)") document.documentElement.dataset.scheme = colours.scheme;
  } catch (e) { /* nothing chosen, or nothing kept */ }
  var form = document.querySelector("form"), field = document.getElementById("passphrase"), button = form.querySelector("[type=submit]");
  var problem = document.getElementById("problem"), progress = document.getElementById("progress");
  var remove = document.getElementById("remove");
  // By which a password manager keeps several locked sites of one host apart.
  document.getElementById("which").value = base.pathname;

  var SAID = {
    wrong: "That is not the passphrase. Look at it letter by letter and try again.",
    signal: "The pages are not on this phone yet and there is no connection. Try again with one.",
    full: "This phone has no room left, not even for the key. Make some, then try again.",
    broken: "The pages cannot be opened here: this browser may not keep anything. Open the address in an ordinary window."
  };

  function say(text) { problem.textContent = ""; progress.textContent = text }
  function complain(text, again) {
    progress.textContent = "";
    problem.textContent = text;
    button.disabled = !again;
    field.setAttribute("aria-invalid", String(Boolean(again)));
    if (again) { field.select(); field.focus() }
  }

  /* Where the reader wanted to go: what the worker sent along, or the address this page stands at. */
  function target() {
    var asked = location.hash.match(/^#to=(.*)/), wanted = null;
    if (asked) try { wanted = new URL(decodeURIComponent(asked[1]), base) } catch (e) { /* not ours */ }
    if (!wanted) wanted = new URL(location.href);
    return wanted.href.indexOf(base.href) === 0 ? wanted : base;
  }
  function enter() {
    var wanted = target();
    if (wanted.pathname !== location.pathname) return location.replace(wanted);
    // Only what follows # would change, and this page stay.
    history.replaceState(null, "", wanted);
    location.reload();
  }

  function ask(worker, words) {
    return new Promise(function (done) {
      var channel = new MessageChannel();
      channel.port1.onmessage = function (event) { done(event.data) };
      worker.postMessage(words, [channel.port2]);
    });
  }

  /* Opened from a copy, an old browser or a private window, the site cannot be read; said before anybody types. */
  function cannot() {
    if (location.protocol === "file:") return "These pages open only from a web address, not from a folder.";
    if (!isSecureContext) return "This address is not safe to type a passphrase into: it begins with http. Open it with https:// in front.";
    if (!("serviceWorker" in navigator) || !("caches" in window)) {
      return "This window cannot keep locked pages. Private windows of some browsers cannot: open the address in an ordinary window.";
    }
    if (!crypto.subtle || !("DecompressionStream" in window)) return "This browser is too old for locked pages. Update it, or use another one.";
    return "";
  }

  /* The worker, once it works. A newer version that waits may take over, since nothing is being read here; one that is
     still being fetched need not be waited for. */
  function active(registration) {
    return working(registration.waiting || registration.active || registration.installing).catch(function () {
      if (registration.active) return registration.active;
      throw new Error("not installed");
    });
  }
  function working(worker) {
    return new Promise(function (done, failed) {
      function look() {
        if (worker.state === "activated") done(worker);
        else if (worker.state === "redundant") failed(new Error("redundant"));
        else if (worker.state === "installed") worker.postMessage({ ask: "load" });
      }
      worker.addEventListener("statechange", look);
      look();
    });
  }
  /* A passphrase that does not open what this phone has may be that of a newer version. */
  function newer() {
    return navigator.serviceWorker.getRegistration(base).then(function (registration) {
      return registration.update().then(function (updated) {
        var worker = updated.installing || updated.waiting;
        if (!worker) return null;
        say("There is a newer version; it is being fetched.");
        return working(worker);
      });
    }).catch(function () { return null });
  }
  function tried(worker) {
    return ask(worker, { ask: "gate" }).then(function (terms) {
      return derived(field.value, terms);
    }).then(function (key) { return ask(worker, { ask: "unlock", key: key }) });
  }

  function derived(passphrase, terms) {
    var subtle = crypto.subtle, text = passphrase.normalize("NFKC").replace(/ +/g, " ").trim();
    var encode = function (words) { return new TextEncoder().encode(words) };
    var salt = new Uint8Array(terms.salt.match(/../g).map(function (byte) { return parseInt(byte, 16) }));
    return subtle.importKey("raw", encode(text), "PBKDF2", false, ["deriveBits"]).then(function (typed) {
      return subtle.deriveBits({ name: "PBKDF2", hash: "SHA-256", salt: salt, iterations: terms.rounds }, typed, 256);
    }).then(function (bits) {
      return subtle.importKey("raw", bits, "HKDF", false, ["deriveKey"]);
    }).then(function (secret) {
      return subtle.deriveKey({ name: "HKDF", hash: "SHA-256", salt: new Uint8Array(0), info: encode("scoutgen lock 1 blocks") },
        secret, { name: "AES-GCM", length: 256 }, false, ["decrypt"]);
    });
  }

  var show = document.getElementById("show");
  show.addEventListener("click", function () {
    var shown = field.type === "password";
    field.type = shown ? "text" : "password";
    show.setAttribute("aria-pressed", String(shown));
    field.focus();
  });

  var reason = cannot();
  document.getElementById("without").hidden = true;
  if (reason) return complain(reason, false);
  form.hidden = false;
  field.focus();

  var ready = navigator.serviceWorker.register(new URL("worker.js", base), { scope: base.pathname, updateViaCache: "none" })
    .then(active);
  var terms = ready.then(function (worker) { return ask(worker, { ask: "gate" }) });
  Promise.all([ready, terms]).then(function (both) {
    if (!both[1].locked) return enter();
    return ask(both[0], { ask: "about" }).then(function (about) { remove.hidden = about.kept <= both[1].first });
  }).catch(function (error) {
    // Where the reader has forbidden that sites keep anything, the browser refuses the worker itself.
    var forbidden = error.name === "SecurityError" || error.name === "NotSupportedError" || error.name === "InvalidStateError";
    form.hidden = forbidden;
    complain(forbidden ? SAID.broken : "The pages could not be fetched. Look at the connection, then load this page again.", false);
  });

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    if (!field.value.trim()) return complain("Type the passphrase first.", true);
    button.disabled = true;
    field.removeAttribute("aria-invalid");
    // Shown as text, it would be kept by the browser among what was typed before.
    field.type = "password";
    show.setAttribute("aria-pressed", "false");
    say("Opening; this takes a moment.");
    ready.then(function (worker) {
      return tried(worker).then(function (answer) {
        if (answer.is !== "wrong") return answer;
        return newer().then(function (other) {
          if (!other) return answer;
          ready = Promise.resolve(other);
          return tried(other);
        });
      });
    }).then(function (answer) {
      if (answer.is !== "open") return complain(SAID[answer.is], true);
      field.value = "";
      say("Open.");
      enter();
    }).catch(function () { complain("The passphrase could not be tried. Load this page again.", true) });
  });

  remove.addEventListener("click", function () {
    remove.disabled = true;
    remove.textContent = "Removing …";
    scoutgenRemoved.takeOff(ready.then(function (worker) { return ask(worker, { ask: "remove" }) }), base).then(function () {
      scoutgenRemoved.forget(base);
      scoutgenRemoved.show(document.querySelector("main"), base);
    });
  });
})();
