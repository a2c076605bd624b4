// What stands at the beginning: a dump from a file, by dropping, pasting or typing; an empty card; a
// layout file; and the programs that read a chip.
import { makeCamera } from "./camera.js";
import { button, el, fill, labelled, say, select } from "./dom.js";
import { makeLookup } from "./lookup.js";
import { makeReading } from "./reading.js";
import { disks, guidance, wayOptions } from "./taking.js";
import { words } from "./strings.js";

/// A button that opens the browser's own file dialogue, for the keyboard as well.
export function fileButton(text, take, id) {
  const input = el("input", { type: "file", hidden: true, id, tabindex: "-1", on: { change: () => { if (input.files[0]) take(input.files[0]); input.value = ""; } } });
  return el("span", {}, input, button(text, () => input.click()));
}

/// Runs `take` for files dropped on a node, and lights it meanwhile.
export function takesDrops(node, take) {
  const over = (event) => {
    event.preventDefault();
    event.stopPropagation();
    node.classList.add("over");
  };
  node.addEventListener("dragenter", over);
  node.addEventListener("dragover", over);
  node.addEventListener("dragleave", (event) => {
    if (!node.contains(event.relatedTarget)) node.classList.remove("over");
  });
  node.addEventListener("drop", (event) => {
    event.preventDefault();
    event.stopPropagation();
    node.classList.remove("over");
    const file = event.dataTransfer.files[0];
    if (file) take(file);
  });
}

/// actions: readFile(file, how), readText(text, how), compose(layout), readLayout(file),
/// capture(way, disk, size) -> a delivery, explain(codes), drives(disk), complain(refusal). how: of reading.js.
export function makeOpening(offer, actions) {
  const reading = makeReading(offer, "read");
  const text = el("textarea", { rows: "4", spellcheck: "false", autocomplete: "off", class: "bytes", id: "typed" });
  const layout = select([], { id: "compose-layout" });
  const drop = el(
    "div",
    { class: "drop" },
    el("p", {}, words.open.drop, " "),
    fileButton(words.open.choose, (file) => actions.readFile(file, reading.how()), "dump-file"),
  );
  takesDrops(drop, (file) => actions.readFile(file, reading.how()));
  const read = () => actions.readText(text.value, reading.how());
  text.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) read();
  });

  const listLayouts = (layouts) => {
    const chosen = layout.value || "at";
    fill(layout, layouts.map((one) => el("option", { value: one.id }, `${one.id}: ${one.title}`)));
    layout.value = chosen;
  };
  listLayouts(offer.layouts);

  const summary = el("summary", {}, words.open.another);
  const body = el(
    "div",
    { class: "opening" },
    el(
      "section",
      { class: "read" },
      drop,
      el(
        "div",
        {},
        labelled(words.open.paste, text, words.open.pasteHint),
        reading.node,
        el("div", { class: "buttons" }, button(words.open.read, read, "strong")),
        makeCamera(text, read, actions.complain),
      ),
    ),
    el(
      "section",
      {},
      el("h3", {}, words.open.composeHeading),
      el("p", { class: "hint" }, words.open.composeHint),
      labelled(words.open.layout, layout),
      el("div", { class: "buttons" }, button(words.open.compose, () => actions.compose(layout.value)), fileButton(words.open.layoutFile, actions.readLayout, "layout-file")),
    ),
    makeCapture(offer, actions.capture),
    makeLookup(actions),
  );
  const node = el("details", { class: "card start", open: true }, summary, body);
  return {
    node,
    listLayouts,
    /// The first card on an empty bench, or a drawer above the one that is there.
    settle(somethingThere) {
      say(summary, somethingThere ? words.open.another : words.open.heading);
      node.open = !somethingThere;
    },
  };
}

function makeCapture(offer, capture) {
  const way = select(wayOptions(offer.ways.filter((one) => one.captures)), { id: "capture-way" });
  const disk = select(disks, { id: "capture-disk" });
  disk.value = "1.44M";
  const diskLine = labelled(words.take.disk, disk);
  const result = el("div", { class: "result", "aria-live": "polite" });
  const fit = () => (diskLine.hidden = way.value !== "boot-floppy");
  way.addEventListener("change", fit);
  fit();
  const make = () => {
    const made = capture(way.value, disk.value);
    if (made) fill(result, guidance(made));
  };
  return el(
    "section",
    {},
    el("h3", {}, words.open.captureHeading),
    el("p", { class: "hint" }, words.open.captureHint),
    labelled(words.take.way, way),
    diskLine,
    el("div", { class: "buttons" }, button(words.open.capture, make)),
    result,
  );
}
