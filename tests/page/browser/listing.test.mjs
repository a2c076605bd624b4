// A listing that can be read in two ways: both are shown, and the page lets one be chosen.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { button, cell, openPage, startBrowser, text } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

// Words without a text column, of bytes that are no chip's: nothing says which byte comes first.
const words = Array.from({ length: 8 }, (_, row) => `${(row * 16).toString(16).padStart(7, "0")} ${Array(8).fill("a1b2").join(" ")}`).join("\n");

test("what is not clear is shown side by side, and chosen on the page", async () => {
  const { page, context, troubles } = await openPage(browser);
  await page.fill("#typed", words);
  await button(page, "Read the bytes").click();
  await page.waitForSelector(".refusal h2");
  const refused = await text(page, ".refusal");
  assert.match(refused, /order low: hex words of 2 bytes/);
  assert.match(refused, /order high: hex bytes in groups/);
  await page.locator(".refusal button", { hasText: "Their order" }).first().click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "order");
  await page.selectOption("#order", "low");
  await button(page, "Read the bytes").click();
  await page.waitForSelector("article.record:not([hidden])");
  assert.equal(await cell(page, 0x10).locator("b").innerText(), "B2");
  assert.equal(await cell(page, 0x11).locator("b").innerText(), "A1");
  assert.deepEqual(troubles, []);
  await context.close();
});
