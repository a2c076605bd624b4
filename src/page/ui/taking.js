// What is taken away: the image in any form, the bench sheet, and everything that carries the image
// into the old machine.
import { button, el, fill, labelled, select } from "./dom.js";
import { fromHex } from "./core.js";
import { words } from "./strings.js";

export const disks = ["360K", "720K", "1.2M", "1.44M"].map((disk) => [disk, disk]);
export const wayOptions = (ways) => ways.map(({ way }) => [way, words.take.ways[way] ?? way]);

/// Filled by what the core offers.
export const formEndings = {};
export const wayEndings = { "boot-floppy": "img", "dos-program": "com", "debugger-script": "scr", "basic-listing": "bas", "keyboard-program": "txt" };

/// A name for a file to save: the dump's own without its ending, and without anything odd.
export function fileName(name, ending) {
  const base = name.replace(/\.[A-Za-z0-9]{1,5}$/, "").replace(/[^A-Za-z0-9_-]+/g, "-").replace(/^-+|-+$/g, "");
  return `${base.slice(0, 60) || "image"}.${ending}`;
}

/// The same, and never that of a file that was read: it would take its place, or stand beside it as
/// its double.
export function nameToSave(record, ending) {
  const name = fileName(record.name, ending);
  const taken = [record.name, record.second?.name].some((one) => one?.toLowerCase() === name.toLowerCase());
  return taken ? fileName(`${name.slice(0, -ending.length - 1)}-mended.x`, ending) : name;
}

/// Hands a file to the browser to save.
export function save(content, name, type = "application/octet-stream") {
  const bytes = typeof content === "string" ? fromHex(content) : content;
  const address = URL.createObjectURL(new Blob([bytes], { type }));
  const link = el("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10000);
}

/// What to do with a carrier, in order, and what to beware of.
export function guidance(made) {
  const list = (tag, heading, entries) =>
    entries.length ? [el("h4", {}, heading), el(tag, {}, entries.map((entry) => el("li", {}, entry)))] : [];
  return [
    el("p", { class: "stamped" }, words.take.saved(made.name)),
    made.code === undefined ? null : el("p", {}, words.take.code(made.code.toString(16).toUpperCase().padStart(4, "0"), made.leftAlone)),
    ...list("ol", words.take.steps, made.steps),
    ...list("ul", words.take.cautions, made.cautions),
    ...(made.sheet ? [el("h4", {}, words.take.typing), el("pre", { class: "bytes", tabindex: "0" }, made.sheet)] : []),
  ];
}

/// actions: saveImage(form, fill, anyway), seal(), saveSheet(), deliver(order) -> a delivery.
export function makeTaking(offer, actions) {
  const form = select(offer.forms.map((one) => [one, words.forms[one] ?? one]), { id: "save-form" });
  const fillByte = el("input", { id: "save-fill", type: "text", maxlength: "2", size: "3", class: "bytes", spellcheck: "false", autocomplete: "off" });
  const fillLine = labelled(words.take.fill, fillByte, words.take.fillHint);
  const anyway = el("input", { type: "checkbox", id: "anyway" });
  const anywayLine = el("p", { class: "line tick" }, anyway, el("label", { for: "anyway" }, words.take.anyway));
  const unknowns = el("ul", { class: "unknowns" });
  const saved = el("div", { class: "result", "aria-live": "polite" });
  const way = select(wayOptions(offer.ways), { id: "way" });
  const disk = select(disks, { id: "disk" });
  disk.value = "1.44M";
  const diskLine = labelled(words.take.disk, disk);
  const clock = select(Object.entries(words.take.policies), { id: "policy" });
  const lost = el("input", { type: "checkbox", id: "when-lost" });
  const lostLine = el("p", { class: "line tick" }, lost, el("label", { for: "when-lost" }, words.take.whenLost));
  const codes = el("input", { type: "checkbox", id: "show-codes" });
  const codesLine = el("p", { class: "line tick" }, codes, el("label", { for: "show-codes" }, words.take.codes));
  const made = el("div", { class: "result", "aria-live": "polite" });
  const fit = () => {
    diskLine.hidden = way.value !== "boot-floppy";
    lostLine.hidden = !["boot-floppy", "dos-program"].includes(way.value);
    if (lostLine.hidden) lost.checked = false;
    codesLine.hidden = lostLine.hidden || lost.checked;
    if (codesLine.hidden) codes.checked = false;
  };
  way.addEventListener("change", fit);
  lost.addEventListener("change", fit);
  fit();

  const saveImage = () => {
    const name = actions.saveImage(form.value, fillByte.value.trim(), anyway.checked);
    if (name) fill(saved, el("p", { class: "stamped" }, words.take.saved(name)));
  };
  const sealAndSave = button(words.take.sealAndSave, () => {
    actions.seal();
    saveImage();
  });
  const cell = el("input", { type: "checkbox", id: "sheet-cell" });
  const sources = el("input", { type: "checkbox", id: "sheet-sources" });
  const tick = (box, label) => el("p", { class: "line tick" }, box, el("label", { for: box.id }, label));
  const saveSheet = () => {
    const name = actions.saveSheet({ cell: cell.checked, sources: sources.checked });
    if (name) fill(saved, el("p", { class: "stamped" }, words.take.saved(name)));
  };
  const deliver = () => {
    const order = { way: way.value, disk: disk.value, clock: clock.value, whenLost: lost.checked, codes: codes.checked, anyway: anyway.checked };
    const delivery = actions.deliver(order);
    if (delivery) fill(made, guidance(delivery));
  };

  return {
    node: el(
      "div",
      { class: "taking" },
      anywayLine,
      unknowns,
      el("section", {}, el("h3", {}, words.take.image), el("p", { class: "hint" }, words.take.imageHint), labelled(words.take.form, form), fillLine, el("div", { class: "buttons" }, button(words.take.save, saveImage, "strong"), sealAndSave)),
      el("section", {}, el("h3", {}, words.take.sheet), el("p", { class: "hint" }, words.take.sheetHint), tick(cell, words.take.sheetCell), tick(sources, words.take.sheetSources), el("div", { class: "buttons" }, button(words.take.saveSheet, saveSheet)), saved),
      el("section", {}, el("h3", {}, words.take.machine), el("p", { class: "hint" }, words.take.machineHint), labelled(words.take.way, way), diskLine, labelled(words.take.clock, clock), lostLine, codesLine, el("div", { class: "buttons" }, button(words.take.make, deliver)), made),
    ),
    update(look, unsealed) {
      sealAndSave.hidden = !unsealed;
      anywayLine.hidden = look.ready;
      if (look.ready) anyway.checked = false;
      fill(unknowns, ...look.layout.whenWriting.map((one) => el("li", {}, one)));
      unknowns.hidden = !look.layout.whenWriting.length;
      fillLine.hidden = look.plan.every((cell) => cell.known);
    },
    /// Another dump is on the bench: what was said about the last one goes.
    clear() {
      fill(saved);
      fill(made);
    },
  };
}
