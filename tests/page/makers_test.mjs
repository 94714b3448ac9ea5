// The page that a designer publishes: a size is chosen on it, and what it shows is what the program
// says of that size. It holds nothing of her stash. The pages are those check.sh wrote.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { chromium } from 'playwright-core';

const program = process.env.SKEINFALL;
const projects = process.env.PROJECTS;
const source = process.env.SOURCE;
const offered = { 'offer-wrap': 'long-ferry-wrap', 'offer-blanket': 'threepenny-blanket' };

let browser;
before(async () => {
  browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-dev-shm-usage'] });
});
after(() => browser.close());

async function open(name, options = {}) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (error) => faults.push(String(error)));
  page.on('console', (message) => faults.push(message.text()));
  await page.goto('file://' + path.resolve('pages', name + '.html'));
  return { context, page, faults };
}

function lines(page) {
  return page.evaluate(() => Object.fromEntries(Array.from(document.querySelectorAll('#size-lines dt'))
    .map((term) => [term.textContent, term.nextElementSibling.textContent])));
}

for (const [name, project] of Object.entries(offered))
  test(`${name} shows of every tenth size what fit says`, async () => {
    const { context, page, faults } = await open(name);
    const [widths, lengths] = await Promise.all(['#size-across option', '#size-along option'].map((box) => page.locator(box).count()));
    assert.ok(widths > 5 && lengths > 5);
    for (let at = 0; at < widths * lengths; at += 10) {
      await page.selectOption('#size-across', String(Math.floor(at / lengths)));
      await page.selectOption('#size-along', String(at % lengths));
      const shown = await lines(page);
      const stitches = parseInt(shown['Stitches in row 1'], 10);
      const rows = Number(shown.Rows);
      const fit = JSON.parse(execFileSync(program, ['fit', path.join(projects, project + '.toml'),
        '--stitches', String(stitches), '--rows', String(rows), '--format', 'json'], { encoding: 'utf8' }));
      assert.equal(fit.stitches.taken, stitches);
      assert.equal(fit.rows.taken, rows);
      assert.equal(parseInt(shown['Begin with'], 10), fit.foundation);
      const width = fit.with_border_width_m ?? fit.width_m;
      assert.ok(Math.abs(parseFloat(shown.Measures) * 0.0254 - width) <= 0.126 * 0.0254, shown.Measures);
      // What most makers stay within is more than the middle that fit says.
      const yarns = Object.entries(shown).filter(([term]) => term.startsWith('Yarn '));
      assert.equal(yarns.length, fit.yarn.length);
      for (const { role, need_m } of fit.yarn) {
        const [, text] = yarns.find(([term]) => term.startsWith(`Yarn ${role}`));
        const metres = Number(/([\d.,]+) m/.exec(text)[1].replace(',', ''));
        assert.ok(metres >= need_m && metres < 2 * need_m + 5, `${text}, ${need_m}`);
      }
    }
    assert.deepEqual(faults, []);
    await context.close();
  });

test('the choice stays, and the page begins with the size as written', async () => {
  const { context, page } = await open('offer-wrap');
  const written = await lines(page);
  assert.equal(written.Rows, '120');
  assert.match(await page.locator('#size-along option:checked').textContent(), /as written/);
  await page.locator('#size-along').focus();
  await page.keyboard.press('ArrowDown');
  const longer = await lines(page);
  assert.ok(Number(longer.Rows) > 120);
  await page.reload();
  assert.deepEqual(await lines(page), longer);
  assert.equal(await page.locator('#size-said').getAttribute('role'), 'status');
  await context.close();
});

test('named sizes are chosen by their names', async () => {
  const { context, page } = await open('offer-sizes');
  assert.deepEqual(await page.locator('#size-across option').allTextContents(), ['XS', 'S', 'M', 'L', 'XL', '2XL']);
  assert.equal(await page.locator('#size-along').count(), 0);
  const table = await page.locator('#materials tbody tr').first().locator('td').allTextContents();
  for (const [at, size] of ['XS', 'S', 'M', 'L', 'XL', '2XL'].entries()) {
    await page.selectOption('#size-across', { label: size });
    const shown = await lines(page);
    const yarn = Object.entries(shown).find(([term]) => term.startsWith('Yarn'))[1];
    assert.ok(yarn.startsWith(table[at]), `${size}: ${yarn}, ${table}`);
  }
  await context.close();
});

test('motifs are chosen by their number, across and along', async () => {
  const { context, page } = await open('offer-motifs');
  assert.equal(await page.locator('label[for=size-across]').textContent(), 'Motifs across');
  const written = await lines(page);
  assert.match(written.Motifs, /^40, 5 across by 8 along; together /);
  const yards = (shown) => Number(/([\d.,]+) yd/.exec(Object.entries(shown).find(([term]) => term.startsWith('Yarn'))[1])[1].replace(',', ''));
  await page.selectOption('#size-across', { label: '6 motifs' });
  const wider = await lines(page);
  assert.match(wider.Motifs, /^48, 6 across by 8 along/);
  assert.ok(yards(wider) > yards(written));
  assert.equal(wider.Rows, written.Rows);
  await context.close();
});

test('without a script the size as written is there, and the yarn of all others', async () => {
  const { context, page } = await open('offer-wrap', { javaScriptEnabled: false });
  assert.equal(await page.locator('#size-form').isVisible(), false);
  assert.match(await page.locator('#size-lines').innerText(), /27 chains/);
  await page.locator('summary').click();
  assert.equal(await page.locator('details tbody tr').count() > 5, true);
  await context.close();
});

// What is hers alone: the columns of her stash but for names of yarns and labels, which a pattern
// names too.
test('nothing of the stash is in the page, and it is light', () => {
  const [head, ...rows] = readFileSync(path.join(source, 'sample_stash/stash.csv'), 'utf8').trim().split('\n')
    .map((line) => Array.from(line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g), (found) => found[1].replace(/^"|"$/g, '')));
  const own = ['id', 'dye_lot', 'shade_group', 'note', 'weighed'].map((name) => head.indexOf(name));
  assert.ok(own.every((at) => at >= 0));
  const kept = new Set(rows.flatMap((row) => own.map((at) => row[at])).filter((text) => text && text.length > 3));
  assert.ok(kept.size > 40);
  for (const name of [...Object.keys(offered), 'offer-sizes']) {
    const bytes = readFileSync(path.join('pages', name + '.html'), 'utf8');
    for (const text of kept) assert.ok(!new RegExp(`\\b${text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}\\b`).test(bytes), `${name}: ${text}`);
    assert.ok(statSync(path.join('pages', name + '.html')).size < 500e3);
  }
});
