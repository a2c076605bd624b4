// The core, compiled to WebAssembly, behind one function. rtcmendCore comes from Emscripten's own
// script, the bytes from an element of the page: nothing is fetched.

/// What the core refuses: where, what, and what to try.
export class Refusal extends Error {
  constructor({ where, what, try: remedy, acts = [], shown = "" }) {
    super(what);
    this.where = where;
    this.remedy = remedy;
    this.acts = acts;
    this.shown = shown;
  }
}

/// Packed with gzip, which the browser itself unpacks.
async function embeddedBytes() {
  const text = atob(document.getElementById("core-bytes").textContent.trim());
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; ++i) bytes[i] = text.charCodeAt(i);
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Uint8Array(await new Response(unpacked).arrayBuffer());
}

let bench = null;

export async function startCore() {
  const module = await rtcmendCore({ wasmBinary: await embeddedBytes() });
  bench = new module.Workbench();
}

/// One call. Throws Refusal.
export function ask(verb, request = {}) {
  const answer = JSON.parse(bench.call(JSON.stringify({ do: verb, ...request })));
  if (!answer.ok) throw new Refusal(answer);
  return answer;
}

const digits = Array.from({ length: 256 }, (_, byte) => byte.toString(16).padStart(2, "0"));

export function toHex(bytes) {
  let text = "";
  for (const byte of bytes) text += digits[byte];
  return text;
}

export function fromHex(text) {
  const bytes = new Uint8Array(text.length / 2);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = parseInt(text.slice(2 * i, 2 * i + 2), 16);
  return bytes;
}

export const textToHex = (text) => toHex(new TextEncoder().encode(text));
