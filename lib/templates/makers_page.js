(function () {
  'use strict';
  // The tables are the library's (makers_page.cpp); here they are looked up.
  var tables = JSON.parse(document.getElementById('tables').textContent);
  var key = 'skeinfall size ' + document.documentElement.getAttribute('data-make');
  var form = document.getElementById('size-form');
  if (!form) return;
  var across = document.getElementById('size-across');
  var along = document.getElementById('size-along');
  var lines = document.getElementById('size-lines');
  var values = Array.prototype.slice.call(lines.querySelectorAll('dd'));

  function show() {
    var at = (across ? Number(across.value) : 0) * tables.lengths + (along ? Number(along.value) : 0);
    var cell = tables.cells[at];
    document.getElementById('size-none').hidden = cell !== null;
    lines.hidden = cell === null;
    values.forEach(function (value, i) {
      value.textContent = cell ? cell[i] : '';
      value.hidden = value.previousElementSibling.hidden = !value.textContent;
    });
  }
  function choose(at) {
    if (across && across.options[at[0]]) across.value = String(at[0]);
    if (along && along.options[at[1]]) along.value = String(at[1]);
  }
  choose(tables.at);
  try {
    choose(JSON.parse(window.localStorage.getItem(key) || '[]'));
  } catch (error) {
    choose(tables.at);
  }
  form.addEventListener('change', function () {
    show();
    try {
      window.localStorage.setItem(key, JSON.stringify([across ? Number(across.value) : 0, along ? Number(along.value) : 0]));
    } catch (error) {
      return;  // it is chosen all the same
    }
  });
  form.addEventListener('submit', function (event) { event.preventDefault(); });
  form.hidden = false;
  show();
})();
