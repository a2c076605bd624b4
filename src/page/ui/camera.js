// Reading a chip's code with the camera, where the browser has a detector of codes. The picture is
// taken by the browser's own file dialogue, which on a phone opens the camera and elsewhere takes a
// picture that is there: no live view, and no leave to be asked for.
import { Refusal } from "./core.js";
import { button, el, say } from "./dom.js";
import { words } from "./strings.js";

/// Of a chip of 128 bytes a code holds half, and says which: its first address.
const halves = (text) => new Set([...text.matchAll(/RTCMEND\d+\/128\/(00|40)\//g)].map((one) => one[1]));

async function detectorOfCodes() {
  const there = "BarcodeDetector" in window && (await window.BarcodeDetector.getSupportedFormats()).includes("qr_code");
  return there ? new window.BarcodeDetector({ formats: ["qr_code"] }) : null;
}

/// What the codes in a picture say, a line each.
async function textIn(detector, picture) {
  const image = await createImageBitmap(picture).catch(() => null);
  const codes = image ? await detector.detect(image) : [];
  if (!codes.length) throw new Refusal({ where: picture.name, what: words.camera.noCode, try: words.camera.noCodeTry });
  return codes.map((one) => one.rawValue).join("\n");
}

/// `text`: the box that holds what was read, for the eye and for the second code. read(): takes what
/// is in it. The node stays hidden where the browser has no detector.
export function makeCamera(text, read, complain) {
  const told = el("p", { class: "hint", role: "status" });
  const input = el("input", { type: "file", accept: "image/*", capture: "environment", hidden: true, id: "camera-picture", tabindex: "-1" });
  const node = el("div", { class: "camera", hidden: true }, el("div", { class: "buttons" }, input, button(words.camera.read, () => input.click())), told);
  let detector = null;
  detectorOfCodes().then((found) => {
    detector = found;
    node.hidden = !found;
  }, console.error);

  const take = async (picture) => {
    const found = await textIn(detector, picture);
    const waiting = halves(text.value).size === 1 && halves(found).size === 1;
    text.value = waiting ? `${text.value.trim()}\n${found}` : found;
    const half = halves(text.value);
    if (half.size !== 1) {
      say(told, "");
      return read();
    }
    say(told, words.camera.half(half.has("00") ? 1 : 2));
  };
  input.addEventListener("change", () => {
    if (input.files[0]) take(input.files[0]).catch(complain);
    input.value = "";
  });
  return node;
}
