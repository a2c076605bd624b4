// The page at the bench board, by a stand-in for navigator.serial (board_stand_in.mjs).
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { putBoardIn } from "./board_stand_in.mjs";
import { button, cardOf, download, dropMachine, field, machine, openPage, startBrowser, text, violations } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

/// The page with a board at its port, the board's card unfolded; with a machine's dump when one is
/// named.
async function atBoard(faults = {}, name = "", options = {}) {
  const opened = await openPage(browser, { ...options, prepare: (context) => context.addInitScript(putBoardIn, faults) });
  const { page } = opened;
  if (name) {
    await dropMachine(page, name);
    await cardOf(page, name);
  }
  await page.locator("#board > summary").click();
  return opened;
}

const bench = (page) => page.evaluate(() => window.bench);
const said = (page) => text(page, "#board .refusal");
const asked = (page) => page.locator("#board .question:not([hidden])");
/// Until the chip is off and the port let go.
const over = (page) => page.waitForFunction(() => [...document.querySelectorAll("#board button")].find((one) => one.textContent.startsWith("Read and save")).disabled === false);
const ram = (bytes) => Buffer.from(bytes.slice(14)).toString("hex");
const bramble = readFileSync(machine("bramble.bin"));

/// Begins a job that reads first: what was saved.
async function readFirst(page, name) {
  return download(page, button(page, name));
}

test("without serial ports the page says what to use", async () => {
  const { page, context } = await atBoard({ absent: true });
  assert.match(await text(page, "#board"), /does not reach serial ports[\s\S]*rtcmend board/);
  assert.equal(await page.locator("#board button").count(), 0);
  await context.close();
});

