// Pages in a browser: no message, no request, ticks that stay, paper, phones, screen readers.
// The browser is Debian's Chromium, driven by playwright-core; axe-core looks for what keeps
// people out. The pages are those check.sh wrote.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { chromium } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const all = ['cowl', 'blanket', 'mittens', 'pullover', 'hard', 'sizes', 'written', 'long', 'stranded', 'names', 'offer-names', 'offer-wrap', 'offer-blanket', 'offer-sizes', 'offer-motifs'];
const made = all.filter((name) => name !== 'pullover' && name !== 'sizes' && !name.startsWith('offer'));
const address = (name) => 'file://' + path.resolve('pages', name + '.html');
const papers = { A4: [210, 297], Letter: [215.9, 279.4] };  // ISO 216; ANSI/ASME Y14.1
const margin = 14;  // mm, as the style sheet says
// Pictures and tables that are kept whole and may go to the next page.
const pushed = { cowl: 1, pullover: 1, blanket: 3 };

let browser;
before(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-dev-shm-usage'] });
});
after(() => browser.close());

/// Opens a page in a context of its own and collects what it should not do.
async function open(name, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1000, height: 900 }, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on('console', (message) => faults.push(message.text()));
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('request', (request) => {
    if (request.url() !== address(name)) faults.push('request: ' + request.url().slice(0, 80));
  });
  page.on('dialog', (dialog) => { faults.push('dialog'); dialog.dismiss(); });
  await page.goto(address(name));
  return { context, page, faults };
}

/// What axe finds: everything but colours on the whole page, colours on `thinned` pages.
async function found_by_axe(page, rules, passes = 1) {
  const found = await page.evaluate((options) => window.axe.run(document, { resultTypes: ['violations'], ...options }), rules);
  assert.ok(found.passes.length >= passes);
  assert.deepEqual(found.violations.map((one) =>
    `${one.id}: ${one.nodes.map((node) => node.target + ' ' + node.failureSummary).slice(0, 2)}`), []);
}
const colours = { runOnly: { type: 'tag', values: ['cat.color'] } };
const but_colours = { rules: Object.fromEntries(['color-contrast', 'link-in-text-block'].map((id) => [id, { enabled: false }])) };

/// Of rows that are alike but for their words three are left: axe looks at the colours of each
/// letter, which takes minutes for ten thousand.
function thinned(page) {
  return page.evaluate(() => {
    const seen = {};
    for (const row of document.querySelectorAll('.rows li')) {
      const kind = row.className + Array.from(row.querySelectorAll('*'), (part) => part.tagName + part.className);
      seen[kind] = (seen[kind] ?? 0) + 1;
      if (seen[kind] > 3) row.remove();
    }
  });
}

/// What every page must stand, on one load of it (and one more for its ticks).
async function stands(name, t) {
  const { context, page, faults } = await open(name);
  await t.test('no message, no request, below 5 MB', () => {
    assert.deepEqual(faults, []);
    assert.ok(statSync(path.join('pages', name + '.html')).size < 5e6);
  });
  // WCAG 2.2, 1.4.10: 320 CSS px, which is also 1280 px at 400 % and 640 px at 200 %.
  await t.test('no overflow at 320, 360, 768 and 1200 px', async () => {
    for (const width of [320, 360, 768, 1200]) {
      await page.setViewportSize({ width, height: 740 });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= width, `${width}`);
    }
    await page.setViewportSize({ width: 1000, height: 900 });
  });
  if (made.includes(name))
    await t.test('ticks survive a reload and are counted', async () => {
      const ticks = () => page.evaluate(() => ({
        said: document.getElementById('said').textContent,
        ticked: Array.from(document.querySelectorAll('#rows input'), (box) => box.checked),
      }));
      const before = await ticks();
      const count = before.ticked.length;
      assert.match(before.said, new RegExp(`^0 of ${count} done`));
      await page.locator('#rows input').first().check();
      await page.locator('#rows input').last().check();
      await page.reload();
      const after = await ticks();
      assert.deepEqual(after.ticked.flatMap((ticked, at) => (ticked ? [at] : [])), [0, count - 1]);
      assert.match(after.said, new RegExp(`^2 of ${count} done`));
      assert.deepEqual(faults, []);
    });
  await page.evaluate(axe);
  await t.test('axe finds nothing, light and dark', async () => {
    if (name === 'long') await thinned(page);
    await found_by_axe(page, but_colours, 10);
    await thinned(page);
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      await found_by_axe(page, colours);
    }
  });
  if (name === 'blanket' || name === 'stranded')
    await t.test('axe finds nothing with forced colours and with reduced motion', async () => {
      await page.fill('#now-row', '25');
      await page.fill('#now-mass', '60');
      for (const media of [{ forcedColors: 'active' }, { forcedColors: 'none', reducedMotion: 'reduce' }]) {
        await page.emulateMedia({ colorScheme: 'light', ...media });
        await found_by_axe(page, {}, 10);
      }
      assert.deepEqual(faults, []);
    });
  await context.close();
}

