// What the browser tests and the pictures share: the program, its example machines, a browser.
import { execFileSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '../..');
export const machines = join(root, 'examples/machines');
const program = resolve(process.env.RTCMEND ?? 'build/release/rtcmend');

/** The dumps of the example workshop that a sheet can be made of, with the layout to read each by. */
export const dumps = [
  { name: 'bramble', file: 'bramble.bin', layout: [] },
  { name: 'juniper', file: 'juniper.txt', layout: ['--layout', 'at-128'] },
  { name: 'sorrel', file: 'sorrel.hex', layout: ['--layout', 'crc-64'] },
];

export function workplace() {
  return mkdtempSync(join(tmpdir(), 'rtcmend-page-'));
}

/** Runs rtcmend; 1 (not sound) is as good as 0 here, anything else throws. */
export function rtcmend(words, folder) {
  try {
    return execFileSync(program, words, { cwd: folder, encoding: 'utf8' });
  } catch (error) {
    if (error.status === 1) return error.stdout;
    throw error;
  }
}

/** Makes the sheet of a dump and returns its file: address. */
export function makeSheet(dump, folder) {
  const sheet = join(folder, `${dump.name}.html`);
  rtcmend(['sheet', join(machines, dump.file), ...dump.layout, '-o', sheet, '--force'], folder);
  return pathToFileURL(sheet).href;
}

export function openBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-gpu'],
  });
}
