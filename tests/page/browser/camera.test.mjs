// Reading a chip's codes with the camera. Chromium on a desk has no detector of codes, so a stand-in is
// there before the page's own scripts: it says what the test has put into `window.codes`.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { button, cardOf, html, machine, openPage, startBrowser, text, verdict, written } from "./support.mjs";

let browser;
before(async () => {
  browser = await startBrowser();
});
after(() => browser.close());

/// A picture of one white point; what is on it is the detector's business.
const picture = {
  name: "glass.png",
  mimeType: "image/png",
  buffer: Buffer.from("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGP4DwABAQEAsTj2FAAAAABJRU5ErkJggg==", "base64"),
};

async function pageWithDetector(formats = ["ean_13", "qr_code"]) {
  const opened = await openPage(browser);
  await opened.page.addInitScript((known) => {
    window.codes = [];
    window.BarcodeDetector = class {
      static getSupportedFormats = async () => known;
      constructor({ formats: wanted }) {
        if (wanted.join() !== "qr_code") throw new Error(`asked for ${wanted}`);
      }
      async detect(image) {
        if (!(image instanceof ImageBitmap)) throw new Error("no picture");
        return window.codes.map((rawValue) => ({ rawValue }));
      }
    };
  }, formats);
  await opened.page.goto(pathToFileURL(html).href);
  await opened.page.waitForSelector("html[data-ready]");
  return opened;
}

async function show(page, codes) {
  await page.evaluate((texts) => (window.codes = texts), codes);
  await page.setInputFiles("#camera-picture", picture);
}

const codesOf = (name) => written(["convert", machine(name), "--to", "code-text"], "txt").toString().trim().split("\n");
const camera = (page) => button(page, "Read with the camera");

test("where the browser has a detector, a picture of a code becomes the dump and its judgement", async () => {
  const { page, context, troubles } = await pageWithDetector();
  await camera(page).waitFor();
  await show(page, codesOf("bramble.bin"));
  await cardOf(page, "typed bytes");
  assert.match(await verdict(page), /^Sound: /);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("the button opens the camera, or the dialogue for pictures", async () => {
  const { page, context } = await pageWithDetector();
  const [chooser] = await Promise.all([page.waitForEvent("filechooser"), camera(page).click()]);
  assert.equal(await chooser.element().getAttribute("capture"), "environment");
  await context.close();
});

test("of a chip of 128 bytes both codes are waited for, in either order, then both are read", async () => {
  const { page, context, troubles } = await pageWithDetector();
  const [low, high] = codesOf("clover.bin");
  await show(page, [high]);
  await page.getByText("Code 2 of 2 is read.").waitFor();
  assert.equal(await page.locator("article.record:not([hidden])").count(), 0);
  await show(page, [low]);
  await cardOf(page, "typed bytes");
  assert.match(await text(page, ".facts"), /128 bytes/);
  assert.match(await verdict(page), /^Sound: /);
  assert.deepEqual(troubles, []);
  await context.close();
});

test("one code of two can be read alone, and the other half is said to be unknown", async () => {
  const { page, context } = await pageWithDetector();
  await show(page, codesOf("clover.bin").slice(0, 1));
  await page.getByText("Code 1 of 2 is read.").waitFor();
  await button(page, "Read the bytes").click();
  await cardOf(page, "typed bytes");
  assert.match(await text(page, "div.reading"), /only code 1 of 2 is here, the other was not read: 40h to 7Fh are unknown/);
  await context.close();
});

test("a picture without a code, and a code with a slip, are refused with what to do", async () => {
  const { page, context } = await pageWithDetector();
  await show(page, []);
  await page.getByText("there is no code in this picture").waitFor();
  assert.match(await text(page, ".refusal"), /come closer, hold still/);
  await show(page, [codesOf("bramble.bin")[0].replace("RTCMEND1/64/00/41", "RTCMEND1/64/00/40")]);
  await page.getByText("the code of 00h to 3Fh does not fit its check").waitFor();
  assert.match(await text(page, ".refusal"), /the likely slip: 1 at 00h was read as 0/);
  await context.close();
});

test("without a detector, or with one that knows no such codes, there is no button and pasting works", async () => {
  for (const open of [() => openPage(browser), () => pageWithDetector(["ean_13"])]) {
    const { page, context } = await open();
    assert.equal(await camera(page).count(), 0);
    await page.fill("#typed", `QR-Code:${codesOf("bramble.bin")[0]}\nscanned 1 barcode symbols\n`);
    await button(page, "Read the bytes").click();
    await cardOf(page, "typed bytes");
    assert.match(await verdict(page), /^Sound: /);
    await context.close();
  }
});
