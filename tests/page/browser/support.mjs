// What the browser tests share: a page opened from disk, and the program for the same steps.
import { execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

export const machines = resolve(import.meta.dirname ?? new URL(".", import.meta.url).pathname, "../../../examples/machines");
export const machine = (name) => join(machines, name);
const html = process.env.RTCMEND_HTML;
const program = process.env.RTCMEND;
export const folder = mkdtempSync(join(tmpdir(), "rtcmend-page-"));

const browsers = [process.env.RTCMEND_CHROMIUM, "/usr/bin/chromium", "/usr/bin/chromium-browser"];

export function startBrowser() {
  const executablePath = browsers.find((path) => path && existsSync(path));
  // Containers run tests as root, where Chromium's own sandbox does not start.
  return chromium.launch({ executablePath, args: ["--no-sandbox"] });
}

/// A page on the bench: {page, requests, troubles}. `requests` is the network log, the page's own
/// file left out; `troubles` is what the console complains about.
export async function openPage(browser, options = {}) {
  const context = await browser.newContext({ acceptDownloads: true, viewport: { width: 1280, height: 900 }, ...options });
  const page = await context.newPage();
  const address = pathToFileURL(html).href;
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
  await page.waitForSelector("html[data-ready]");
  return { page, context, requests, troubles };
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

/// The bytes that a button makes the page save.
export async function download(page, button) {
  const [file] = await Promise.all([page.waitForEvent("download"), button.click()]);
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

let count = 0;
/// The bytes that a command writes to -o. `codes`: how it may end.
export function written(args, ending, codes = [0]) {
  const out = join(folder, `out${++count}.${ending}`);
  try {
    execFileSync(program, [...args, "-o", out], { stdio: "pipe" });
  } catch (error) {
    if (!codes.includes(error.status)) throw new Error(`rtcmend ${args.join(" ")}: ${error.stderr}`);
  }
  return readFileSync(out);
}

export const button = (page, name) => page.getByRole("button", { name, exact: true });
export const field = (page, id) => page.locator(`#field-${id}`);
export const verdict = (page) => page.locator(".stamp.big").innerText();
export const cell = (page, at) => page.locator(`.cell[data-tie="byte:${at}"]`);
export const text = (page, selector) => page.locator(selector).innerText();