describe('every page', { concurrency: 2 }, () => {
  for (const name of all) test(name, (t) => stands(name, t));
});

test('a page that does ask the network would be noticed', async () => {
  writeFileSync('pages/asks.html', '<!DOCTYPE html><img src="http://127.0.0.1:9/x.png">');
  const { context, page, faults } = await open('asks');
  await page.waitForTimeout(100);
  assert.ok(faults.some((fault) => fault.startsWith('request')));
  await context.close();
});

test('ticks of one make are not those of another', async () => {
  const { context, page } = await open('cowl');
  await page.locator('#rows input').first().check();
  await page.goto(address('blanket'));
  assert.equal(await page.locator('#rows input:checked').count(), 0);
  await context.close();
});

test('without a script all is there but the count', async () => {
  const { context, page } = await open('cowl', { javaScriptEnabled: false });
  assert.equal(await page.locator('#bar').isVisible(), false);
  const text = await page.locator('main').innerText();
  for (const words of ['covered, chance', 'Row 18', 'join gw-02 after this', '340 yd'])
    assert.ok(text.includes(words), words);
  await context.close();
});

test('what is written for a row stands beside it', async () => {
  const { context, page } = await open('written');
  const rows = page.locator('#rows li.told');
  assert.equal(await rows.count(), 60);
  assert.match(await rows.nth(0).innerText(), /^\s*Row 1\s+60 sts\s+sc in 2nd ch from hook and in each ch across\. \(60 sc\)/);
  assert.match(await rows.nth(59).locator('.how').innerText(), /^ch 1, turn, \*sc in next st/);
  const [label, how] = await Promise.all(['label', '.how'].map((part) => rows.nth(5).locator(part).boundingBox()));
  assert.ok(how.x >= label.x + label.width && how.y < label.y + label.height, 'beside, not below');
  await context.close();
});

test('keys are enough', async () => {
  const { context, page } = await open('cowl');
  await page.keyboard.press('Tab');
  assert.equal(await page.evaluate(() => document.activeElement.className), 'skip');
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Space');
  assert.equal(await page.locator('#rows input').first().isChecked(), true);
  await page.locator('#next').focus();
  await page.keyboard.press('Enter');
  assert.equal(await page.evaluate(() =>
    Array.from(document.querySelectorAll('#rows input')).indexOf(document.activeElement)), 1);
  await context.close();
});

test('a phone gets pictures of its own width, with letters that can be read', async () => {
  for (const width of [320, 360]) {
    const { context, page } = await open('blanket', { viewport: { width, height: 740 } });
    assert.equal(await page.locator('.on-wide svg').first().isVisible(), false);
    const letters = await page.evaluate(() => Array.from(document.querySelectorAll('.on-phone svg text'))
      .map((text) => text.getBoundingClientRect().height));
    assert.ok(letters.length > 20 && Math.min(...letters) >= 7, `${Math.min(...letters)} px`);
    await context.close();
  }
});

// What is where, not which bytes: the stripes of the blanket lie one on the other in their yarns.
test('the blanket is drawn striped, its joins on their rows', async () => {
  const { context, page } = await open('blanket');
  const parts = await page.evaluate(() => {
    const svg = document.querySelector('#joins .on-wide svg');
    return Array.from(svg.querySelectorAll('[data-part]')).map((part) => {
      const box = part.getBoundingClientRect();
      return { name: part.dataset.part, top: box.top, bottom: box.bottom, left: box.left, right: box.right };
    });
  });
  const stripes = parts.filter((part) => /^rows /.test(part.name));
  assert.equal(stripes[0].name, 'rows 1 to 4 in MC');
  assert.equal(stripes[1].name, 'rows 5 to 7 in CC1');
  assert.equal(stripes[2].name, 'rows 8 to 11 in CC2');
  assert.equal(stripes.length, 37, 'twelve repeats of three stripes and one more');
  const high = (stripes[0].bottom - stripes.at(-1).top) / 136;
  stripes.slice(1).forEach((stripe, i) => assert.ok(Math.abs(stripe.bottom - stripes[i].top) < 1, stripe.name));
  const joins = parts.filter((part) => /^join \d/.test(part.name));
  assert.ok(joins.length >= 2);
  const words = await page.locator('#joins .on-wide svg').textContent();
  for (const join of joins) {
    const number = /\d+/.exec(join.name)[0];
    assert.ok(words.includes(number), join.name);
    assert.ok(join.top >= stripes.at(-1).top - 12 && join.bottom <= stripes[0].bottom + 12, join.name);
  }
  assert.ok(high > 1);
  await context.close();
});

