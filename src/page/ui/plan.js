// The memory plan: one cell a byte, arrow keys between them, two hex digits to change one; below it
// the key and the slip of the byte that is looked at.
import { el, fill, hex, say } from "./dom.js";
import { words } from "./strings.js";

const pigments = 8;

/// What the cells of one owner have in common: a class for the tint and a letter.
function mark(cell, look) {
  if (cell.owner === "group")
    return { tint: `p-${(cell.group % pigments) + 1}`, letter: look.groups[cell.group].letter };
  const letters = { clock: "t", alarm: "l", register: "r", check: "=", nobody: "" };
  const tints = { clock: "p-clock", alarm: "p-clock", register: "p-register", check: "p-check", nobody: "p-nobody" };
  return { tint: tints[cell.owner], letter: letters[cell.owner] };
}

const ownerKey = (cell) => (cell ? `${cell.owner}/${cell.group}` : "");

function cellWords(cell, state) {
  const value = cell.concealed ? words.plan.hidden : cell.known ? cell.text : words.plan.unknown;
  const parts = cell.known && !cell.concealed ? [cell.words] : [value, cell.words];
  if (cell.over.length) parts.push(words.plan.coveredBy(cell.over));
  if (cell.stored.length) parts.push(words.plan.storedBy(cell.stored));
  if (cell.blamed) parts.push(words.plan.blamed);
  if (state.changed.has(cell.at)) parts.push(words.plan.changed);
  if (state.differs.has(cell.at)) parts.push(words.plan.differs);
  return parts.join(". ");
}

/// setByte(at, digits) changes one. `tieLine` stands below the cells, which must not move while they
/// are pointed at.
export function makePlan(setByte, tieLine) {
  const grid = el("div", { class: "plan", role: "grid", "aria-label": words.plan.heading });
  const key = el("ul", { class: "key", "aria-label": words.plan.key });
  const slip = makeSlip(setByte);
  let cells = [];
  let at = 0;
  let pending = "";
  let last = null;

  const draw = (cell, data, state) => {
    const { tint, letter } = mark(data, last.look);
    const before = last.look.plan[data.at - 1];
    const after = last.look.plan[data.at + 1];
    const starts = ownerKey(before) !== ownerKey(data);
    const ends = ownerKey(after) !== ownerKey(data);
    const flags = {
      starts,
      ends,
      unknown: !data.known,
      blamed: data.blamed,
      changed: state.changed.has(data.at),
      differs: state.differs.has(data.at),
    };
    const kept = ["tied", "pointed"].filter((name) => cell.node.classList.contains(name));
    cell.node.className = ["cell", tint, ...Object.keys(flags).filter((name) => flags[name]), ...kept].join(" ");
    say(cell.words, `. ${cellWords(data, state)}`);
    say(cell.value, data.text);
    say(cell.letter, starts ? letter : "");
    const lines = last.look.checks.map((check, place) => {
      const kind = check.at.includes(data.at) ? "square" : check.covers.includes(data.at) ? "line" : "";
      return el("i", { class: `${kind} ${check.ok ? "" : "broken"}`.trim(), style: null, data: { place } });
    });
    fill(cell.lines, lines.slice(0, 4));
  };

  const select = (to) => {
    if (!cells[to]) return;
    cells[at].node.tabIndex = -1;
    at = to;
    cells[at].node.tabIndex = 0;
    pending = "";
    slip.update(last.look, at);
  };

  const columns = () => Math.max(1, getComputedStyle(grid.firstElementChild).gridTemplateColumns.split(" ").length);

  const moves = (event) => {
    const steps = { ArrowLeft: -1, ArrowRight: 1, ArrowUp: -columns(), ArrowDown: columns() };
    if (event.key in steps) return at + steps[event.key];
    if (event.key === "Home") return event.ctrlKey ? 0 : at - (at % columns());
    if (event.key === "End") return event.ctrlKey ? cells.length - 1 : at - (at % columns()) + columns() - 1;
    return null;
  };

  const commit = () => {
    const digits = pending;
    pending = "";
    setByte(at, digits);
  };

  grid.addEventListener("keydown", (event) => {
    if (event.altKey || event.metaKey) return;
    const to = moves(event);
    if (to !== null) {
      event.preventDefault();
      say(cells[at].value, last.look.plan[at].text);
      select(Math.min(cells.length - 1, Math.max(0, to)));
      cells[at].node.focus();
      return;
    }
    if (event.ctrlKey) return;
    if (event.key === "Escape" || event.key === "Backspace") {
      pending = "";
      say(cells[at].value, last.look.plan[at].text);
    } else if (event.key === "Enter" && pending) {
      commit();
    } else if (/^[0-9a-fA-F]$/.test(event.key) && !last.look.plan[at].concealed) {
      pending += event.key.toUpperCase();
      say(cells[at].value, `${pending}_`.slice(0, 2));
      if (pending.length < 2) return;
      commit();
      if (at + 1 < cells.length) {
        select(at + 1);
        cells[at].node.focus();
      }
    }
  });
  grid.addEventListener("focusin", (event) => {
    const to = cells.findIndex((cell) => cell.node === event.target);
    if (to >= 0 && to !== at) select(to);
  });

  const build = (size) => {
    cells = Array.from({ length: size }, (_, place) => {
      const value = el("b");
      const letter = el("span", { class: "letter", "aria-hidden": "true" });
      const words = el("span", { class: "unseen" });
      const lines = el("span", { class: "lines" });
      const node = el(
        "div",
        { class: "cell", role: "gridcell", tabindex: place === 0 ? "0" : "-1", data: { tie: `byte:${place}` } },
        el("span", { class: "address" }, hex(place)),
        letter,
        value,
        lines,
        words,
      );
      return { node, value, letter, lines, words };
    });
    at = 0;
    fill(grid, el("div", { role: "row", class: "cells" }, cells.map((cell) => cell.node)));
  };

  return {
    node: el("div", {}, el("p", { class: "hint" }, words.plan.hint), grid, tieLine, slip.node, key),
    update(look, state) {
      last = { look };
      if (cells.length !== look.plan.length) build(look.plan.length);
      look.plan.forEach((data, place) => draw(cells[place], data, state));
      drawKey(key, look);
      slip.update(look, at);
    },
  };
}

