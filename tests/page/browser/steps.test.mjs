// The example dumps, the same steps on the page and on the command line: the same bytes.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { button, cardOf, cell, download, drop, dropMachine, field, folder, html, machine, machines, openPage, rtcmend, startBrowser, text, verdict, written } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

async function saved(page, form) {
  await page.selectOption("#save-form", form);
  return (await download(page, button(page, "Save the image"))).bytes;
}

test("Bramble: read, changed in three fields, sealed and saved as on the command line", async () => {
  const { page, context, requests, troubles } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await page.waitForSelector("article.record:not([hidden])");
  assert.match(await verdict(page), /^Sound: /);
  assert.equal(await page.inputValue("#layout"), "at");
  assert.equal(await field(page, "floppy_a").inputValue(), "1.2M");
  assert.equal(await field(page, "floppy_b").inputValue(), "1.44M");
  assert.equal(await field(page, "disk_0_type").inputValue(), "39");
  assert.equal(await field(page, "base_memory_kib").inputValue(), "640");
  assert.equal(await field(page, "extended_memory_kib").inputValue(), "3456");
  assert.equal(await field(page, "coprocessor").isChecked(), false);

  await field(page, "floppy_b").selectOption("none");
  await field(page, "disk_0_type").fill("17");
  await field(page, "disk_0_type").press("Tab");
  await field(page, "coprocessor").check();
  assert.equal(await field(page, "floppy_count").inputValue(), "1");
  assert.doesNotMatch(await verdict(page), /^Sound/, "nothing is sealed silently");
  assert.equal(await cell(page, 0x2e).locator("b").innerText(), "08");
  await button(page, "Re-seal the checks").click();
  assert.match(await verdict(page), /^Sound: /);

  const args = ["amend", machine("bramble.bin"), "--set", "floppy_b=none", "disk_0_type=17", "coprocessor=yes"];
  const wanted = written(args, "bin");
  assert.deepEqual(await saved(page, "raw"), wanted);
  for (const [form, ending] of [["intel-hex", "hex"], ["s-record", "srec"], ["rows", "rows"], ["code-text", "txt"], ["c-array", "h"], ["hex", "txt"], ["json", "json"]])
    assert.deepEqual(await saved(page, form), written([...args, "--to", form], ending), form);

  await button(page, "Undo").click();
  await button(page, "Undo").click();
  await button(page, "Undo").click();
  await button(page, "Undo").click();
  assert.match(await verdict(page), /^Sound: /);
  assert.deepEqual(await saved(page, "raw"), readFileSync(machine("bramble.bin")));
  await page.locator("#name").click();
  for (let i = 0; i < 4; ++i) await page.keyboard.press("Control+Shift+Z");
  assert.deepEqual(await saved(page, "raw"), wanted);
  assert.deepEqual(requests, []);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("Sorrel: a fallen byte, a field put right, in the programmer's form", async () => {
  const { page, context, troubles } = await openPage(browser);
  await dropMachine(page, "sorrel.hex");
  await page.waitForSelector("article.record:not([hidden])");
  assert.equal(await page.inputValue("#layout"), "crc+slots-19");
  assert.doesNotMatch(await verdict(page), /^Sound/);
  assert.match(await text(page, "#findings"), /32h-33h/);
  assert.match(await text(page, "#findings"), /To the checks/, "advice is a button that leads there");
  assert.doesNotMatch(await text(page, "#findings"), /rtcmend [a-z]/);
  for (const [id, value] of [["extended_memory_kib", "3072"], ["disk_0_type", "40"]]) {
    await field(page, id).fill(value);
    await field(page, id).press("Enter");
  }
  await field(page, "floppy_b").selectOption("720K");
  await button(page, "Re-seal the checks").click();
  assert.match(await verdict(page), /^Sound: /);
  const args = ["amend", machine("sorrel.hex"), "--layout", "crc+slots-19", "--set", "extended_memory_kib=3072", "disk_0_type=40", "floppy_b=720K"];
  assert.deepEqual(await saved(page, "intel-hex"), written(args, "hex"));
  // The password area is not shown, and cannot be changed.
  assert.equal(await cell(page, 0x38).locator("b").innerText(), "**");
  await cell(page, 0x38).click();
  await page.keyboard.type("55");
  assert.equal(await cell(page, 0x38).locator("b").innerText(), "**");
  assert.deepEqual(await saved(page, "intel-hex"), written(args, "hex"));
  assert.deepEqual(troubles, []);
  await context.close();
});

test("Juniper: noise is called so, and saved only when that is meant", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "juniper.txt");
  await page.waitForSelector("article.record:not([hidden])");
  assert.doesNotMatch(await verdict(page), /^Sound/);
  await page.selectOption("#layout", "at");
  await button(page, "Save the image").click();
  assert.match(await text(page, ".refusal"), /would not be sound/);
  await page.check("#anyway");
  const args = ["convert", machine("juniper.txt"), "--layout", "at", "--to", "raw"];
  assert.deepEqual(await saved(page, "raw"), written(args, "bin"));
  await context.close();
});

