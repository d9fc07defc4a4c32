/* The page that asks for the passphrase. The key is made here and handed to the worker, which says whether it opens the
   site; there is no other check than the cipher's own. */
(function () {
  "use strict";
  var base = new URL("..", document.currentScript.src);
  var form = document.querySelector("form"), field = document.getElementById("passphrase"), button = form.querySelector("[type=submit]");
  var problem = document.getElementById("problem"), progress = document.getElementById("progress");
  var remove = document.getElementById("remove");
  // By which a password manager keeps several locked sites of one host apart.
  document.getElementById("which").value = base.pathname;

  var SAID = {
    wrong: "That is not the passphrase. Look at it letter by letter and try again.",
    signal: "The pages are not on this phone yet and there is no connection. Try again with one.",
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

  function active(registration) {
    var worker = registration.waiting || registration.installing || registration.active;
    // Nothing is being read here, so a newer version need not wait.
    if (registration.waiting) registration.waiting.postMessage({ ask: "load" });
    return new Promise(function (done, failed) {
      function look() {
        if (worker.state === "activated") done(worker);
        else if (worker.state === "redundant") {
          if (registration.active) done(registration.active);
          else failed(new Error("not installed"));
        } else if (worker.state === "installed") worker.postMessage({ ask: "load" });
      }
      worker.addEventListener("statechange", look);
      look();
    });
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

  document.getElementById("show").addEventListener("click", function (event) {
    var shown = field.type === "password";
    field.type = shown ? "text" : "password";
    event.currentTarget.setAttribute("aria-pressed", String(shown));
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
  }).catch(function () {
    complain("The pages could not be fetched. Look at the connection, then load this page again.", false);
  });

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    if (!field.value.trim()) return complain("Type the passphrase first.", true);
    button.disabled = true;
    field.removeAttribute("aria-invalid");
    say("Opening; this takes a moment.");
    Promise.all([ready, terms]).then(function (both) {
      return derived(field.value, both[1]).then(function (key) { return ask(both[0], { ask: "unlock", key: key }) });
    }).then(function (answer) {
      if (answer.is !== "open") return complain(SAID[answer.is], true);
      field.value = "";
      say("Open.");
      enter();
    }).catch(function () { complain("The passphrase could not be tried. Load this page again.", true) });
  });

  remove.addEventListener("click", function () {
    ready.then(function (worker) { return ask(worker, { ask: "remove" }) }).then(function () {
      [localStorage, sessionStorage].forEach(function (store) {
        Object.keys(store).forEach(function (key) { if (key.indexOf(base.pathname + ".") === 0) store.removeItem(key) });
      });
      remove.hidden = form.hidden = true;
      say("Removed: nothing of these pages is left on this phone. To read them again, load this page.");
    });
  });
})();