test("a chip is read, saved and put on the card, and left off", async () => {
  const { page, context, requests, troubles } = await atBoard();
  const { name, bytes } = await readFirst(page, "Read and save the chip");
  assert.match(name, /^chip-\d{8}-\d{6}\.bin$/);
  await over(page);
  const { bytes: chip, state } = await bench(page);
  assert.equal(bytes.length, 128);
  assert.deepEqual([...bytes], chip);
  assert.equal(state, 0);
  assert.equal(await text(page, "#name"), name);
  assert.match(await text(page, "#board .result .stamped"), /^Read 128 bytes from the chip; saved as chip-/);
  assert.deepEqual(requests, []);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("the card is written behind a reading that was saved, and a yes", async () => {
  const { page, context, troubles } = await atBoard({}, "bramble.bin");
  const old = (await bench(page)).bytes;
  const saved = await readFirst(page, "Write the card into the chip");
  assert.deepEqual([...saved.bytes], old);
  await asked(page).waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Leave the chip as it is");
  await page.keyboard.press("Enter");
  await over(page);
  assert.deepEqual((await bench(page)).bytes, old, "nothing was written");
  assert.equal((await bench(page)).state, 0);

  await readFirst(page, "Write the card into the chip");
  await button(page, "Write it").click();
  await over(page);
  const { bytes, state } = await bench(page);
  assert.equal(ram(bytes.slice(0, 64)), ram(bramble));
  assert.equal(ram(bytes).slice(100), ram(old).slice(100), "what lies beyond the card stays");
  assert.equal(bytes[9], 0x31, "its own time goes on");
  assert.equal(bytes[10] & 0x70, 0x20, "its oscillator is on");
  assert.equal(state, 0);
  assert.match(await text(page, "#board .result:last-child"), /Nothing that matters differs\./);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("the chip's clock is set by this computer's when that is ticked", async () => {
  const { page, context } = await atBoard({}, "bramble.bin");
  await page.check("#board-clock");
  await readFirst(page, "Write the card into the chip");
  await button(page, "Write it").click();
  await over(page);
  const { bytes } = await bench(page);
  const year = await page.evaluate(() => new Date().getFullYear() % 100);
  assert.equal(bytes[9], parseInt(String(year).padStart(2, "0"), 16));
  assert.match(await text(page, "#board .result:last-child"), /Nothing that matters differs\./);
  await context.close();
});

test("a card that is not sound is refused before the port opens, unless the person insists", async () => {
  const { page, context } = await atBoard({}, "bramble.bin");
  assert.equal(await button(page, "Write the card into the chip").isEnabled(), true);
  await field(page, "floppy_b").selectOption("none");
  await button(page, "Write the card into the chip").click();
  await page.waitForSelector("#board .refusal");
  assert.equal((await bench(page)).opened, 0);
  await page.locator("#board .refusal").getByRole("button", { name: 'To "Even if it is not sound"' }).click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "anyway");
  await page.keyboard.press("Space");
  await readFirst(page, "Write the card into the chip");
  await button(page, "Write it").click();
  await over(page);
  assert.equal((await bench(page)).bytes[0x10], 0x20 | 0, "floppy B is none");
  await context.close();
});

test("without a card there is nothing to write, and a part that must not go in is refused", async () => {
  const { page, context } = await atBoard();
  assert.equal(await button(page, "Write the card into the chip").isEnabled(), false);
  await page.selectOption("#board-part", "DS12B887");
  await button(page, "Read and save the chip").click();
  await page.waitForSelector("#board .refusal");
  assert.match(await said(page), /DS12B887 does not go on this board/);
  assert.equal((await bench(page)).opened, 0);
  await context.close();
});

for (const [faults, stamp, kind] of [
  [{}, "It holds", "sound"],
  [{ dead: true }, "It does not hold", "fault"],
])
  test(`a time without power is judged: ${stamp}`, async () => {
    const { page, context } = await atBoard(faults);
    await page.evaluate(() => (document.querySelector("#board-off option").value = "1"));
    await page.selectOption("#board-off", "1");
    const { bytes } = await readFirst(page, "See whether it holds");
    assert.deepEqual([...bytes], (await bench(page)).bytes);
    assert.match(await text(page, "#board .question h2"), /With a weak cell it loses that now/);
    await button(page, "Take the power away").click();
    await over(page);
    assert.equal(await text(page, `#board .stamp.${kind}`), stamp);
    if (faults.dead) assert.match(await text(page, "#board"), /its cell is flat or absent/);
    assert.equal((await bench(page)).state, 0);
    await context.close();
  });

test("the clock is measured against this computer's", async () => {
  const { page, context } = await atBoard({ ppm: 20000, haste: 8 });
  await page.evaluate(() => (document.querySelector("#board-length option").value = "30"));
  await page.selectOption("#board-length", "30");
  await button(page, "Measure its clock").click();
  await page.waitForFunction(() => document.querySelector("#board progress").value > 0.2);
  await over(page);
  const told = await text(page, "#board .result:last-child");
  const rate = /gains [\d.]+ s a day: \+?([\d.]+) ppm, give or take ([\d.]+), from (\d+)/.exec(told);
  assert.ok(rate, told);
  assert.ok(Math.abs(Number(rate[1]) - 20000) < 4000, told);
  assert.ok(Number(rate[3]) >= 25, told);
  assert.match(told, /The chip shows 2031-05-14T09:30:00 when this computer shows 20\d\d-/);
  await context.close();
});

for (const [name, faults, words] of [
  ["a port that does not open", { taken: true }, /the port does not open[\s\S]*dialout/],
  ["a port at which nothing answers", { silent: true }, /The board: nothing answers on this port/],
  ["another program's board", { foreign: true }, /what answers on this port is not this program's firmware/],
  ["a board of another version", { version: 2 }, /speaks version 2 of the protocol, this program version 1/],
  ["an empty socket", { noChip: true }, /no chip answers[\s\S]*MOT \(pin 1, to ground\)/],
])
  test(`${name} is named, and nothing is written`, async () => {
    const { page, context, troubles } = await atBoard(faults, "bramble.bin");
    await button(page, "Write the card into the chip").click();
    await page.waitForSelector("#board .refusal");
    await over(page);
    assert.match(await said(page), words);
    const { requests, state } = await bench(page);
    assert.doesNotMatch(requests, /[WS]/);
    assert.equal(state, 0);
    assert.deepEqual(troubles, []);
    await context.close();
  });

test("a character lost or changed on the wire costs nothing, wherever it falls", async () => {
  for (const fault of ["lost", "changed"])
    for (const number of [1, 9, 17]) {
      const { page, context } = await atBoard({ [fault]: number }, "bramble.bin");
      await readFirst(page, "Write the card into the chip");
      await button(page, "Write it").click();
      await over(page);
      const { bytes, lines } = await bench(page);
      assert.ok(lines > 22, `${lines} lines`);
      assert.equal(ram(bytes.slice(0, 64)), ram(bramble), `${fault} in ${number}`);
      assert.match(await text(page, "#board .result:last-child"), /Nothing that matters differs\./);
      await context.close();
    }
});

for (const [fault, words] of [
  ["reset", /it was reset in the middle/],
  ["gone", /the port is gone/],
])
  test(`a board that is ${fault} while the chip is written says what the chip may hold`, async () => {
    // Line 14 answers a writing: a greeting, supply, wires, the clock, 8 times 16 bytes less 14, stays.
    const { page, context } = await atBoard({ [fault]: 14 }, "bramble.bin");
    const { name } = await readFirst(page, "Write the card into the chip");
    await button(page, "Write it").click();
    await page.waitForSelector("#board .refusal");
    await over(page);
    assert.match(await said(page), words);
    assert.ok((await said(page)).includes(`The chip may hold a part of the card. What it held before is in ${name}.`));
    assert.doesNotMatch(await text(page, "#board .result:last-child"), /Nothing that matters differs/);
    await context.close();
  });

test("Stop leaves the chip off, and leaving the page is asked about until then", async () => {
  const { page, context } = await atBoard({ ppm: 0 });
  const stays = () => page.evaluate(() => !window.dispatchEvent(new Event("beforeunload", { cancelable: true })));
  assert.equal(await stays(), false);
  await button(page, "Measure its clock").click();
  await page.waitForFunction(() => window.bench.requests.includes("E"));
  assert.equal(await stays(), true);
  assert.equal((await bench(page)).state, 1);
  assert.equal(await page.evaluate(() => document.activeElement.textContent), "Stop, and leave the chip off");
  await page.keyboard.press("Enter");
  await over(page);
  assert.equal((await bench(page)).state, 0);
  assert.match(await said(page), /stopped; the chip is switched off/);
  assert.equal(await page.evaluate(() => document.activeElement.innerText.slice(0, 40)), "Measure its clock");
  assert.equal(await stays(), false);
  await context.close();
});

for (const colorScheme of ["light", "dark"])
  test(`axe finds nothing serious at the board, ${colorScheme}`, async () => {
    const { page, context } = await atBoard({ reset: 14 }, "bramble.bin", { colorScheme });
    await readFirst(page, "Write the card into the chip");
    await asked(page).waitFor();
    assert.deepEqual(await violations(page), []);
    await button(page, "Write it").click();
    await page.waitForSelector("#board .refusal");
    await over(page);
    assert.deepEqual(await violations(page), []);
    await context.close();
  });

test("nothing of the board's card sticks out at 360 pixels", async () => {
  const { page, context } = await atBoard({}, "", { viewport: { width: 360, height: 800 } });
  await readFirst(page, "See whether it holds");
  await asked(page).waitFor();
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), 0);
  await context.close();
});