test("Thistle: the slip of a hand copy is named, and once mended the dump is read", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "thistle.txt");
  await page.waitForSelector(".refusal h2");
  assert.match(await text(page, ".refusal"), /thistle\.txt:2: row 10h does not fit its code/);
  assert.match(await text(page, ".refusal"), /2F at 19h was read as F2/);
  const again = readFileSync(machine("thistle.txt"), "utf8").replace("01 F2 00", "01 2F 00");
  await page.fill("#typed", again);
  await button(page, "Read the bytes").click();
  await page.waitForSelector("article.record:not([hidden])");
  assert.match(await verdict(page), /^Sound: /);
  await context.close();
});

test("Yarrow: a description of what is fitted becomes an image", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "yarrow.json");
  await page.waitForSelector("article.record:not([hidden])");
  assert.match(await verdict(page), /^Sound: /);
  assert.equal(await field(page, "floppy_a").inputValue(), "1.44M");
  assert.deepEqual(await saved(page, "raw"), written(["compose", machine("yarrow.json")], "bin"));
  await context.close();
});

/// What the page holds, byte by byte.
const shown = (page) => page.evaluate(() => [...document.querySelectorAll(".cell b")].map((one) => one.textContent).join(" "));

test("every form is read: dropped, typed and pasted", async () => {
  const { page, context, troubles } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await cardOf(page, "bramble.bin");
  const wanted = await shown(page);
  assert.equal(wanted.length, 64 * 3 - 1);
  const forms = { hex: "a hex listing", rows: "rows with a check", "code-text": "what a code says", "intel-hex": "Intel HEX", "s-record": "S-records", "c-array": "C array", json: "JSON" };
  for (const [form, words] of Object.entries(forms)) {
    const content = written(["convert", machine("bramble.bin"), "--to", form], "txt");
    const check = async (name) => {
      await cardOf(page, name);
      assert.equal(await shown(page), wanted, `${form}, ${name}`);
      assert.ok((await text(page, ".facts")).includes(words.replace(/^a /, "")), `${form}: ${await text(page, ".facts")}`);
    };
    await drop(page, `${form}.txt`, content);
    await check(`${form}.txt`);
    await dropMachine(page, "sorrel.hex");
    await cardOf(page, "sorrel.hex");
    await page.evaluate((pasted) => {
      const data = new DataTransfer();
      data.setData("text/plain", pasted);
      document.body.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
    }, content.toString());
    await check("typed bytes");
    await dropMachine(page, "sorrel.hex");
    await cardOf(page, "sorrel.hex");
    await page.locator(".start > summary").click();
    await page.fill("#typed", content.toString());
    await button(page, "Read the bytes").click();
    await check("typed bytes");
  }
  await drop(page, "raw.bin", readFileSync(machine("bramble.bin")));
  await cardOf(page, "raw.bin");
  assert.equal(await shown(page), wanted);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("how a listing is written down can be said, and is what the reader goes by", async () => {
  const { page, context, troubles } = await openPage(browser);
  const bytes = readFileSync(machine("bramble.bin"));
  const words = [];
  for (let i = 0; i < bytes.length; i += 2) words.push(bytes.readUInt16LE(i).toString(16).padStart(4, "0"));
  const listing = words.join(" ").replace(/((?:\S+ ){7}\S+) /g, "$1\n");
  const hexOf = (list) => [...list].map((byte) => byte.toString(16).toUpperCase().padStart(2, "0")).join(" ");
  const read = async (order, wanted) => {
    await page.evaluate(() => (document.querySelector(".start").open = document.querySelector(".start .reading").open = true));
    await page.fill("#typed", listing);
    await page.selectOption("#read-order", order);
    await button(page, "Read the bytes").click();
    await cardOf(page, "typed bytes");
    assert.equal(await shown(page), wanted);
  };
  await read("", hexOf(bytes));
  await read("high", hexOf(bytes.swap16()));
  assert.deepEqual(troubles, []);
  await context.close();
});

test("a chip inside a bigger file is read from the place that is told", async () => {
  const { page, context, troubles } = await openPage(browser);
  const bytes = readFileSync(machine("bramble.bin"));
  const file = Buffer.concat([Buffer.alloc(100, 0x5a), bytes, Buffer.alloc(300, 0xa5)]);
  await page.evaluate(() => (document.querySelector(".start .reading").open = true));
  await page.fill("#read-at", "100");
  await page.selectOption("#read-size", "64");
  await drop(page, "bigger.bin", file, ".start .drop");
  await cardOf(page, "bigger.bin");
  assert.equal(await shown(page), [...bytes].map((byte) => byte.toString(16).toUpperCase().padStart(2, "0")).join(" "));
  assert.deepEqual(troubles, []);
  await context.close();
});

test("a byte is changed by its digits and by its bits", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await cardOf(page, "bramble.bin");
  await cell(page, 0x14).click();
  assert.equal(await page.inputValue("#slip-hex"), "4D");
  await page.fill("#slip-hex", "5d");
  await page.locator("#slip-hex").press("Enter");
  assert.equal(await cell(page, 0x14).locator("b").innerText(), "5D");
  assert.equal(await field(page, "display").inputValue(), "colour-40");
  await page.getByRole("checkbox", { name: "bit 1", exact: true }).check();
  assert.equal(await cell(page, 0x14).locator("b").innerText(), "5F");
  assert.equal(await field(page, "coprocessor").isChecked(), true);
  await page.fill("#slip-hex", "5G");
  await page.locator("#slip-hex").press("Enter");
  assert.match(await text(page, ".refusal"), /Nothing was changed/);
  assert.equal(await cell(page, 0x14).locator("b").innerText(), "5F");
  assert.doesNotMatch(await verdict(page), /^Sound/);
  await context.close();
});

test("an empty card is filled in and is what compose makes", async () => {
  const { page, context } = await openPage(browser);
  await page.selectOption("#compose-layout", "at+sum-34-3d");
  await button(page, "Begin an empty card").click();
  await page.waitForSelector("article.record:not([hidden])");
  await page.fill("#clock-time", "2031-05-14T09:30:00");
  await button(page, "Set the clock").click();
  await field(page, "floppy_a").selectOption("720K");
  await button(page, "Re-seal the checks").click();
  const description = { layout: "at+sum-34-3d", clock: "2031-05-14T09:30:00", set: { floppy_a: "720K" } };
  writeFileSync(join(folder, "new.json"), JSON.stringify(description));
  assert.deepEqual(await saved(page, "raw"), written(["compose", join(folder, "new.json")], "bin"));
  await context.close();
});

test("every way into the machine is made as on the command line", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await page.waitForSelector("article.record:not([hidden])");
  for (const [way, ending] of [["boot-floppy", "img"], ["dos-program", "com"], ["debugger-script", "scr"], ["basic-listing", "bas"], ["keyboard-program", "txt"]]) {
    await page.selectOption("#way", way);
    if (way === "boot-floppy") await page.selectOption("#disk", "360K");
    const made = await download(page, button(page, "Make it"));
    assert.equal(made.name, `bramble-${way}.${ending}`);
    const args = ["deliver", machine("bramble.bin"), "--as", way, ...(way === "boot-floppy" ? ["--disk", "360K"] : [])];
    assert.deepEqual(made.bytes, written(args, ending), way);
    assert.match(await text(page, "#take"), /What to do/);
  }
  await context.close();
});

