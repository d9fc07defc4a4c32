/* Before the gate's script and before that of the opened pages: what is left to see once everything was removed. */
var scoutgenRemoved = {
  /* The reader's choices, of this site alone. */
  forget: function (base) {
    ["localStorage", "sessionStorage"].forEach(function (name) {
      try {
        var store = window[name];
        Object.keys(store).forEach(function (key) { if (key.indexOf(base.pathname + ".") === 0) store.removeItem(key) });
      } catch (e) { /* a browser that keeps nothing does not even let one look */ }
    });
  },
  /* Whatever the worker did of it, or did not in ten seconds. */
  takeOff: function (asked, base) {
    var late = new Promise(function (done) { setTimeout(done, 10000) });
    return Promise.race([asked, late]).then(function () {
      return Promise.all([
        caches.delete("scoutgen " + base.href),
        new Promise(function (done) {
          var gone = indexedDB.deleteDatabase("scoutgen lock " + base.href);
          gone.onsuccess = gone.onerror = gone.onblocked = done;
        }),
        navigator.serviceWorker.getRegistration(base).then(function (found) { return found && found.unregister() })
      ]);
    }).catch(function () { });
  },
  /* Said in the gate's look, in a document that has nothing of the pages any more. */
  show: function (main, base) {
    function add(kind, text) {
      var made = document.createElement(kind);
      made.textContent = text;
      main.append(made);
      return made;
    }
    document.title = "Removed from this phone";
    main.replaceChildren();
    var heading = add("h1", "Removed from this phone");
    add("p", "Gone from here: all pages, the key that opened them, and your choices of side and colours.");
    add("p", "To open them again takes a connection and the passphrase. The browser's history may still show titles of pages: clear it before you hand the phone on.");
    var back = add("button", "Back to the passphrase");
    back.type = "button";
    back.className = "main-button";
    back.addEventListener("click", function () {
      if (location.pathname !== base.pathname || location.search) return location.replace(base);
      // From the home page only what follows # would change, and the page stay.
      history.replaceState(null, "", base);
      location.reload();
    });
    heading.tabIndex = -1;
    heading.focus();
  }
};
