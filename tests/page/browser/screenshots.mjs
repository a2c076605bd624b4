// Pictures of page and sheet for the example workshop: narrow to wide, light and dark, and the sheet
// on paper. node screenshots.mjs FOLDER
import { join } from "node:path";
import { cell, dropMachine, dumps, field, makeSheet, openPage, startBrowser } from "./support.mjs";

const folder = process.argv[2];
const browser = await startBrowser();

async function picture(page, name, fullPage = true) {
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage });
}

async function ofPage(colorScheme, width) {
  const { page, context } = await openPage(browser, { colorScheme, viewport: { width, height: 1000 } });
  const name = (what) => `page-${what}-${width}-${colorScheme}`;
  await picture(page, name("empty"));
  await dropMachine(page, "bramble.bin");
  await page.waitForSelector("article.record:not([hidden])");
  await field(page, "disk_0_type").focus();
  await picture(page, name("bramble"));
  await dropMachine(page, "sorrel.hex");
  await page.waitForSelector(".suspects button");
  await cell(page, 0x32).hover();
  await picture(page, name("sorrel"));
  await context.close();
}

async function ofSheet(dump) {
  const address = makeSheet(dump);
  for (const colorScheme of ["light", "dark"])
    for (const width of [360, 1200]) {
      const context = await browser.newContext({ colorScheme, viewport: { width, height: 900 } });
      const page = await context.newPage();
      await page.goto(address);
      await picture(page, `sheet-${dump.name}-${width}-${colorScheme}`);
      await context.close();
    }
  const page = await browser.newPage();
  await page.goto(address);
  for (const format of ["A4", "Letter"]) await page.pdf({ path: join(folder, `sheet-${dump.name}-${format}.pdf`), format });
  await page.close();
}

for (const colorScheme of ["light", "dark"]) for (const width of [360, 1024, 1920]) await ofPage(colorScheme, width);
for (const dump of dumps) await ofSheet(dump);
await browser.close();
