// The bench sheet in a real browser, from a file: address.
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { dumps, machines, makeSheet, openBrowser, rtcmend, workplace } from './workshop.mjs';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const folder = workplace();
let browser;
before(async () => { browser = await openBrowser(); });
after(() => browser.close());

/** Opens an address and notes whatever the page asks for or complains about. */
async function open(address, options = {}) {
  const context = await browser.newContext({ bypassCSP: false, ...options });
  const page = await context.newPage();
  const requests = [];
  const complaints = [];
  page.on('request', (request) => requests.push(request.url()));
  page.on('console', (message) => { if (message.type() === 'error') complaints.push(message.text()); });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('dialog', (dialog) => { complaints.push(dialog.message()); dialog.dismiss(); });
  await page.goto(address);
  return { page, requests, complaints };
}

/** Serious and critical violations, each as one line. */
async function violations(address, colorScheme) {
  // axe is a script, which the sheet's own policy rightly forbids.
  const { page } = await open(address, { bypassCSP: true, colorScheme });
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run(document, {
    runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
  }));
  assert.ok(found.passes.length > 20, 'axe has looked at the page');
  await page.context().close();
  return found.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes[0].html}`);
}

for (const dump of dumps) {
  test(`${dump.name}: axe finds nothing serious, light and dark`, async () => {
    const address = makeSheet(dump, folder);
    for (const scheme of ['light', 'dark']) assert.deepEqual(await violations(address, scheme), []);
  });

  test(`${dump.name}: nothing but the file itself is asked for`, async () => {
    const address = makeSheet(dump, folder);
    const { page, requests, complaints } = await open(address);
    assert.deepEqual(requests, [address]);
    assert.deepEqual(complaints, []);
    await page.context().close();
  });

  test(`${dump.name}: no page is wider than its screen or its paper`, async () => {
    const address = makeSheet(dump, folder);
    for (const width of [360, 768, 1920]) {
      const { page } = await open(address, { viewport: { width, height: 800 } });
      assert.ok(await page.evaluate(() => document.documentElement.scrollWidth) <= width);
      await page.context().close();
    }
    // Between the margins A4 leaves 180 mm, Letter 186 mm; 96 pixels an inch.
    const { page } = await open(address, { viewport: { width: 680, height: 950 } });
    await page.emulateMedia({ media: 'print' });
    const beyond = await page.evaluate(() => [...document.querySelectorAll('body *')]
      .filter((one) => one.getBoundingClientRect().right > 681)
      .filter((one) => !one.closest('.unseen'))
      .map((one) => one.outerHTML.slice(0, 80)));
    assert.deepEqual(beyond, []);
    await page.context().close();
  });
}

test('a sheet prints on A4 and on Letter, on a few pages', async () => {
  const { page } = await open(makeSheet(dumps[0], folder));
  for (const [format, box] of [['A4', /\/MediaBox \[0 0 59[45](\.\d+)? 84[12]/], ['Letter', /\/MediaBox \[0 0 612 792\]/]]) {
    const pdf = (await page.pdf({ format })).toString('latin1');
    assert.match(pdf, box);
    const pages = pdf.match(/\/Type \/Page\b/g).length;
    assert.ok(pages >= 2 && pages <= 4, `${pages} pages on ${format}`);
  }
  await page.context().close();
});

test('marks differ without colour: strokes, dashes and words', async () => {
  const { page } = await open(makeSheet(dumps[2], folder));
  assert.ok(await page.locator('svg.drawing .strike').count() > 1);
  assert.equal(await page.locator('.stamp.verdict').innerText(), 'not sound: 1 fault');
  await page.context().close();
});

test('markup in a layout, a note and a file name does nothing', async () => {
  const attack = '<script>window.hit=1</script><img src=x onerror="window.hit=1">';
  writeFileSync(join(folder, 'odd.json'), JSON.stringify({
    id: 'odd', title: attack, chip: 'chip-64',
    fields: [{ id: 'a', label: attack.slice(0, 80), group: '<b onclick=1>', at: '10', number: {}, source: attack }],
  }));
  const dump = join(folder, '<img src=x onerror=window.hit=1>.bin');
  writeFileSync(dump, readFileSync(join(machines, 'bramble.bin')));
  const sheet = join(folder, 'odd.html');
  rtcmend(['sheet', dump, '--layout', 'odd.json', '--note', `"'>${attack}`, '-o', sheet], folder);
  const address = pathToFileURL(sheet).href;
  // Without the policy, so that escaping alone is tried.
  const { page, requests, complaints } = await open(address, { bypassCSP: true });
  assert.equal(await page.evaluate(() => globalThis.hit), undefined);
  assert.equal(await page.locator('script, img, [onclick], [onerror]').count(), 0);
  assert.deepEqual(requests, [address]);
  assert.deepEqual(complaints, []);
  await page.context().close();
});
