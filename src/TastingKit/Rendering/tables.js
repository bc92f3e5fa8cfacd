// Turns long tables into pages of rows, now and later. Without scripts a check box shows all rows at once.
(function () {
  'use strict';
  if (window.tastingKitTables) return;
  window.tastingKitTables = true;

  var rowsOnPage = @rows@;

  function button(words, press) {
    var made = document.createElement('button');
    made.type = 'button';
    made.textContent = words;
    made.addEventListener('click', press);
    return made;
  }

  function page(table) {
    table.dataset.pages = 'on';
    var rows = Array.from(table.querySelectorAll('tbody tr'));
    var last = Math.ceil(rows.length / rowsOnPage) - 1;
    var at = 0;
    var isWhole = false;
    var earlier = button('Earlier rows', function () { at--; show(); if (at === 0) later.focus(); });
    var later = button('Later rows', function () { at++; show(); if (at === last) earlier.focus(); });
    var all = button('', function () { isWhole = !isWhole; show(); });
    var place = document.createElement('span');
    place.setAttribute('aria-live', 'polite');
    var turn = document.createElement('div');
    turn.className = 'tk-turn';
    turn.setAttribute('role', 'group');
    turn.setAttribute('aria-label', 'Rows of the table ' + table.querySelector('caption').textContent);
    turn.append(earlier, place, later, all);

    function show() {
      var first = isWhole ? 0 : at * rowsOnPage;
      var end = isWhole ? rows.length : Math.min(rows.length, first + rowsOnPage);
      rows.forEach(function (row, i) { row.hidden = i < first || i >= end; });
      place.textContent = 'Rows ' + (first + 1) + ' to ' + end + ' of ' + rows.length;
      earlier.disabled = isWhole || at === 0;
      later.disabled = isWhole || at === last;
      all.textContent = isWhole ? 'Show pages' : 'Show all ' + rows.length + ' rows';
    }

    show();
    table.append(turn);
  }

  function look() {
    document.querySelectorAll('.tk .tk-long:not([data-pages])').forEach(page);
  }

  // Paper has no buttons: all rows are printed.
  addEventListener('beforeprint', function () {
    document.querySelectorAll('.tk .tk-long tbody tr[hidden]').forEach(function (row) { row.hidden = false; row.dataset.unprinted = ''; });
  });
  addEventListener('afterprint', function () {
    document.querySelectorAll('.tk .tk-long tbody tr[data-unprinted]').forEach(function (row) { row.hidden = true; delete row.dataset.unprinted; });
  });
  look();
  new MutationObserver(look).observe(document.documentElement, { childList: true, subtree: true });
})();
