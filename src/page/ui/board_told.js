// What came of a job at the bench board, in words.
import { el } from "./dom.js";
import { words } from "./strings.js";

const stamp = (kind, text) => el("span", { class: `stamp ${kind}` }, text);

/// A chip that was read, and saved as `name`.
export function readTold({ size, name, remarks, cell_low: low }) {
  return [el("p", { class: "stamped" }, words.board.wasRead(size, name)), ...[...remarks, ...(low ? [words.board.cellLow] : [])].map((text) => el("p", {}, text))];
}

/// What a time without power has shown. low: that the chip's cell is low was said already.
export function heldTold(retention, low) {
  const kind = { kept: "sound", "firmware-rewrote": "doubt" }[retention.verdict] ?? "fault";
  return [
    el("p", {}, stamp(kind, words.board.held[kind]), " ", retention.text),
    retention.cell_low && !low ? el("p", {}, words.board.cellLow) : "",
    retention.clock_text && retention.verdict !== "clock-lost" ? el("p", {}, retention.clock_text) : "",
    el("p", { class: "do" }, retention.next),
  ];
}

/// How a clock goes against this computer's.
export function clockTold({ shown, reference, ppm, ppm_uncertainty: uncertainty, verdict, edges, seconds }) {
  const showed = el("p", {}, shown ? words.board.showed(shown, reference) : words.board.showsNothing);
  if (ppm === null) return [showed, el("p", {}, words.board.tooFew)];
  const kind = { within: "sound", outside: "fault" }[verdict] ?? "doubt";
  return [showed, el("p", {}, stamp(kind, words.board.rates[verdict]), " ", words.board.rate(ppm, uncertainty, edges, Math.round(seconds))), el("p", { class: "hint" }, words.board.rateHint)];
}

/// A refusal, with what stands in the chip and in which file. job: null before a port was open.
export function troubleTold(refusal, job, actButtons) {
  return el(
    "div",
    { class: "refusal", role: "alert" },
    el("h2", {}, words.refused.heading),
    el("p", {}, refusal.where ? el("b", {}, `${words.choices[refusal.where] ?? refusal.where}: `) : null, refusal.message),
    refusal.remedy ? el("p", { class: "do" }, words.refused.tryThis(refusal.remedy)) : null,
    job?.writing ? el("p", {}, words.board.halfWritten(job.saved)) : null,
    el("div", { class: "buttons" }, actButtons(refusal.acts)),
  );
}