test("what reads a chip out is made as on the command line", async () => {
  const { page, context } = await openPage(browser);
  for (const [way, ending] of [["boot-floppy", "img"], ["dos-program", "com"], ["debugger-script", "scr"], ["basic-listing", "bas"]]) {
    await page.selectOption("#capture-way", way);
    if (way === "boot-floppy") await page.selectOption("#capture-disk", "720K");
    const made = await download(page, button(page, "Make the reading program"));
    assert.equal(made.name, `read-${way}.${ending}`);
    const args = ["capture", "--as", way, ...(way === "boot-floppy" ? ["--disk", "720K"] : [])];
    assert.deepEqual(made.bytes, written(args, ending), way);
  }
  await context.close();
});

test("the bench sheet is that of the command line", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await page.waitForSelector("article.record:not([hidden])");
  const made = await download(page, button(page, "Save the bench sheet"));
  assert.equal(made.name, "bramble.html");
  const out = rtcmend(["sheet", "bramble.bin", "-o", "-"], { cwd: machines });
  assert.deepEqual(made.bytes.toString(), out.toString());
  await context.close();
});

test("a second dump is laid beside the card", async () => {
  const { page, context } = await openPage(browser);
  await dropMachine(page, "bramble.bin");
  await page.waitForSelector("article.record:not([hidden])");
  const other = Buffer.from(readFileSync(machine("bramble.bin")));
  other[0x00] = 0x55; // ticks
  other[0x10] = 0x44;
  await drop(page, "readback.bin", other, "#compare .drop");
  await page.waitForSelector("#compare table");
  assert.match(await text(page, "#compare .result"), /1 byte differs and it matters/);
  assert.match(await text(page, "#compare table"), /floppy_a/);
  assert.ok(await cell(page, 0x10).evaluate((node) => node.classList.contains("differs")));
  // Making the card the same settles it.
  await cell(page, 0x10).click();
  await page.keyboard.type("44");
  assert.match(await text(page, "#compare .result"), /Nothing that matters differs/);
  await context.close();
});

test("a page that was written with a dump on it opens with its card", async () => {
  const page_file = join(folder, "with-dump.html");
  const env = { RTCMEND_PAGE: html };
  rtcmend(["page", machine("sorrel.hex"), "--layout", "crc+slots-19", "-o", page_file], { env });
  const { page, context, requests, troubles } = await openPage(browser, {}, page_file);
  await cardOf(page, "sorrel.hex");
  assert.equal(await page.inputValue("#layout"), "crc+slots-19");
  assert.match(await text(page, ".head"), /chosen/i);
  assert.deepEqual(requests, []);
  assert.deepEqual(troubles, []);
  await context.close();
});
