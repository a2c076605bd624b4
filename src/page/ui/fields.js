// The fields by group, each with the control that fits it. Controls are made once for a layout and
// then only brought up to date, so that neither the focus nor a click is lost by an edit.
import { el, fill, say } from "./dom.js";
import { words } from "./strings.js";

/// setField(id, entry) returns null, or what is wrong in words.
export function makeFields(setField) {
  const node = el("div", { class: "groups" });
  let made = { layout: null, rows: new Map() };

  const build = (look) => {
    const drawers = [];
    const rows = new Map(look.fields.map((field) => [field.id, makeRow(field, setField)]));
    const sections = inOrder(look.groups).map(([group, place]) => {
      const inside = look.fields.filter((field) => field.group === group.name);
      const own = makeRows(inside, rows);
      drawers.push(own);
      const id = `group-${place}`;
      return el(
        "section",
        { class: "group", "aria-labelledby": id },
        el(
          "h3",
          { id, data: { tie: `group:${place}` } },
          el("span", { class: `swatch p-${(place % 8) + 1}`, "aria-hidden": "true" }, group.letter),
          (group.name || words.fields.other).replace(/^./u, (letter) => letter.toUpperCase()),
        ),
        own.node,
      );
    });
    fill(node, sections);
    return { layout: look.layout.id, count: look.fields.length, rows, drawers };
  };

  return {
    node,
    update(look) {
      if (made.layout !== look.layout.id || made.count !== look.fields.length) made = build(look);
      for (const field of look.fields) made.rows.get(field.id).update(field);
      for (const drawer of made.drawers) drawer.update(look);
    },
    /// The next update makes all controls anew: after a layout file was read.
    forget() {
      made = { layout: null, rows: new Map() };
    },
  };
}

/// What a person sets comes first: [group, its place in the plan].
const inOrder = (groups) => groups.map((group, place) => [group, place]).sort(([one], [other]) => one.order - other.order);

/// The rows of a group. Three switches or more that are all off take one line, until one is on.
function makeRows(fields, rows) {
  const flags = fields.filter((field) => field.control.kind === "switch");
  const others = fields.filter((field) => field.control.kind !== "switch");
  const row = (field) => rows.get(field.id).node;
  const areOff = (list) => list.every((field) => field.entry === "no");
  if (flags.length < 3 || !areOff(flags)) return { node: el("div", { class: "rows" }, fields.map(row)), update: () => {} };
  const summary = el("summary", {});
  const drawer = el("details", { class: "off" }, summary, el("div", { class: "rows" }, flags.map(row)));
  const ids = new Set(flags.map((field) => field.id));
  return {
    node: el("div", {}, el("div", { class: "rows" }, others.map(row)), drawer),
    update(look) {
      const now = look.fields.filter((field) => ids.has(field.id));
      const off = areOff(now);
      say(summary, off ? words.fields.allOff(now.map((field) => field.label)) : words.fields.someOn);
      if (!off) drawer.open = true;
    },
  };
}

const makers = { choice: makeChoice, switch: makeSwitch, number: makeNumber, bytes: makeText, text: makeText, none: makeShown };

function makeRow(field, setField) {
  const id = `field-${field.id}`;
  const problem = el("p", { class: "problem", id: `${id}-problem` });
  const place = el("small", { id: `${id}-place`, class: "place" });
  let wrong = null;
  let now = field;
  const commit = (entry) => {
    if (entry === now.entry) return;
    wrong = setField(field.id, entry);
    if (wrong) update(now);
  };
  const part = makers[field.control.kind](field, id, commit);
  part.input?.setAttribute("aria-describedby", `${id}-place ${id}-problem`);
  const label = part.input ? el("label", { for: id }, field.label) : el("span", { class: "label" }, field.label);
  const about = [field.note, field.control.legal && words.fields.legal(field.control.legal), field.follows, words.fields.source(field.source), field.id].filter(Boolean).join(" · ");
  const remark = el("p", { class: "about", id: `${id}-about`, hidden: true }, about);
  const more = el("button", { type: "button", class: "more", "aria-label": `${field.label}: ${words.fields.more}`, "aria-expanded": "false", "aria-controls": remark.id, on: { click: toggle } }, "?");
  function toggle() {
    remark.hidden = !remark.hidden;
    more.setAttribute("aria-expanded", String(!remark.hidden));
  }
  const node = el(
    "div",
    { class: part.long ? "field long" : "field", data: { tie: `field:${field.id}`, field: field.id } },
    label,
    el("div", { class: "control" }, part.node),
    more,
    place,
    problem,
    remark,
  );
  function update(next) {
    now = next;
    if (!wrong) part.update(next);
    const odd = next.known && next.inUse && !next.legal;
    say(problem, wrong ?? (odd ? next.problem : ""));
    part.input?.setAttribute("aria-invalid", String(Boolean(wrong) || odd));
    say(place, next.inUse ? next.bits : `${next.bits} · ${words.fields.notInUse}`);
    node.classList.toggle("idle", !next.inUse);
    node.classList.toggle("odd", Boolean(wrong) || odd);
  }
  return {
    node,
    update(next) {
      wrong = null;
      update(next);
    },
  };
}

function makeChoice(field, id, commit) {
  const none = el("option", { value: "", hidden: true }, words.fields.choose);
  const input = el("select", { id, on: { change: () => commit(input.value) } }, none, field.control.choices.map((name) => el("option", { value: name }, name)));
  return {
    input,
    node: input,
    update(next) {
      say(none, next.known ? next.text || words.fields.choose : words.fields.unknown);
      input.value = next.entry;
      if (next.entry === "") none.selected = true;
    },
  };
}

function makeSwitch(field, id, commit) {
  const state = el("span", { class: "state", "aria-hidden": "true" });
  const input = el("input", { id, type: "checkbox", role: "switch", on: { change: () => commit(input.checked ? "yes" : "no") } });
  return {
    input,
    node: el("span", { class: "switch" }, input, state),
    update(next) {
      input.checked = next.entry === "yes";
      input.indeterminate = !next.known;
      say(state, next.known ? (input.checked ? words.fields.on : words.fields.off) : words.fields.unknown);
    },
  };
}

function makeNumber(field, id, commit) {
  const { least, most, step, unit } = field.control;
  const input = el("input", { id, type: "number", inputmode: "numeric", min: String(least), max: String(most), step: String(step), on: { change: () => commit(input.value.trim()) } });
  return {
    input,
    node: el("span", { class: "number" }, input, unit ? el("span", { class: "unit" }, unit) : null),
    update(next) {
      input.value = next.entry;
      input.placeholder = next.known ? next.text : words.fields.unknown;
    },
  };
}

function makeText(field, id, commit) {
  const long = field.control.digits ?? field.control.letters;
  const input = el("input", { id, type: "text", spellcheck: "false", autocomplete: "off", class: field.control.kind === "bytes" ? "bytes" : "", size: String(Math.min(32, long + 2)), on: { change: () => commit(input.value) } });
  return {
    input,
    node: input,
    long: long > 12,
    update(next) {
      input.value = next.entry;
      input.placeholder = next.known ? "" : words.fields.unknown;
    },
  };
}

function makeShown() {
  const node = el("output", { class: "shown" });
  return { input: null, node, update: (next) => say(node, next.text) };
}
