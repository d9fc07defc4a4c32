/* Before the gate's script and before that of the opened pages: what is left to see once everything was removed. */
var scoutgenRemoved = {
  /* The reader's choices, of this site alone. */
  forget: function (base) {
    [localStorage, sessionStorage].forEach(function (store) {
      Object.keys(store).forEach(function (key) { if (key.indexOf(base.pathname + ".") === 0) store.removeItem(key) });
    });
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