// Stranded rows lie in two yarns at once; each yarn keeps a pattern of its own, also where the system
// takes all colours but its few.
test('stranded rows are drawn in both yarns, and told apart without colour', async () => {
  for (const options of [{}, { forcedColors: 'active' }, { colorScheme: 'dark', forcedColors: 'active' }]) {
    const { context, page, faults } = await open('stranded', { viewport: { width: 320, height: 740 }, ...options });
    const parts = await page.evaluate(() => Array.from(document.querySelectorAll('#joins .on-phone svg [data-part]'))
      .map((part) => part.dataset.part));
    assert.ok(parts.some((part) => /^rows 1\d to \d+ in MC and CC1$/.test(part)), parts.join('; '));
    const said = await page.locator('#joins .on-phone svg').first().textContent();
    assert.match(said, /MC/);
    assert.match(said, /CC1/);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= 320);
    assert.deepEqual(faults, []);
    await context.close();
  }
});

test('the form answers to keys alone and says it aloud', async () => {
  const { context, page } = await open('cowl');
  await page.locator('#now-row').focus();
  await page.keyboard.type('10');
  for (let tabs = 0; tabs < 3; ++tabs) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement.id) === 'now-mass') break;
  }
  await page.keyboard.type('40');
  assert.match(await page.locator('#now-said[role=status]').textContent(), /last|close/);
  await page.keyboard.press('Enter');
  assert.equal(await page.locator('#now-list li').count(), 1);
  assert.equal(await page.evaluate(() => document.activeElement.id), 'now-row');
  await context.close();
});

test('a blanket of three yarns weighs less than 500 KB', () => {
  assert.ok(statSync('pages/blanket.html').size < 500e3);
});

test('names are never markup', async () => {
  const { context, page } = await open('hard');
  const title = '<b>&amp;</b> "שמלה" 🧶 مرحبا <script>alert(1)</script>';
  const shown = (await page.locator('h1').textContent()).replace(/[\u2068\u2069]/g, '');
  assert.equal(shown, title);
  assert.equal(await page.locator('h1 b, h1 script, h3 i').count(), 0);
  await context.close();
});

for (const [paper, [width, height]] of Object.entries(papers))
  for (const name of ['cowl', 'pullover', 'blanket'])
    test(`${name} prints on the right number of ${paper} pages`, async () => {
      const { context, page } = await open(name);
      const inside = ([wide, high]) => [(wide - 2 * margin) * 96 / 25.4, (high - 2 * margin) * 96 / 25.4];
      const [wide, high] = inside([width, height]);
      await page.emulateMedia({ media: 'print' });
      await page.setViewportSize({ width: Math.round(wide), height: 900 });
      const long = await page.evaluate(() => document.body.scrollHeight);
      const file = path.join('pages', `${name}-${paper}.pdf`);
      await page.pdf({ path: file, format: paper, printBackground: true });
      const info = execFileSync('pdfinfo', [file], { encoding: 'utf8' });
      const pages = Number(/Pages:\s+(\d+)/.exec(info)[1]);
      const [, across, down] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(info).map(Number);
      assert.ok(Math.abs(across - width * 72 / 25.4) < 2 && Math.abs(down - height * 72 / 25.4) < 2);
      // What is kept together may push a part to the next page, but never leaves one empty.
      const least = Math.ceil(long / high);
      assert.ok(pages >= least && pages <= least + pushed[name], `${pages} pages for ${long} px of ${high}`);
      const texts = execFileSync('pdftotext', [file, '-'], { encoding: 'utf8' }).split('\f');
      for (let at = 0; at < pages; ++at) assert.ok(texts[at].trim().length > 40, `page ${at + 1}`);
      const words = texts.join(' ');
      for (const word of { cowl: ['Row 27', 'join gw-02 after this'], pullover: ['Finished size', '2XL'], blanket: ['Row 132'] }[name])
        assert.ok(words.includes(word), word);
      assert.ok(!words.includes('Find my place'));
      await context.close();
    });
