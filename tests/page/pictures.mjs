// node pictures.mjs FOLDER: pictures of the example workshop's sheets, on the screen in light and
// dark, narrow and wide, and on paper.
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { dumps, makeSheet, openBrowser, workplace } from './workshop.mjs';

const out = resolve(process.argv[2] ?? 'pictures');
mkdirSync(out, { recursive: true });
const folder = workplace();
const browser = await openBrowser();

for (const dump of dumps) {
  const address = makeSheet(dump, folder);
  for (const colorScheme of ['light', 'dark']) {
    for (const [size, width] of [['wide', 1200], ['narrow', 360]]) {
      const page = await browser.newPage({ colorScheme, viewport: { width, height: 900 } });
      await page.goto(address);
      await page.screenshot({ path: join(out, `sheet-${dump.name}-${colorScheme}-${size}.png`), fullPage: true });
      await page.close();
    }
  }
  const page = await browser.newPage();
  await page.goto(address);
  for (const format of ['A4', 'Letter'])
    await page.pdf({ path: join(out, `sheet-${dump.name}-${format}.pdf`), format });
  await page.close();
}
await browser.close();