function drawKey(key, look) {
  const present = new Set(look.plan.map((cell) => cell.owner));
  const entry = (tint, letter, text, tie) =>
    el("li", { data: tie ? { tie } : {} }, el("span", { class: `swatch ${tint}`, "aria-hidden": "true" }, letter), text);
  const entries = [];
  if (present.has("clock")) entries.push(entry("p-clock", "t", words.plan.clock));
  if (present.has("alarm")) entries.push(entry("p-clock", "l", words.plan.alarm));
  if (present.has("register")) entries.push(entry("p-register", "r", words.plan.register));
  look.groups.forEach((group, place) =>
    entries.push(entry(`p-${(place % pigments) + 1}`, group.letter, group.name, `group:${place}`)),
  );
  if (present.has("check")) entries.push(entry("p-check", "=", words.plan.check));
  if (present.has("nobody")) entries.push(entry("p-nobody", "", words.plan.nobody));
  if (look.plan.some((cell) => cell.blamed)) entries.push(entry("blamed", "", words.plan.fault));
  if (look.plan.some((cell) => !cell.known)) entries.push(entry("unknown", "", words.plan.unknownKey));
  entries.push(entry("changed", "", words.plan.changedKey));
  look.checks.forEach((check, place) =>
    entries.push(
      el(
        "li",
        { data: { tie: `check:${check.id}` } },
        el("span", { class: "swatch lines", "aria-hidden": "true" }, el("i", { class: "line", data: { place } }), el("i", { class: "square", data: { place } })),
        words.plan.checkLine(check.id),
      ),
    ),
  );
  fill(key, entries);
}

/// The byte that is looked at, by its hex digits and by its bits.
function makeSlip(setByte) {
  const heading = el("h3");
  const owner = el("p", { class: "owner" });
  const digits = el("input", { type: "text", maxlength: "2", size: "3", spellcheck: "false", autocomplete: "off", class: "bytes", id: "slip-hex" });
  const bits = Array.from({ length: 8 }, (_, place) =>
    el("input", { type: "checkbox", "aria-label": words.plan.bit(7 - place), on: { change: () => flip() } }),
  );
  let at = 0;
  const flip = () => {
    const value = bits.reduce((sum, box, place) => sum + (box.checked ? 1 << (7 - place) : 0), 0);
    setByte(at, hex(value));
  };
  digits.addEventListener("change", () => setByte(at, digits.value.trim()));
  const entry = el(
    "div",
    { class: "entry" },
    el("label", { for: "slip-hex" }, words.plan.hex),
    digits,
    el("fieldset", { class: "bits" }, el("legend", {}, words.plan.bits), bits.map((box, place) => el("span", {}, box, el("span", { "aria-hidden": "true" }, String(7 - place))))),
  );
  const hidden = el("p", {}, words.plan.concealed);
  return {
    node: el("div", { class: "slip" }, heading, owner, entry, hidden),
    update(look, place) {
      at = Math.min(place, look.plan.length - 1);
      const cell = look.plan[at];
      say(heading, words.plan.byte(hex(at)));
      say(owner, cell.words);
      entry.hidden = cell.concealed;
      hidden.hidden = !cell.concealed;
      digits.value = cell.known && !cell.concealed ? cell.text : "";
      const value = cell.known && !cell.concealed ? parseInt(cell.text, 16) : 0;
      bits.forEach((box, bit) => {
        box.checked = (value >> (7 - bit)) % 2 === 1;
        box.indeterminate = !cell.known;
      });
    },
  };
}
