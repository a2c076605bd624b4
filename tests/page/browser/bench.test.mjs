// Nothing is lost, and the strip says what comes next: several dumps on one bench, undoing, leaving,
// the names of what is saved, where the focus stays.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { button, cardOf, download, drop, dropMachine, field, machine, openPage, startBrowser, text, verdict } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

async function benchWith(name) {
  const opened = await openPage(browser);
  await dropMachine(opened.page, name);
  await cardOf(opened.page, name);
  return opened;
}

const asked = (page) => page.locator(".question:not([hidden])");
const next = (page) => page.locator(".strip button.strong");
const focused = (page) => page.evaluate(() => document.activeElement.className || document.activeElement.id);

test("a second dump is put beside the first, in its place, or left, as the person says", async () => {
  const { page, context, troubles } = await benchWith("bramble.bin");
  await field(page, "floppy_b").selectOption("none");
  const second = async () => {
    await dropMachine(page, "sorrel.hex");
    await asked(page).waitFor();
    assert.equal(await text(page, ".question h2"), "sorrel.hex: beside bramble.bin, or instead of it?");
    assert.equal(await page.evaluate(() => document.activeElement.textContent), "Beside it, to compare");
  };
  await second();
  await button(page, "Neither: leave it").click();
  assert.equal(await text(page, "#name"), "bramble.bin");
  assert.equal(await field(page, "floppy_b").inputValue(), "none");

  await second();
  await button(page, "Beside it, to compare").click();
  await page.waitForSelector("#compare table");
  assert.equal(await text(page, "#name"), "bramble.bin");

  await second();
  await button(page, "Instead of it").click();
  await cardOf(page, "sorrel.hex");
  assert.equal(await page.locator("#compare table").count(), 0);
  await button(page, "Undo").click();
  assert.equal(await text(page, "#name"), "bramble.bin");
  assert.equal(await field(page, "floppy_b").inputValue(), "none");
  assert.equal(await page.locator("#compare table").count(), 1, "what lay beside it is back, too");
  await button(page, "Undo").click();
  assert.equal(await field(page, "floppy_b").inputValue(), "1.44M");
  await button(page, "Redo").click();
  await button(page, "Redo").click();
  assert.equal(await text(page, "#name"), "sorrel.hex");
  assert.deepEqual(troubles, []);
  await context.close();
});

test("leaving is asked about as long as something was changed and not saved", async () => {
  const { page, context } = await benchWith("bramble.bin");
  const stays = () => page.evaluate(() => !window.dispatchEvent(new Event("beforeunload", { cancelable: true })));
  assert.equal(await stays(), false);
  await field(page, "floppy_b").selectOption("none");
  assert.equal(await stays(), true);
  await button(page, "Undo").click();
  assert.equal(await stays(), false);
  await button(page, "Redo").click();
  await download(page, button(page, "Seal and save"));
  assert.equal(await stays(), false);
  await field(page, "floppy_b").selectOption("360K");
  await dropMachine(page, "sorrel.hex");
  await cardOf(page, "sorrel.hex");
  assert.equal(await stays(), true, "the card that was replaced is not saved");
  await context.close();
});

test("what is saved never bears the name of what was read", async () => {
  const { page, context } = await benchWith("bramble.bin");
  const saved = async (form) => {
    await page.selectOption("#save-form", form);
    return (await download(page, button(page, "Save the image"))).name;
  };
  assert.equal(await saved("raw"), "bramble-mended.bin");
  assert.equal(await saved("hex"), "bramble.txt");
  await drop(page, "BRAMBLE.TXT", readFileSync(machine("bramble.bin")), "#compare .drop");
  await page.waitForSelector("#compare .stamp");
  assert.equal(await saved("hex"), "bramble-mended.txt");
  await context.close();
});

test("the strip says one next act: repair, set the clock, seal, take away", async () => {
  const { page, context, troubles } = await benchWith("bramble.bin");
  assert.equal(await next(page).innerText(), "Take it away");
  await next(page).click();
  assert.equal(await focused(page), "save-form", "it leads there");

  await field(page, "floppy_b").selectOption("none");
  assert.equal(await verdict(page), "Changed, not sealed yet");
  assert.equal(await next(page).innerText(), "Seal the checks");
  await next(page).click();
  assert.match(await verdict(page), /^Sound: /);

  // One bit of a byte under the sum's own bytes: whatever is likeliest, sealing is not the offer.
  const fallen = Buffer.from(readFileSync(machine("bramble.bin")));
  fallen[0x2f] ^= 0x10;
  await drop(page, "fallen.bin", fallen);
  await cardOf(page, "fallen.bin");
  await page.waitForSelector(".suspects button");
  assert.match(await next(page).innerText(), /^(Make the likeliest repair|See what would explain it)/);
  assert.doesNotMatch(await next(page).innerText(), /Seal/);

  const stopped = Buffer.from(readFileSync(machine("bramble.bin")));
  stopped[0x0b] |= 0x80;
  await drop(page, "stopped.bin", stopped);
  await cardOf(page, "stopped.bin");
  assert.equal(await next(page).innerText(), "To the clock");
  await next(page).click();
  assert.equal(await focused(page), "clock-time");
  assert.deepEqual(troubles, []);
  await context.close();
});

