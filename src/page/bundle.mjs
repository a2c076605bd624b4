// Puts the page together: one HTML file that holds the core, the script and the style, and whose
// Content-Security-Policy forbids every call to a network.
//   node bundle.mjs TEMPLATE CORE.js CORE.wasm PAGE.js OUT.html STYLE.css...
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const [template, core, wasm, page, out, ...styles] = process.argv.slice(2);
const largest = 2 * 1000 * 1000; // bytes: what can be mailed to a friend

const read = (path) => readFileSync(path, "utf8");
/// Script text must not end its own element.
const inside = (text) => text.replaceAll("</script", "<\\/script").replaceAll("<!--", "<\\!--");
const hash = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;

const parts = {
  STYLE: styles.map(read).join("\n"),
  CORE: inside(read(core)),
  PAGE: inside(read(page)),
  BYTES: gzipSync(readFileSync(wasm), { level: 9 }).toString("base64"),
};
// 'wasm-unsafe-eval' lets the core be compiled; scripts run by their hash alone, and nothing is
// fetched, sent, framed or embedded.
parts.POLICY = [
  "default-src 'none'",
  `script-src ${hash(parts.CORE)} ${hash(parts.PAGE)} 'wasm-unsafe-eval'`,
  `style-src ${hash(parts.STYLE)}`,
  "connect-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");

const html = read(template).replace(/%([A-Z]+)%/g, (whole, name) => parts[name] ?? whole);
if (Buffer.byteLength(html) >= largest) throw new Error(`${out} would have ${Buffer.byteLength(html)} bytes, and must stay below ${largest}`);
writeFileSync(out, html);
