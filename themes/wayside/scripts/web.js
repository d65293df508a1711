/* What the web page does beside being read: one size alone, ticks that stay, a place marked, repeats counted.

   All of it is in the page: nothing is asked for or sent. What a reader does is kept in this browser alone,
   and where it keeps nothing the page works all the same until it is closed. The words stand in the page's
   templates; a size is shown by the style rules that go by `data-size`. */
(function () {
  "use strict";

  var root = document.documentElement;
  var key = "pattern " + document.body.getAttribute("data-pattern");
  var news = document.getElementById("news");
  var rows = Array.prototype.slice.call(document.querySelectorAll(".row"));
  var state = read();
  var before = null; // what "start afresh" took away, until the next change

  function read() {
    var kept = null;
    try {
      kept = JSON.parse(window.localStorage.getItem(key));
    } catch (problem) { /* nothing is kept here, or not by us */ }
    return {
      size: String(kept && kept.size || ""),
      here: String(kept && kept.here || ""),
      ticks: table(kept && kept.ticks),
      counts: table(kept && kept.counts)
    };
  }

  function table(value) {
    return value && typeof value === "object" && !Array.isArray(value) ? value : {};
  }

  function keep() {
    try {
      window.localStorage.setItem(key, JSON.stringify(state));
    } catch (problem) {
      document.getElementById("not-kept").hidden = false;
    }
  }

  function changed() {
    before = null;
    again.textContent = again.getAttribute("data-clear");
    keep();
  }

  function say(element, words) {
    news.textContent = (element.getAttribute("data-say") || "%").replace("%", words);
  }

  function boxes(row) {
    return Array.prototype.slice.call(row.querySelectorAll("input[type=checkbox]"));
  }

  function isShown(element) {
    return element.getClientRects().length > 0;
  }

  function isDone(row) {
    var shown = boxes(row).filter(isShown);
    return shown.length > 0 && shown.every(function (box) { return box.checked; });
  }

  function nameOf(row) {
    return row.getAttribute("data-name");
  }

  function fullNameOf(row) {
    var heading = row.closest(".piece").querySelector("h3, h4, h5, h6");
    return heading ? heading.firstChild.textContent.trim() + ", " + nameOf(row) : nameOf(row);
  }

  /* One size alone */

  var sizes = Array.prototype.slice.call(document.querySelectorAll("[data-choose]"));

  function showSize() {
    var chosen = sizes.filter(function (button) { return button.getAttribute("data-choose") === state.size; })[0];
    if (!chosen) {
      state.size = "";
    }
    if (state.size) {
      root.setAttribute("data-size", state.size);
    } else {
      root.removeAttribute("data-size");
    }
    sizes.forEach(function (button) {
      button.setAttribute("aria-pressed", String(button.getAttribute("data-choose") === state.size));
    });
    rows.forEach(showRow);
    showPlace();
  }

  sizes.forEach(function (button) {
    button.addEventListener("click", function () {
      state.size = button.getAttribute("data-choose");
      changed();
      showSize();
      say(button, button.textContent);
    });
  });

  /* Ticks, the place, and counters of each row */

  function addTools(row) {
    var place = document.getElementById("here").content.cloneNode(true).firstElementChild;
    place.setAttribute("aria-label", place.getAttribute("data-label").replace("%", nameOf(row)));
    place.addEventListener("click", function () {
      markPlace(state.here === row.id ? "" : row.id);
      say(place, nameOf(row));
      if (!state.here) {
        news.textContent = place.getAttribute("data-off");
      }
    });
    var times = row.getAttribute("data-repeats");
    if (times !== null) {
      times.split(";").forEach(function (often, at) { row.appendChild(makeCounter(row, often.trim(), at)); });
    }
    row.querySelector("p").insertAdjacentElement("afterend", place);
    boxes(row).forEach(function (box, at) {
      box.addEventListener("change", function () {
        if (box.checked) {
          state.ticks[row.id + ":" + at] = 1;
        } else {
          delete state.ticks[row.id + ":" + at];
        }
        changed();
        showRow(row);
        if (box.checked && state.here === row.id && isDone(row)) {
          goOn(row, place);
        }
      });
    });
  }

  function goOn(row, place) {
    var next = rows.slice(rows.indexOf(row) + 1).filter(function (other) { return isShown(other) && !isDone(other); })[0];
    if (next) {
      markPlace(next.id);
      say(place, nameOf(next));
    }
  }

  function makeCounter(row, often, at) {
    var counter = document.getElementById("counter").content.cloneNode(true).firstElementChild;
    var name = row.id + ":" + at;
    counter.setAttribute("aria-label", counter.getAttribute("aria-label").replace("%", nameOf(row)));
    counter.setAttribute("data-name", name);
    counter.setAttribute("data-often", often);
    counter.querySelectorAll("button").forEach(function (button) {
      button.addEventListener("click", function () {
        var step = Number(button.getAttribute("data-step"));
        var count = Number(state.counts[name]) || 0;
        var most = Number(mostOf(counter));
        // A repeat that is done is followed by the next one of as many: its count begins anew.
        state.counts[name] = !step ? 0 : step > 0 && most && count >= most ? 1 : Math.max(0, count + step);
        changed();
        showCounter(counter);
      });
    });
    return counter;
  }

  function mostOf(counter) {
    var often = counter.getAttribute("data-often").split(" ");
    return often.length === 1 ? often[0] : state.size ? often[Number(state.size) - 1] : "";
  }

  function showCounter(counter) {
    var most = mostOf(counter);
    var count = Number(state.counts[counter.getAttribute("data-name")]) || 0;
    var told = counter.querySelector("output");
    told.textContent = most ? told.getAttribute("data-of").replace("%", count).replace("#", most) : String(count);
    counter.classList.toggle("full", most !== "" && count >= Number(most));
    counter.querySelector("[data-step='-1']").disabled = count === 0;
    counter.classList.toggle("none", count === 0);
  }

  function showRow(row) {
    boxes(row).forEach(function (box, at) { box.checked = Boolean(state.ticks[row.id + ":" + at]); });
    row.classList.toggle("done", isDone(row));
    row.querySelectorAll(".counter").forEach(showCounter);
  }

  /* Where the reader is */

  var bar = document.getElementById("place");

  function markPlace(id) {
    state.here = id;
    changed();
    showPlace();
  }

  function showPlace() {
    var at = document.getElementById(state.here);
    var link = bar.querySelector("a");
    rows.forEach(function (row) {
      var is = row === at;
      row.classList.toggle("at", is);
      row.querySelector(".here").setAttribute("aria-pressed", String(is));
      if (is) {
        row.setAttribute("aria-current", "step");
      } else {
        row.removeAttribute("aria-current");
      }
    });
    bar.hidden = !at;
    if (at) {
      link.href = "#" + at.id;
      link.textContent = link.getAttribute("data-words").replace("%", fullNameOf(at));
    }
  }

  /* Afresh, and print */

  var again = document.getElementById("afresh");
  again.addEventListener("click", function () {
    var taken = before;
    var was = state;
    state = taken || { size: state.size, here: "", ticks: {}, counts: {} };
    keep();
    before = taken ? null : was;
    again.textContent = again.getAttribute(before ? "data-undo" : "data-clear");
    news.textContent = again.getAttribute(before ? "data-cleared" : "data-back");
    showSize();
  });
  document.getElementById("print").addEventListener("click", function () { window.print(); });

  rows.forEach(addTools);
  document.querySelectorAll("[data-script]").forEach(function (part) { part.hidden = false; });
  showSize();
  keep();
}());
