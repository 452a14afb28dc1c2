(function () {
  'use strict';
  var body = document.body;
  var key = 'placer ticks ' + body.dataset.plan;
  var kept = { ticks: {}, starts: {} };
  var undo = [];
  var chosen = null;
  var byId = function (id) { return document.getElementById(id); };
  var all = function (css, root) { return Array.prototype.slice.call((root || document).querySelectorAll(css)); };

  document.documentElement.classList.add('scripted');

  // --- what is kept on the phone ---
  function read() {
    try {
      var text = localStorage.getItem(key);
      var found = text ? JSON.parse(text) : null;
      if (found && found.ticks && found.starts) { kept = found; }
    } catch (e) { notKept(); }
  }
  function write() {
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch (e) { notKept(); }
  }
  function notKept() {
    document.querySelector('.kept').textContent =
      'This phone keeps no ticks for this page: they are gone when you close it.';
  }

  // --- ticks ---
  function clockText(ms) {
    var d = new Date(ms);
    var two = function (n) { return (n < 10 ? '0' : '') + n; };
    return ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'][d.getDay()] + ' ' + two(d.getHours()) + ':' + two(d.getMinutes());
  }
  function show(id) {
    var button = byId(id);
    if (!button) { return; }
    var on = Boolean(kept.ticks[id]);
    button.setAttribute('aria-pressed', String(on));
    if (button.dataset.timed) { button.querySelector('.at').textContent = on ? 'at ' + clockText(kept.ticks[id]) : ''; }
    var mark = document.querySelector('[data-for="' + id + '"]');
    if (mark) { mark.classList.toggle('done', on); }
  }
  function count() {
    all('.progress').forEach(function (line) {
      var ids = all('.tick.number', byId(line.dataset.shelf)).map(function (b) { return b.id; });
      var set = ids.filter(function (id) { return kept.ticks[id]; }).length;
      if (!line.dataset.plain) { line.dataset.plain = line.textContent; }
      line.textContent = line.dataset.plain;
      var told = document.createElement('span');
      told.className = 'set-so-far';
      told.textContent = ' · ' + set + ' of ' + ids.length + ' set';
      line.appendChild(told);
      var link = document.querySelector('nav a[data-shelf="' + line.dataset.shelf + '"]');
      if (link) { link.classList.toggle('full', ids.length > 0 && set === ids.length); }
    });
  }
  function change(changes, remember) {
    var before = {};
    Object.keys(changes).forEach(function (id) {
      before[id] = kept.ticks[id] || 0;
      if (changes[id]) { kept.ticks[id] = changes[id]; } else { delete kept.ticks[id]; }
      show(id);
    });
    if (remember) { undo.push(before); }
    write();
    count();
    bar();
  }
  function toggle(id) {
    var one = {};
    one[id] = kept.ticks[id] ? 0 : Date.now();
    change(one, true);
  }

  // --- the chosen piece and the bar below ---
  function bar() {
    byId('undo').disabled = undo.length === 0;
    if (chosen || undo.length) { byId('bar').classList.add('open'); }
    var set = byId('set');
    set.disabled = !chosen;
    set.textContent = chosen && kept.ticks[chosen] ? 'Take off' : 'Set';
    if (!chosen) { return; }
    byId('told').textContent = numberOf(chosen) + ' · ' + byId(chosen).dataset.told +
      (kept.ticks[chosen] ? ' · set' : '');
  }
  function numberOf(id) { return Number(id.replace(/^.*-p/, '')); }
  /// The lowest number on the same shelf that is not set yet.
  function nextOf(id) {
    var left = all('.tick.number', byId(id).closest('section.shelf')).map(function (b) { return b.id; })
      .filter(function (one) { return !kept.ticks[one]; });
    left.sort(function (a, b) { return numberOf(a) - numberOf(b); });
    return left[0] || null;
  }
  function choose(id) {
    all('.chosen').forEach(function (old) { old.classList.remove('chosen'); });
    chosen = id;
    byId(id).classList.add('chosen');
    var mark = document.querySelector('[data-for="' + id + '"]');
    if (mark) {
      mark.classList.add('chosen');
      mark.parentNode.appendChild(mark);  // on top, so that its ring is whole
    }
    bar();
  }
  /// A thumb is wider than a bud vase: the piece nearest to it, unless it is far from all.
  function nearest(map, event) {
    var turn = map.getScreenCTM();
    if (!turn) { return null; }
    var best = null;
    var least = 60;
    all('.piece', map).forEach(function (piece) {
      var x = turn.a * Number(piece.dataset.x) + turn.e - event.clientX;
      var y = turn.d * Number(piece.dataset.y) + turn.f - event.clientY;
      var away = Math.sqrt(x * x + y * y);
      if (away < least) { least = away; best = piece; }
    });
    return best;
  }
  all('.map').forEach(function (map) {
    map.addEventListener('click', function (event) {
      var piece = event.target.closest('.piece') || nearest(map, event);
      if (piece) { choose(piece.dataset.for); }
    });
  });
  all('.tick').forEach(function (button) {
    button.addEventListener('click', function () {
      if (button.classList.contains('number')) { choose(button.id); }
      toggle(button.id);
    });
  });
  byId('set').addEventListener('click', function () {
    if (!chosen) { return; }
    var done = chosen;
    toggle(done);
    var next = kept.ticks[done] ? nextOf(done) : null;
    if (next) {
      choose(next);
      byId('told').textContent = numberOf(done) + ' is set. Next: ' + byId('told').textContent;
    } else if (kept.ticks[done]) {
      byId('told').textContent = numberOf(done) + ' is set, and with it the whole shelf.';
    }
  });
  byId('undo').addEventListener('click', function () {
    var before = undo.pop();
    if (before) { change(before, false); byId('told').textContent = 'Undone.'; }
  });
  byId('clear').addEventListener('click', function () {
    var off = {};
    Object.keys(kept.ticks).forEach(function (id) { off[id] = 0; });
    if (Object.keys(off).length) { change(off, true); byId('told').textContent = 'All ticks are off. Undo puts them back.'; }
  });

  // --- clock times from the real start ---
  function startOf(fire) {
    var real = kept.starts[fire.id];
    if (real) { return real; }
    return fire.dataset.start ? Number(fire.dataset.start) * 1000 : null;
  }
  function times(fire) {
    if (!kept.starts[fire.id]) { return; }
    all('.clock', fire).forEach(function (span) {
      if (!span.dataset.planned) { span.dataset.planned = span.textContent || ' '; }
      span.textContent = clockText(kept.starts[fire.id] + Math.round(Number(span.dataset.h) * 60) * 60000);
    });
  }
  function plannedTimes(fire) {
    all('.clock', fire).forEach(function (span) {
      if (span.dataset.planned) { span.textContent = span.dataset.planned.trim(); }
    });
  }
  function nowLine(fire) {
    var line = fire.querySelector('.now-line');
    if (!line) { return; }
    var start = startOf(fire);
    var hours = start === null ? -1 : (Date.now() - start) / 3600000;
    var text = '';
    all('.step', fire).forEach(function (step) {
      var from = Number(step.dataset.fromH);
      var to = Number(step.dataset.toH);
      var current = hours >= from && hours < to;
      step.classList.toggle('current', current);
      if (current) { text = 'Now: ' + step.querySelector('h5').textContent + ', on the way to ' + Math.round(Number(step.dataset.toC)) + ' °C'; }
    });
    if (line.textContent !== text) { line.textContent = text; }
  }
  function localInput(ms) {
    var d = new Date(ms - new Date(ms).getTimezoneOffset() * 60000);
    return d.toISOString().slice(0, 16);
  }
  all('.fire').forEach(function (fire) {
    var input = fire.querySelector('input');
    if (!input) { return; }
    function begin(ms) {
      if (ms) { kept.starts[fire.id] = ms; } else { delete kept.starts[fire.id]; plannedTimes(fire); }
      write();
      times(fire);
      nowLine(fire);
    }
    input.addEventListener('change', function () {
      var ms = input.value ? new Date(input.value).getTime() : 0;
      begin(isNaN(ms) ? 0 : ms);
    });
    fire.querySelector('.now').addEventListener('click', function () {
      input.value = localInput(Date.now());
      begin(Date.now());
    });
  });

  // --- begin ---
  read();
  Object.keys(kept.ticks).forEach(show);
  count();
  bar();
  all('.fire').forEach(function (fire) {
    var input = fire.querySelector('input');
    if (input && kept.starts[fire.id]) { input.value = localInput(kept.starts[fire.id]); }
    times(fire);
    nowLine(fire);
  });
  setInterval(function () { all('.fire').forEach(nowLine); }, 30000);
}());
