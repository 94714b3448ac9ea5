(function () {
  'use strict';
  var make = document.documentElement.getAttribute('data-make');
  var kept = true;

  function load(name) {
    try {
      return window.localStorage.getItem('skeinfall ' + name + ' ' + make) || '';
    } catch (error) {
      kept = false;
      return '';
    }
  }
  function save(name, text) {
    try {
      window.localStorage.setItem('skeinfall ' + name + ' ' + make, text);
    } catch (error) {
      kept = false;
    }
  }
  function element(id) {
    return document.getElementById(id);
  }

  // Ticks.
  var boxes = Array.prototype.slice.call(document.querySelectorAll('#rows input'));
  function ticks() {
    return boxes.map(function (box) { return box.checked ? '1' : '0'; }).join('');
  }
  function say() {
    var done = boxes.filter(function (box) { return box.checked; }).length;
    element('said').textContent = done + ' of ' + boxes.length + ' done' +
      (kept ? '' : '; this browser does not keep ticks');
  }
  function tick(text) {
    if (text.length !== boxes.length) return;
    boxes.forEach(function (box, at) { box.checked = text.charAt(at) === '1'; });
  }
  function keep() {
    save('ticks', ticks());
    say();
  }
  tick(load('ticks'));
  element('rows').addEventListener('change', function () {
    keep();
    carry();
  });
  element('next').addEventListener('click', function () {
    var next = boxes.filter(function (box) { return !box.checked; })[0];
    if (next) {
      next.focus();
      next.scrollIntoView({ block: 'center' });
    }
  });
  element('clear').addEventListener('click', function () {
    if (!window.confirm('Clear all ticks?')) return;
    boxes.forEach(function (box) { box.checked = false; });
    keep();
    carry();
  });
  element('bar').hidden = false;
  say();
  /// "1-27, 30" of the ticks that are set.
  function runs() {
    var out = [];
    for (var at = 0; at < boxes.length; ++at) {
      if (!boxes[at].checked) continue;
      var from = at;
      while (at + 1 < boxes.length && boxes[at + 1].checked) ++at;
      out.push(from === at ? String(from + 1) : (from + 1) + '-' + (at + 1));
    }
    return out.join(', ');
  }
  function tick_runs(text) {
    boxes.forEach(function (box) { box.checked = false; });
    text.split(',').forEach(function (run) {
      var ends = run.trim().split('-').map(Number);
      for (var at = ends[0]; at <= ends[ends.length - 1] && at <= boxes.length; ++at)
        if (at >= 1) boxes[at - 1].checked = true;
    });
    keep();
  }

  // Readings. The tables are the library's (work_tables.hpp); here they are looked up and added.
  var tables = JSON.parse(element('work').textContent);
  if (!tables.yarns.length) {
    carry = function () {};
    return;
  }
  element('now').hidden = false;
  element('now-link').hidden = false;
  var scale = tables.scale;

  tables.yarns.forEach(function (yarn) {
    yarn.work = [0];
    yarn.kinds = [];
    yarn.names = [];
    yarn.first = [];   // of each group, the step it begins with
    yarn.after = [];   // of each group, the steps done after a row
    yarn.finish = 0;   // metres of what comes when all rows are done
    yarn.last_row = 0; // steps done then
    yarn.ends = [];    // of each group, the steps done after its last row
    yarn.group_of = []; // of the row that is the last of so many steps; else undefined
    yarn.steps.forEach(function (run) {
      for (var at = 0; at < run[3]; ++at) {
        var step = yarn.kinds.length;
        var group = run[0];
        if (group >= 0 && yarn.first[group] === undefined) {
          yarn.first[group] = step;
          yarn.after[group] = {};
        }
        yarn.work.push(yarn.work[step] + run[4]);
        yarn.kinds.push(run[1]);
        if (run[1] === 0) {
          yarn.after[group][run[2] + at] = step + 1;
          yarn.names.push(yarn.groups[group].word + ' ' + (run[2] + at) + ' of ' + yarn.groups[group].name);
          yarn.last_row = step + 1;
          yarn.ends[group] = step + 1;
          yarn.group_of[step + 1] = group;
        } else {
          yarn.names.push(run[5]);
        }
      }
    });
    yarn.finish = yarn.work[yarn.work.length - 1] - yarn.work[yarn.last_row];
    yarn.readings = [];
  });

  function place(yarn, steps) {
    if (steps >= yarn.kinds.length) return 'the end';
    return steps === 0 ? 'before the first row' : 'after ' + yarn.names[steps - 1];
  }
  function fail(words) {
    var error = new Error(words);
    error.told = true;
    throw error;
  }
  function steps_done(yarn, reading) {
    var rows = yarn.after[reading.group];
    if (reading.row === 0) return yarn.first[reading.group];
    if (rows[reading.row] !== undefined) return rows[reading.row];
    var before = 0;
    var behind = 0;
    Object.keys(rows).forEach(function (key) {
      var row = Number(key);
      if (row < reading.row) before = Math.max(before, row);
      else if (behind === 0 || row < behind) behind = row;
    });
    fail('This yarn is not used in ' + yarn.groups[reading.group].word + ' ' + reading.row + ' there; ' +
      (behind === 0 ? 'the last it works is ' + before
        : before === 0 ? 'the first it works is ' + behind
          : 'it works ' + before + ' before it and ' + behind + ' behind it') + '.');
  }
  function shown_mass(grams) {
    return Math.round(grams * 100) / 100 + ' g';
  }
  function net(yarn, reading) {
    var mass = reading.grams - scale.tare_g;
    var skein = yarn.skeins[reading.skein];
    if (skein && mass > skein.most_g)
      fail('That is more than ' + skein.name + ' can weigh: the plan begins it with ' + shown_mass(skein.g) + '. Was another skein on the scale, or is a digit amiss?');
    if (!(mass > 0))
      fail(scale.tare_g > 0 ? 'The scale must show more than the ' + scale.tare_text + ' that lie on it with the yarn.'
        : 'Enter what the scale shows, more than 0.');
    return mass;
  }

  /// Of the plan and all weighings, the two rates that lie farthest apart, where one must be a slip.
  function odd_among(parts, rate) {
    var slack = tables.odd.steps * scale.step_g;
    var farthest = tables.odd.apart;
    var out = null;
    function compare(one, least, expected, most, by) {
      var apart = Math.max(least / (one.used + slack), most > 0 ? (one.used - slack) / most : 0);
      if (apart <= farthest) return;
      farthest = apart;
      out = { used: one.used, expected: expected, by: by };
    }
    parts.forEach(function (one) {
      var planned = one.work * rate;
      compare(one, planned, planned, planned, 'the plan');
    });
    if (out) return out;
    parts.forEach(function (one) {
      parts.forEach(function (other) {
        var ratio = one.work / other.work;
        compare(one, (other.used - slack) * ratio, other.used * ratio, (other.used + slack) * ratio, 'other weighings');
      });
    });
    return out;
  }

  /// What the library's joins::progress() says of these readings and skeins.
  function answer(yarn, readings) {
    var work = yarn.work;
    var all = work[work.length - 1];
    var step = scale.step_g;
    var count = 0;
    var skeins = 1;
    var sum = 0;
    var used = 0;
    var parts = [];
    readings.forEach(function (now, at) {
      now.steps = steps_done(yarn, now);
      net(yarn, now);
      if (at === 0) return;
      var before = readings[at - 1];
      if (now.steps < before.steps)
        fail('The weighings are not in the order of their rows: take out those of rows you ripped back.');
      if (now.skein !== before.skein) {
        ++skeins;
        return;
      }
      var gone = net(yarn, before) - net(yarn, now);
      if (gone < -step)
        fail('The skein grew heavier: ' + shown_mass(net(yarn, before)) + ', then ' + shown_mass(net(yarn, now)) +
          '. Was another skein on the scale? Then choose it. Damp yarn also weighs more.');
      var between = work[now.steps] - work[before.steps];
      if (!(between > 0)) {
        if (gone > step) fail('Yarn was used but no row was worked: ' + shown_mass(net(yarn, before)) + ', then ' + shown_mass(net(yarn, now)) + '.');
        return;
      }
      ++count;
      parts.push({ work: between, used: Math.max(0, gone) });
      sum += between;
      used += Math.max(0, gone);
    });
    if (count >= tables.one_sided.length)
      fail('Too many weighings for this page: use the command below.');
    var k = yarn.worth + sum;
    var rate = (yarn.worth * yarn.rate + used) / k;
    var squares = 0;
    if (sum > 0) {
      var mean = used / sum;
      parts.forEach(function (one) {
        var off = one.used - mean * one.work;
        squares += off * off / one.work;
      });
      squares += yarn.worth * sum * (mean - yarn.rate) * (mean - yarn.rate) / k;
    }
    var variance = (tables.shape * yarn.variance + squares / 2) / (tables.shape + count / 2);
    if (count > 0) variance = Math.max(variance, step * step / (6 * sum / count));
    var by_scale = count > 0 ? step * Math.sqrt(skeins / 6) / k : 0;
    var known = count;
    var odd = odd_among(parts, yarn.rate);
    if (odd && rate < yarn.rate) {  // the higher rate counts
      known = 0;
      k = yarn.worth;
      rate = yarn.rate;
      variance = yarn.variance;
      by_scale = 0;
    }
    var t = tables.one_sided[known];

    var last = readings[readings.length - 1];
    var done = work[last.steps];
    var hand = net(yarn, last);
    var untouched = 0;
    var unsure = 0;
    var more = [];
    yarn.skeins.slice(last.skein + 1).forEach(function (skein) {
      untouched += skein.g;
      unsure += skein.variance;
      more.push(skein.g);
    });
    var link = yarn.link * rate;  // between two places where yarn may be joined: half is lost
    var have = hand + untouched - (1 + 2 * more.length) * yarn.tail_g - more.length * link / 2;
    unsure += more.length * link * link / 12;
    var alone = hand - yarn.tail_g;
    function spread(metres, with_all) {
      var own = variance * (metres + metres * metres / k) + metres * by_scale * (metres * by_scale) + step * step / 12;
      return Math.sqrt(own + (with_all ? unsure : 0));
    }
    function sure(metres, mass, with_all) {
      return metres * rate + t * spread(metres, with_all) <= mass;
    }
    /// The last step that still fits, from the reading's on.
    function last_step(fits) {
      var low = last.steps;
      var high = work.length - 1;
      while (low < high) {
        var middle = Math.ceil((low + high) / 2);
        if (fits(work[middle] - done)) low = middle;
        else high = middle - 1;
      }
      if (low > last.steps && yarn.kinds[low - 1] === 2) --low;
      return low;
    }
    /// The last row, from the reading's on, with which all that comes after its piece still fits.
    function last_row(fits) {
      if (fits(all - done)) return work.length - 1;
      for (var at = work.length - 2; at >= last.steps; --at) {
        var group = yarn.group_of[at];
        if (group !== undefined && fits(work[at] - done + all - work[yarn.ends[group]])) return at;
      }
      return -1;
    }
    function judged(metres, mass, with_all) {
      if (sure(metres, mass, with_all)) return odd ? 'close' : 'sure';
      return metres * rate - t * spread(metres, with_all) >= mass ? 'not' : 'close';
    }
    var rest = all - done;
    var next = last.steps;
    while (next < yarn.kinds.length && yarn.kinds[next] === 2) ++next;
    var off = tables.two_sided[known] * Math.sqrt(variance / k + by_scale * by_scale);
    var certain = last_row(function (metres) { return sure(metres, have, true); });
    return {
      steps: last.steps,
      verdict: judged(rest, have, true),
      next: next < yarn.kinds.length ? judged(work[next + 1] - done, alone, false) : 'done',
      next_name: next < yarn.kinds.length ? yarn.names[next] : '',
      rows: last.steps < yarn.last_row ? judged(work[yarn.last_row] - done, have, true) : 'done',
      certain: Math.max(certain, last.steps),
      likely: Math.max(last.steps, last_row(function (metres) { return metres * rate <= have; })),
      join_certain: last_step(function (metres) { return sure(metres, alone, false); }),
      join_likely: last_step(function (metres) { return metres * rate <= alone; }),
      join_latest: last_step(function (metres) { return metres * rate - t * spread(metres, false) <= alone; }),
      can_finish: certain >= 0,
      drift: rate / yarn.rate,
      drift_low: (rate - off) / yarn.rate,
      drift_high: (rate + off) / yarn.rate,
      count: count,
      odd: odd,
      more: more
    };
  }

  // The form.
  var form = element('now-form');
  var said = element('now-said');
  var list = element('now-list');
  function option(text, value) {
    var out = document.createElement('option');
    out.textContent = text;
    out.value = value;
    return out;
  }
  function fill(select, texts) {
    select.textContent = '';
    texts.forEach(function (text, at) { select.appendChild(option(text, String(at))); });
    select.parentNode.hidden = texts.length < 2;
  }
  function yarn_now() {
    return tables.yarns[Number(element('now-yarn').value) || 0];
  }
  function choose() {
    var yarn = yarn_now();
    fill(element('now-piece'), yarn.groups.map(function (group) { return group.name; }));
    fill(element('now-skein'), yarn.skeins.map(function (skein) { return skein.name; }));
    var last = yarn.readings[yarn.readings.length - 1];
    if (last) {
      element('now-piece').value = String(last.group);
      element('now-skein').value = String(last.skein);
    }
  }
  function number(text) {
    var plain = text.trim().replace(',', '.');
    return /^[0-9]+(\.[0-9]+)?$/.test(plain) ? Number(plain) : NaN;
  }
  /// The reading in the boxes; nothing while they are empty.
  function typed() {
    var row = element('now-row').value.trim();
    var mass = element('now-mass').value.trim();
    if (row === '' && mass === '') return null;
    if (!/^[0-9]+$/.test(row)) fail('After which row? A whole number, 0 before the first.');
    var shown = number(mass);
    if (isNaN(shown)) fail('What does the scale show? A number such as 62 or 62.5.');
    return {
      group: Number(element('now-piece').value) || 0, row: Number(row),
      skein: Number(element('now-skein').value) || 0, text: mass.replace(',', '.') + ' ' + scale.unit,
      grams: shown * scale.one_g
    };
  }
  function line(words, strong) {
    var out = document.createElement(strong ? 'p' : 'li');
    out.textContent = words;
    return out;
  }
  function percent(of_plan) {
    return Math.round(Math.abs(of_plan - 1) * 100) + ' %';
  }
  function drift_words(got) {
    if (got.odd)
      return 'By your weighings rows took ' + shown_mass(got.odd.used) + ', and by ' + got.odd.by +
        ' as much work takes ' + shown_mass(got.odd.expected) + ': one of them must be a slip. ' +
        (got.odd.used < got.odd.expected ? 'Was a new ball begun between the two weighings? Then choose the skein of each.'
          : 'Was some of it wound off, or is the gauge or the swatch mistyped?');
    if (got.count === 0) return 'One weighing: the rate is still the plan\u2019s. Weigh again after some rows.';
    var way = got.drift > 1 ? 'more' : 'less';
    if (got.drift_low > 1 || got.drift_high < 1)
      return 'You use ' + percent(got.drift) + ' ' + way + ' yarn than planned.';
    return percent(got.drift) === '0 %' ? 'You are on plan.' : 'You are on plan: ' + percent(got.drift) + ' ' + way + ' yarn than expected.';
  }
  function fits_words(what, how) {
    return what + (how === 'sure' ? ': fits.' : how === 'not' ? ': does not fit.' : ': too close to call.');
  }
  var verdicts = {
    sure: ['It will last.', 'sure'], close: ['Too close to call.', 'close'], not: ['It will not last.', 'want']
  };
  function show(yarn, got) {
    said.textContent = '';
    var verdict = line(verdicts[got.verdict][0], true);
    verdict.className = 'verdict ' + verdicts[got.verdict][1];
    said.appendChild(verdict);
    var lines = document.createElement('ul');
    if (got.next !== 'done') {
      lines.appendChild(line(fits_words('Next, ' + got.next_name + ', from this skein', got.next) +
        (got.next === 'sure' ? '' : got.more.length ? ' Join the next skein first.' : ' Weigh or stop here.')));
      if (got.rows !== 'done') lines.appendChild(line(fits_words('The rest of the rows', got.rows)));
      if (yarn.finish > 0) lines.appendChild(line(fits_words('All of it with the finish', got.verdict)));
      if (!got.odd && got.verdict !== 'sure' && yarn.finish > 0 && got.steps <= yarn.last_row)
        lines.appendChild(line(got.can_finish
          ? 'To be sure of the finish, work no row ' + place(yarn, got.certain) + '.'
          : 'Even the finish alone is not sure: stop here.'));
      if (got.odd)
        lines.appendChild(line('Sure to reach: not known before the weighings agree.'));
      else if (got.verdict !== 'sure')
        lines.appendChild(line((yarn.finish > 0 ? 'With the finish held back, sure to reach: ' : 'Sure to reach: ') + place(yarn, got.certain) + '; likely: ' + place(yarn, got.likely) + '.'));
      lines.appendChild(line(!got.odd && got.join_certain >= yarn.kinds.length ? 'No further weighing is needed.'
        : got.join_certain > got.steps ? 'Weigh again ' + place(yarn, got.join_certain) + '.'
          : 'Weigh again before every row.'));
      if (got.more.length && got.join_likely < yarn.kinds.length)
        lines.appendChild(line('The next join is likely ' + place(yarn, got.join_likely) + ', at the latest ' + place(yarn, got.join_latest) + '.'));
    }
    lines.appendChild(line(drift_words(got)));
    said.appendChild(lines);
    ['verdict', 'steps', 'certain', 'likely', 'join_certain', 'join_likely', 'join_latest', 'drift', 'drift_low', 'drift_high'].forEach(function (key) {
      said.setAttribute('data-' + key.replace('_', '-'), got[key]);
    });
  }
  function quoted(text) {
    return /^[^"$`\\!]*$/.test(text) ? '"' + text + '"' : '\'' + text.replace(/'/g, '\'\\\'\'') + '\'';
  }
  function reading_text(yarn, reading) {
    return (yarn.groups.length ? 'row ' + reading.row + ' of ' + yarn.groups[reading.group].piece : 'row ' + reading.row) +
      ': ' + reading.text + (scale.tare_text ? ' less ' + scale.tare_text : '') + (yarn.skeins.length ? ' of ' + yarn.skeins[reading.skein].id : '');
  }
  function command(yarn, readings) {
    var out = 'skeinfall progress ' + quoted(tables.file) + ' --yarn ' + quoted(yarn.id);
    if (tables.size) out += ' --size ' + quoted(tables.size);
    if (tables.confidence_option) out += ' --confidence ' + quoted(tables.confidence_option);
    out += ' --scale ' + quoted(scale.text);
    readings.forEach(function (reading) { out += ' --reading ' + quoted(reading_text(yarn, reading)); });
    var last = readings[readings.length - 1];
    if (last) {
      var later = yarn.skeins.slice(last.skein + 1);
      later.forEach(function (skein) { out += ' --more "' + skein.g + ' g"'; });
      if (!later.length) out += ' --more none';
    }
    return out;
  }
  function carry() {
    var lines = [];
    tables.yarns.forEach(function (yarn) {
      if (yarn.readings.length) lines.push(command(yarn, yarn.readings));
    });
    if (runs()) lines.push('# done: ' + runs());
    element('now-text').value = lines.join('\n');
  }
  function keep_readings() {
    save('readings', JSON.stringify(tables.yarns.map(function (yarn) {
      return yarn.readings.map(function (one) { return [one.group, one.row, one.skein, one.text, one.grams]; });
    })));
  }
  function update() {
    var yarn = yarn_now();
    list.textContent = '';
    yarn.readings.forEach(function (reading, at) {
      var item = line(reading_text(yarn, reading) + ' ');
      var drop = document.createElement('button');
      drop.type = 'button';
      drop.textContent = 'Take out';
      drop.setAttribute('aria-label', 'Take out ' + reading_text(yarn, reading));
      drop.addEventListener('click', function () {
        yarn.readings.splice(at, 1);
        keep_readings();
        update();
        element('now-row').focus();
      });
      item.appendChild(drop);
      list.appendChild(item);
    });
    element('now-kept').hidden = yarn.readings.length === 0;
    carry();
    try {
      var reading = typed();
      var readings = reading ? yarn.readings.concat([reading]) : yarn.readings;
      if (!readings.length) {
        said.textContent = '';
        said.appendChild(line('Type the row you are after and what the scale shows.', true));
        said.removeAttribute('data-verdict');
        return;
      }
      show(yarn, answer(yarn, readings));
    } catch (error) {
      if (!error.told) throw error;
      said.textContent = '';
      said.appendChild(line(error.message, true));
      said.removeAttribute('data-verdict');
    }
  }
  form.addEventListener('input', function (event) {
    if (event.target.id === 'now-yarn') choose();
    update();
  });
  form.addEventListener('submit', function (event) {
    event.preventDefault();
    var yarn = yarn_now();
    try {
      var reading = typed();
      if (!reading) return;
      answer(yarn, yarn.readings.concat([reading]));
      yarn.readings.push(reading);
      element('now-row').value = '';
      element('now-mass').value = '';
      keep_readings();
    } catch (error) {
      if (!error.told) throw error;
    }
    update();
    element('now-row').focus();
  });
  /// Reads one command line, as carry() writes it, back into its yarn.
  function take_line(text) {
    var option_of = function (name) {
      var found = new RegExp('--' + name + '[ =]("[^"]*"|\'[^\']*\'|[^\\s]+)').exec(text);
      return found ? found[1].replace(/^["']|["']$/g, '') : null;
    };
    var id = option_of('yarn');
    var yarn = id === null ? tables.yarns[0] : tables.yarns.filter(function (one) { return one.id === id; })[0];
    if (!yarn) fail('This make has no yarn ' + id + '.');
    var readings = [];
    var each = /--reading[ =]("[^"]*"|'[^']*')/g;
    for (var found = each.exec(text); found; found = each.exec(text)) {
      var words = found[1].slice(1, -1);
      var parts = /^(?:row |round )?([0-9]+)(?: of (.*?))?: *([0-9.,]+) *(g|oz)(?: less (.*?))?(?: of (.*))?$/.exec(words);
      if (!parts) fail('This cannot be read: ' + words + '. Write a weighing like this: row 20: 86.4 g of gw-01.');
      var beside = parts[5] === undefined ? option_of('tare') || '' : parts[5];
      if (beside !== scale.tare_text)
        fail(scale.tare_text ? 'On this page ' + scale.tare_text + ' lie on the scale with the yarn: row 20: 86.4 g less ' + scale.tare_text + '.'
          : 'On this page nothing lies on the scale with the yarn; make it anew with what does.');
      var group = parts[2] === undefined ? 0 : yarn.groups.map(function (one) { return one.piece; }).indexOf(parts[2]);
      var skein = parts[6] === undefined ? 0 : yarn.skeins.map(function (one) { return one.id; }).indexOf(parts[6]);
      if (group < 0) fail('This yarn works no piece ' + parts[2] + '.');
      if (skein < 0) fail('The plan of this yarn has no skein ' + parts[6] + '.');
      var shown = number(parts[3]);
      readings.push({
        group: group, row: Number(parts[1]), skein: skein, text: parts[3] + ' ' + parts[4],
        grams: shown * (parts[4] === scale.unit ? scale.one_g : parts[4] === 'oz' ? 28.349523125 : 1)
      });
    }
    if (!readings.length) fail('There is no reading in it.');
    answer(yarn, readings);
    yarn.readings = readings;
    element('now-yarn').value = String(tables.yarns.indexOf(yarn));
  }
  element('now-take').addEventListener('click', function () {
    var told = element('now-took');
    try {
      var took = 0;
      element('now-back').value.split('\n').forEach(function (text) {
        var done = /^# done: (.*)$/.exec(text.trim());
        if (done) {
          tick_runs(done[1]);
          ++took;
        } else if (text.trim() !== '') {
          take_line(text);
          ++took;
        }
      });
      told.textContent = took ? 'Loaded.' : 'There is nothing to load.';
      keep_readings();
    } catch (error) {
      if (!error.told) throw error;
      told.textContent = error.message;
    }
    choose();
    update();
  });
  element('now-copy').addEventListener('click', function () {
    element('now-text').focus();
    element('now-text').select();
    if (window.navigator.clipboard) window.navigator.clipboard.writeText(element('now-text').value).catch(function () {});
  });

  fill(element('now-yarn'), tables.yarns.map(function (yarn) { return yarn.name; }));
  try {
    JSON.parse(load('readings') || '[]').forEach(function (readings, at) {
      if (tables.yarns[at])
        tables.yarns[at].readings = readings.map(function (one) {
          return { group: one[0], row: one[1], skein: one[2], text: one[3], grams: one[4] };
        });
    });
  } catch (error) {
    tables.yarns.forEach(function (yarn) { yarn.readings = []; });
  }
  choose();
  update();
})();
