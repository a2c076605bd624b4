// What the browser tests and the pictures share: a browser, the page opened from disk, the example
// machines, and the program for the same steps.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const root = resolve(new URL(".", import.meta.url).pathname, "../../..");
export const machines = join(root, "examples/machines");
export const machine = (name) => join(machines, name);
export const html = resolve(process.env.RTCMEND_HTML ?? join(root, "build/page/rtcmend.html"));
const program = resolve(process.env.RTCMEND ?? join(root, "build/release/rtcmend"));
export const folder = mkdtempSync(join(tmpdir(), "rtcmend-page-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

const browsers = [process.env.RTCMEND_CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];

export function startBrowser() {
  const executablePath = browsers.find((path) => path && existsSync(path));
  // Containers run tests as root, where Chromium's own sandbox does not start.
  return chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu"] });
}

/// Opens an address: {page, context, requests, troubles}. `requests` is the network log, the address
/// itself and what the page saves left out; `troubles` is what the console complains about. prepare:
/// what is done to the context before the page is there.
export async function open(browser, address, { prepare = async () => {}, ...options } = {}) {
  const context = await browser.newContext({ acceptDownloads: true, viewport: { width: 1280, height: 900 }, ...options });
  // A busy machine may take its time; nothing here is about speed.
  context.setDefaultTimeout(120000);
  await prepare(context);
  const page = await context.newPage();
  const requests = [];
  const troubles = [];
  page.on("request", (request) => {
    if (request.url() !== address && !request.url().startsWith("blob:")) requests.push(request.url());
  });
  page.on("console", (message) => {
    if (message.type() === "error") troubles.push(message.text());
  });
  page.on("pageerror", (error) => troubles.push(String(error)));
  page.on("dialog", (dialog) => {
    troubles.push(`dialog: ${dialog.message()}`);
    return dialog.dismiss();
  });
  await page.goto(address);
  return { page, context, requests, troubles };
}

/// The workbench, ready to be used.
export async function openPage(browser, options = {}, file = html) {
  const opened = await open(browser, pathToFileURL(file).href, options);
  await opened.page.waitForSelector("html[data-ready]");
  return opened;
}

/// Drops bytes on the page as a file, the way a person does.
export async function drop(page, name, bytes, where = "body") {
  const transfer = await page.evaluateHandle(
    ([file, text]) => {
      const data = new DataTransfer();
      const content = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
      data.items.add(new File([content], file));
      return data;
    },
    [name, Buffer.from(bytes).toString("base64")],
  );
  for (const type of ["dragenter", "dragover", "drop"]) await page.dispatchEvent(where, type, { dataTransfer: transfer });
}

export const dropMachine = (page, name) => drop(page, name, readFileSync(machine(name)));

/// Waits until a card is on the bench that bears this name; asked, it is to lie there instead of
/// another.
export async function cardOf(page, name) {
  const there = (wanted) => !document.querySelector("article.record").hidden && document.getElementById("name").textContent === wanted;
  const asked = page.locator(".question:not([hidden])");
  await page.waitForFunction(
    (wanted) => !document.querySelector(".question").hidden || (!document.querySelector("article.record").hidden && document.getElementById("name").textContent === wanted),
    name,
  );
  if (await asked.count()) await asked.getByRole("button", { name: "Instead of it" }).click();
  await page.waitForFunction(there, name);
}

/// The bytes that a button makes the page save.
export async function download(page, button) {
  const [file] = await Promise.all([page.waitForEvent("download"), button.click()]);
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/// Runs rtcmend; `codes`: how it may end.
export function rtcmend(args, { codes = [0], cwd = folder, env = {} } = {}) {
  try {
    return execFileSync(program, args, { cwd, stdio: "pipe", env: { ...process.env, ...env } });
  } catch (error) {
    if (codes.includes(error.status)) return error.stdout;
    throw new Error(`rtcmend ${args.join(" ")}: ${error.stderr}`);
  }
}

let count = 0;
/// The bytes that a command writes to -o.
export function written(args, ending, codes = [0]) {
  const out = join(folder, `out${++count}.${ending}`);
  rtcmend([...args, "-o", out], { codes });
  return readFileSync(out);
}

/// The dumps of the example workshop that a sheet can be made of, with the layout to read each by.
export const dumps = [
  { name: "bramble", file: "bramble.bin", layout: [] },
  { name: "juniper", file: "juniper.txt", layout: ["--layout", "at"] },
  { name: "sorrel", file: "sorrel.hex", layout: ["--layout", "crc+slots-19"] },
];

/// Makes the sheet of a dump, sound or not, and returns its file: address.
export function makeSheet(dump) {
  const sheet = join(folder, `${dump.name}.html`);
  rtcmend(["sheet", machine(dump.file), ...dump.layout, "-o", sheet, "--force"], { codes: [0, 1] });
  return pathToFileURL(sheet).href;
}

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/// Serious and critical violations, each as one line. The policies of page and sheet forbid scripts
/// from outside, so axe comes in through the debugger's door.
export async function violations(page) {
  await page.evaluate(axe);
  const found = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] }));
  if (found.passes.length < 15) throw new Error(`axe has looked at too little: ${found.passes.length} rules`);
  return found.violations
    .filter((one) => ["serious", "critical"].includes(one.impact))
    .map((one) => `${one.id}: ${one.nodes.map((node) => `${node.target} ${node.failureSummary}`).slice(0, 3).join(" | ")}`);
}

export const button = (page, name) => page.getByRole("button", { name, exact: true });
export const field = (page, id) => page.locator(`#field-${id}`);
export const verdict = (page) => page.locator(".stamp.big").innerText();
export const cell = (page, at) => page.locator(`.cell[data-tie="byte:${at}"]`);
export const text = (page, selector) => page.locator(selector).innerText();
