(function () {
  'use strict';
  var boxes = Array.prototype.slice.call(document.querySelectorAll('#rows input'));
  var key = 'skeinfall ticks ' + document.documentElement.getAttribute('data-make');
  var said = document.getElementById('said');
  var kept = true;
  function done() {
    return boxes.filter(function (box) { return box.checked; }).length;
  }
  function say() {
    said.textContent = done() + ' of ' + boxes.length + ' done' +
      (kept ? '' : '; this browser does not keep ticks');
  }
  function keep() {
    try {
      window.localStorage.setItem(key, boxes.map(function (box) {
        return box.checked ? '1' : '0';
      }).join(''));
    } catch (error) {
      kept = false;
    }
    say();
  }
  try {
    var old = window.localStorage.getItem(key) || '';
    if (old.length === boxes.length) {
      boxes.forEach(function (box, at) { box.checked = old.charAt(at) === '1'; });
    }
  } catch (error) {
    kept = false;
  }
  document.getElementById('rows').addEventListener('change', keep);
  document.getElementById('next').addEventListener('click', function () {
    var next = boxes.filter(function (box) { return !box.checked; })[0];
    if (next) {
      next.focus();
      next.scrollIntoView({ block: 'center' });
    }
  });
  document.getElementById('clear').addEventListener('click', function () {
    if (!window.confirm('Take away all ticks?')) return;
    boxes.forEach(function (box) { box.checked = false; });
    keep();
  });
  document.getElementById('bar').hidden = false;
  say();
})();
