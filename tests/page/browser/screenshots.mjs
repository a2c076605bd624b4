// Pictures of page and sheet for the example workshop. node screenshots.mjs FOLDER
import { join } from "node:path";
import { button, cell, download, dropMachine, field, openPage, startBrowser } from "./support.mjs";

const folder = process.argv[2];
const browser = await startBrowser();

async function picture(page, name, fullPage = true) {
  await page.screenshot({ path: join(folder, `${name}.png`), fullPage });
}

for (const colorScheme of ["light", "dark"])
  for (const width of [360, 1280, 1920]) {
    const { page, context } = await openPage(browser, { colorScheme, viewport: { width, height: 1000 } });
    const name = (what) => `${what}-${width}-${colorScheme}`;
    await picture(page, name("empty"));
    await dropMachine(page, "bramble.bin");
    await page.waitForSelector("article.record:not([hidden])");
    await field(page, "disk_0_type").focus();
    await picture(page, name("bramble"));
    await dropMachine(page, "sorrel.hex");
    await page.waitForSelector(".suspects button");
    await cell(page, 0x32).hover();
    await picture(page, name("sorrel"));
    const sheet = await download(page, button(page, "Save the bench sheet"));
    const reader = await context.newPage();
    await reader.setContent(sheet.bytes.toString());
    await picture(reader, name("sheet"));
    await context.close();
  }
await browser.close();
