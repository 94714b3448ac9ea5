// Pages in a browser: no message, no request, ticks that stay, paper, phones, screen readers.
// The browser is Debian's Chromium, driven by playwright-core; axe-core looks for what keeps
// people out. The pages are those check.sh wrote.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { chromium } from 'playwright-core';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const all = ['cowl', 'blanket', 'mittens', 'pullover', 'hard', 'sizes', 'written', 'long', 'stranded', 'offer-wrap', 'offer-blanket', 'offer-sizes', 'offer-motifs'];
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

for (const name of all)
  test(`${name} loads with no message and no request, below 5 MB`, async () => {
    const { context, faults } = await open(name);
    assert.deepEqual(faults, []);
    assert.ok(statSync(path.join('pages', name + '.html')).size < 5e6);
    await context.close();
  });

test('a page that does ask the network would be noticed', async () => {
  writeFileSync('pages/asks.html', '<!DOCTYPE html><img src="http://127.0.0.1:9/x.png">');
  const { context, page, faults } = await open('asks');
  await page.waitForTimeout(100);
  assert.ok(faults.some((fault) => fault.startsWith('request')));
  await context.close();
});

for (const name of made)
  test(`ticks of ${name} survive a reload and are counted`, async () => {
    const { context, page, faults } = await open(name);
    const boxes = page.locator('#rows input');
    const count = await boxes.count();
    assert.match(await page.locator('#said').textContent(), new RegExp(`^0 of ${count} done`));
    await boxes.nth(0).check();
    await boxes.nth(count - 1).check();
    await page.reload();
    assert.equal(await boxes.nth(0).isChecked(), true);
    assert.equal(await boxes.nth(1).isChecked(), false);
    assert.equal(await boxes.nth(count - 1).isChecked(), true);
    assert.match(await page.locator('#said').textContent(), new RegExp(`^2 of ${count} done`));
    assert.deepEqual(faults, []);
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

// WCAG 2.2, 1.4.10: 320 CSS px, which is also 1280 px at 400 % and 640 px at 200 %.
for (const name of all)
  test(`${name} does not overflow at 320, 360, 768 and 1200 px`, async () => {
    const { context, page } = await open(name);
    for (const width of [320, 360, 768, 1200]) {
      await page.setViewportSize({ width, height: 740 });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= width, `${width}`);
    }
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

for (const options of [{ forcedColors: 'active' }, { reducedMotion: 'reduce' }])
  for (const name of ['blanket', 'stranded'])
    test(`axe finds nothing in ${name} with ${Object.keys(options)[0]}`, async () => {
      const { context, page, faults } = await open(name, options);
      await page.fill('#now-row', '25');
      await page.fill('#now-mass', '60');
      await page.evaluate(axe);
      const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
      assert.deepEqual(found.violations.map((one) => one.id), []);
      assert.deepEqual(faults, []);
      await context.close();
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

for (const name of all.filter((one) => one !== 'long'))
  for (const colorScheme of ['light', 'dark'])
    test(`axe finds nothing in ${name}, ${colorScheme}`, async () => {
      const { context, page } = await open(name, { colorScheme });
      await page.evaluate(axe);
      const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'] }));
      assert.ok(found.passes.length > 10);
      assert.deepEqual(found.violations.map((one) =>
        `${one.id}: ${one.nodes.map((node) => node.target + ' ' + node.failureSummary).slice(0, 2)}`), []);
      await context.close();
    });

test('the long page has its landmarks, names and heads too', async () => {
  const { context, page } = await open('long');
  await page.evaluate(() => {
    // Axe takes minutes for ten thousand boxes that are all alike.
    document.querySelectorAll('.rows li:nth-child(n+50)').forEach((row) => row.remove());
  });
  await page.evaluate(axe);
  const found = await page.evaluate(() => window.axe.run());
  assert.deepEqual(found.violations.map((one) => one.id), []);
  await context.close();
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
