// What a person brings to the bench, as the core takes it: the bytes of a file, or of what was pasted
// or typed.
import { Refusal, textToHex, toHex } from "./core.js";
import { words } from "./strings.js";

const largest = 1024 * 1024; // bytes; no dump comes near it, and the core refuses more

function fits(size, where) {
  if (size > largest) throw new Refusal({ where, what: words.open.tooLong(size), try: "" });
}

async function bytesOf(file) {
  fits(file.size, file.name);
  return toHex(new Uint8Array(await file.arrayBuffer()));
}

/// What is typed is lines of text: of an odd length, as no raw dump is, so that it is not taken for one.
function typed(text) {
  if (!text.trim()) throw new Refusal({ where: "", what: words.open.nothingTyped, try: "" });
  fits(text.length, "");
  const content = textToHex(`${text.trimEnd()}\n`);
  return content.length % 4 ? content : `${content}0a`;
}

/// Takers of files and of text: each hands (content in hex, name, how) to `take`, or what was wrong to
/// `complain`. how: what was said of the way it is written down, by the core's keys.
export const takesFile = (take, complain) => (file, how = {}) => bytesOf(file).then((content) => take(content, file.name, how), complain);
export const takesText = (take, complain) => (text, how = {}) => {
  let content;
  try {
    content = typed(text);
  } catch (refused) {
    return complain(refused);
  }
  return take(content, words.open.typedName, how);
};