test("sealing is no offer where the checks never held, whatever was changed, and by whatever layout", async () => {
  const { page, context } = await benchWith("bramble.bin");
  // By this layout the check never held: an edit did not break it.
  await page.selectOption("#layout", "crc+slots-19");
  await field(page, "floppy_b").selectOption("none");
  assert.notEqual(await verdict(page), "Changed, not sealed yet");
  assert.doesNotMatch(await next(page).innerText(), /Seal/);
  assert.equal(await button(page, "Seal and save").isVisible(), false);
  await button(page, "Undo").click();
  await button(page, "Undo").click();
  await context.close();

  // Mended first, and then changed: now it was the person's own change.
  const mended = await benchWith("sorrel.hex");
  await mended.page.waitForSelector(".suspects button");
  await next(mended.page).click();
  await mended.page.waitForFunction(() => !document.querySelector(".suspects button"));
  await field(mended.page, "base_memory_kib").fill("512");
  await field(mended.page, "base_memory_kib").press("Tab");
  assert.equal(await verdict(mended.page), "Changed, not sealed yet");
  await mended.context.close();
});

test("the focus stays with the person when what had it is gone", async () => {
  const { page, context } = await benchWith("sorrel.hex");
  await page.waitForSelector(".suspects button");
  const repair = page.locator(".suspects button").first();
  await repair.focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => !document.querySelector(".suspects button"));
  assert.equal(await focused(page), "strip");
  await context.close();
});

test("the strip stays in view, and hides nothing that the focus comes to", async () => {
  for (const width of [390, 1280]) {
    const { page, context } = await openPage(browser, { viewport: { width, height: 800 } });
    await dropMachine(page, "bramble.bin");
    await cardOf(page, "bramble.bin");
    await page.locator("#take").scrollIntoViewIfNeeded();
    const strip = await page.locator(".strip").boundingBox();
    assert.ok(strip.y >= -1 && strip.y < 5, `${width}: ${strip.y}`);
    assert.ok(strip.height < 240, `${width}: ${strip.height}`);
    await field(page, "floppy_a").focus();
    const control = await field(page, "floppy_a").boundingBox();
    assert.ok(control.y >= strip.y + strip.height - 1, `${width}: ${control.y}`);
    await context.close();
  }
});

test("what a person sets comes first, and flags that are all off take one line", async () => {
  const { page, context } = await benchWith("bramble.bin");
  const headings = await page.locator("#fields h3").evaluateAll((all) => all.map((one) => one.innerText.replace(/^.\n?/, "").trim()));
  assert.deepEqual(headings.slice(0, 3), ["Drives", "Memory", "Equipment"]);
  assert.equal(headings.at(-1), "Last start");
  const off = page.locator("#fields details.off summary", { hasText: "All off: " });
  assert.ok((await off.count()) >= 1);
  const flag = page.locator("#fields details.off input[type=checkbox]").first();
  assert.equal(await flag.isVisible(), false);
  await off.first().click();
  await flag.check();
  assert.equal(await page.locator("#fields details.off").first().evaluate((one) => one.open), true);
  await context.close();
});

test("type has five sizes, and none below 11 pixels", async () => {
  const { page, context } = await benchWith("sorrel.hex");
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
  const sizes = await page.evaluate(() => {
    const found = new Set();
    for (const node of document.querySelectorAll("body *")) if ([...node.childNodes].some((one) => one.nodeType === 3 && one.textContent.trim())) found.add(getComputedStyle(node).fontSize);
    return [...found].map(Number.parseFloat);
  });
  assert.ok(sizes.length <= 5, `${sizes}`);
  assert.ok(Math.min(...sizes) >= 11, `${sizes}`);
  await context.close();
});

test("codes and disk types are looked up without a dump, and with one", async () => {
  const { page, context, troubles } = await openPage(browser);
  await page.fill("#codes", "161 999999");
  await page.press("#codes", "Enter");
  await page.waitForSelector(".codes .code");
  assert.match(await text(page, ".opening .codes"), /161[\s\S]*999999 is no code/);
  await page.fill("#disk-asked", "615 4 17");
  await button(page, "Look it up").click();
  assert.match(await text(page, ".opening tbody tr:first-child"), /^2\s+615\s+4\s+17\s+21\.4 MB\s+exact$/);
  await page.fill("#disk-asked", "nonsense");
  await button(page, "Look it up").click();
  await page.waitForSelector(".refusal h2");
  assert.deepEqual(troubles, []);
  await context.close();
});
