/* The list of evaluations: sorted by a tap on a column's head, narrowed by what is chosen above it. The table is whole
   and readable without any of this. */
(function () {
  "use strict";
  var table = document.querySelector("table.tbl-evaluations");
  if (!table) return;
  var body = table.tBodies[0];
  var rows = Array.prototype.slice.call(body.rows);
  var heads = Array.prototype.slice.call(table.tHead.rows[0].cells);
  var names = heads.map(function (head) { return head.textContent.trim() });
  var CLASSES = ["fr", "so", "jr", "sr", "gr"];
  // What narrows the list: choices found in the column itself, or a bound on its number.
  var CHOICES = ["Team", "Plays", "Class", "Bats", "Throws"];
  var BOUNDS = [["Overall", "at least"], ["Later", "at least"], ["Home to first, s", "at most"],
    ["Pop to second, s", "at most"], ["Fastball, mph", "at least"]];
  // A grade or a speed is looked for from the top, everything else from the first or the quickest.
  var DOWN = ["Overall", "Later", "Fastball, mph", "Seen"];

  function text(row, column) { return row.cells[column].textContent.trim() }
  function plain(words) { return words.toLowerCase().normalize("NFKD").replace(/[\u0300-\u036f]/g, "") }
  function number(row, column) {
    // The number comes first in its cell, its sample on the next line.
    var first = row.cells[column].firstChild;
    return parseFloat(first ? first.textContent : "");
  }

  function value(row, column) {
    var said = text(row, column), name = names[column];
    if (said === "–" || said === "") return null;
    if (name === "Class") {
      var place = CLASSES.indexOf(said.toLowerCase().replace(/[^a-z]/g, "").slice(-2));
      return place < 0 ? CLASSES.length : place;
    }
    if (BOUNDS.some(function (bound) { return bound[0] === name })) return number(row, column);
    if (name === "Seen") return Date.parse(said.replace(/\u00a0/g, " "));
    // A number before a name does not count.
    return column === 0 ? plain(said.replace(/^\d+\s+/, "")) : plain(said);
  }

  var said = document.createElement("p");
  said.className = "list-said";
  said.setAttribute("role", "status");

  function sort(column, direction) {
    var sign = direction === "ascending" ? 1 : -1;
    rows.sort(function (a, b) {
      var x = value(a, column), y = value(b, column);
      // What nobody graded or timed comes last either way.
      if (x === null || y === null) return (x === null) - (y === null);
      return sign * (x < y ? -1 : x > y ? 1 : 0);
    });
    rows.forEach(function (row) { body.appendChild(row) });
    heads.forEach(function (head, place) {
      head.setAttribute("aria-sort", place === column ? direction : "none");
    });
  }

  heads.forEach(function (head, column) {
    var button = document.createElement("button");
    button.type = "button";
    button.className = "sort";
    // For paper, where a head that is repeated shows no button.
    head.setAttribute("data-name", names[column]);
    while (head.firstChild) button.appendChild(head.firstChild);
    head.appendChild(button);
    head.setAttribute("aria-sort", "none");
    button.addEventListener("click", function () {
      var first = DOWN.indexOf(names[column]) < 0 ? "ascending" : "descending";
      var other = first === "ascending" ? "descending" : "ascending";
      var direction = head.getAttribute("aria-sort") === first ? other : first;
      sort(column, direction);
      tell("Sorted by " + names[column] + ", " + direction + ". ");
    });
  });

  var bar = document.createElement("div");
  bar.className = "list-bar";
  bar.setAttribute("role", "group");
  bar.setAttribute("aria-label", "Narrow the list");
  var tests = [];

  function labelled(words, control) {
    var label = document.createElement("label");
    label.textContent = words + " ";
    label.appendChild(control);
    bar.appendChild(label);
    return control;
  }

  function choice(words, values, test) {
    if (values.length < 2) return;
    var select = document.createElement("select");
    [["", "any"]].concat(values).forEach(function (pair) {
      var option = document.createElement("option");
      option.value = pair[0];
      option.textContent = pair[1];
      select.appendChild(option);
    });
    labelled(words, select).addEventListener("change", narrow);
    tests.push(function (row) { return select.value === "" || test(row, select.value) });
  }

  var box = document.createElement("input");
  box.type = "search";
  box.setAttribute("autocomplete", "off");
  labelled("Name or tool", box).addEventListener("input", narrow);
  tests.push(function (row) { return plain(row.textContent).indexOf(plain(box.value.trim())) >= 0 });

  CHOICES.forEach(function (name) {
    var column = names.indexOf(name);
    if (column < 0) return;
    var found = {};
    rows.forEach(function (row) {
      text(row, column).split(", ").forEach(function (word) { if (word && word !== "–") found[word] = true });
    });
    var words = Object.keys(found).sort(function (a, b) {
      var x = CLASSES.indexOf(a.toLowerCase()), y = CLASSES.indexOf(b.toLowerCase());
      return x - y || (a < b ? -1 : 1);
    });
    choice(name, words.map(function (word) { return [word, word] }), function (row, word) {
      return text(row, column).split(", ").indexOf(word) >= 0;
    });
  });

  BOUNDS.forEach(function (bound) {
    var column = names.indexOf(bound[0]);
    if (column < 0) return;
    var least = bound[1] === "at least", seconds = / s$/.test(bound[0]);
    var found = {};
    rows.forEach(function (row) {
      var n = number(row, column);
      if (isNaN(n)) return;
      // Steps a reader thinks in: tenths of a second, the grades and miles as they are.
      found[seconds ? (Math.ceil(n * 10 - 1e-9) / 10).toFixed(1) : String(n)] = true;
    });
    var values = Object.keys(found).sort(function (a, b) { return least ? b - a : a - b });
    choice(bound[0].replace(/,.*/, "") + " " + bound[1], values.map(function (v) { return [v, v] }), function (row, v) {
      var n = number(row, column);
      return least ? n >= +v : n <= +v;
    });
  });

  var clear = document.createElement("button");
  clear.type = "button";
  clear.textContent = "Show all";
  clear.addEventListener("click", function () {
    box.value = "";
    bar.querySelectorAll("select").forEach(function (select) { select.value = "" });
    narrow();
    box.focus();
  });
  bar.appendChild(clear);

  function narrow() {
    rows.forEach(function (row) { row.hidden = !tests.every(function (test) { return test(row) }) });
    tell("");
  }
  function tell(before) {
    var shown = rows.filter(function (row) { return !row.hidden }).length;
    said.textContent = before + shown + " of " + rows.length + " shown.";
  }

  // Room for the list on a phone: what narrows it opens on a tap.
  var fold = document.createElement("details"), summary = document.createElement("summary");
  fold.className = "fold list-bar-fold";
  fold.open = matchMedia("(min-width: 60em)").matches;
  summary.textContent = "Narrow the list";
  fold.appendChild(summary);
  fold.appendChild(bar);
  var frame = table.parentNode;
  // The count before what narrows, and in sight while it does.
  frame.parentNode.insertBefore(said, frame);
  frame.parentNode.insertBefore(fold, frame);
  tell("");
})();
