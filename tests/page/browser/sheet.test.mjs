// The bench sheet in a real browser, from a file: address.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { dumps, folder, machine, makeSheet, open, rtcmend, startBrowser, violations } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

for (const dump of dumps) {
  test(`${dump.name}'s sheet: axe finds nothing serious, light and dark`, async () => {
    const address = makeSheet(dump);
    for (const colorScheme of ["light", "dark"]) {
      const { page, context } = await open(browser, address, { colorScheme });
      assert.deepEqual(await violations(page), []);
      await context.close();
    }
  });

  test(`${dump.name}'s sheet asks for nothing and complains of nothing`, async () => {
    const { context, requests, troubles } = await open(browser, makeSheet(dump));
    assert.deepEqual(requests, []);
    assert.deepEqual(troubles, []);
    await context.close();
  });

  test(`${dump.name}'s sheet is no wider than its screen or its paper`, async () => {
    const address = makeSheet(dump);
    for (const width of [360, 768, 1920]) {
      const { page, context } = await open(browser, address, { viewport: { width, height: 800 } });
      assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
      await context.close();
    }
    // Between the margins A4 leaves 180 mm, Letter 186 mm; 96 pixels an inch.
    const { page, context } = await open(browser, address, { viewport: { width: 680, height: 950 } });
    await page.emulateMedia({ media: "print" });
    const beyond = await page.evaluate(() =>
      [...document.querySelectorAll("body *")]
        .filter((one) => one.getBoundingClientRect().right > 681)
        .filter((one) => !one.closest(".unseen"))
        .map((one) => one.outerHTML.slice(0, 80)),
    );
    assert.deepEqual(beyond, []);
    await context.close();
  });
}

test("the sheet of a sound image of 64 bytes prints on one page, of A4 and of Letter", async () => {
  const { page, context } = await open(browser, makeSheet(dumps[0]));
  for (const [format, box] of [["A4", /\/MediaBox \[0 0 59[45](\.\d+)? 84[12]/], ["Letter", /\/MediaBox \[0 0 612 792\]/]]) {
    const pdf = (await page.pdf({ format })).toString("latin1");
    assert.match(pdf, box);
    assert.equal(pdf.match(/\/Type \/Page\b/g).length, 1, format);
  }
  await context.close();
});

test("a sheet's marks differ without colour: strokes, dashes and words", async () => {
  const { page, context } = await open(browser, makeSheet(dumps[2]));
  assert.ok((await page.locator("svg.drawing .strike").count()) > 1);
  assert.equal(await page.locator(".stamp.verdict").innerText(), "Settings broken; the clock is right. (1 fault, 1 doubt)");
  await context.close();
});

test("markup in a layout, a note and a file name does nothing in a sheet", async () => {
  const attack = '<script>window.hit=1</script><img src=x onerror="window.hit=1">';
  const field = { id: "a", label: attack.slice(0, 80), group: "<b onclick=1>", at: "10", number: {}, source: attack };
  writeFileSync(join(folder, "odd.json"), JSON.stringify({ layout: "odd", title: attack, fields: [field] }));
  const dump = join(folder, "<img src=x onerror=window.hit=1>.bin");
  writeFileSync(dump, readFileSync(machine("bramble.bin")));
  const sheet = join(folder, "odd.html");
  rtcmend(["sheet", dump, "--layout", "odd.json", "--note", `"'>${attack}`, "-o", sheet], { codes: [0, 1] });
  // Without the policy, so that escaping alone is tried.
  const { page, context, requests, troubles } = await open(browser, pathToFileURL(sheet).href, { bypassCSP: true });
  assert.equal(await page.evaluate(() => globalThis.hit), undefined);
  assert.equal(await page.locator("script, img, [onclick], [onerror]").count(), 0);
  assert.ok((await page.locator("body").innerText()).includes(attack), "the text itself is there");
  assert.deepEqual(requests, []);
  assert.deepEqual(troubles, []);
  await context.close();
});
