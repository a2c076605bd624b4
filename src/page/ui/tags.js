// Tags: pointing at a byte, a field or a check, or moving the focus there, marks everything that
// belongs to it. Elements say what they are with data-tie ("byte:16", "field:floppy_a",
// "check:sum-10-2d", "group:0", "bytes:16,17").
import { hex, places, say } from "./dom.js";
import { words } from "./strings.js";

const union = (lists) => [...new Set(lists.flat())];

/// What a tag is tied to: {bytes, fields, checks, line}, line being the same in words.
export function tied(look, tie) {
  const [kind, name] = [tie.slice(0, tie.indexOf(":")), tie.slice(tie.indexOf(":") + 1)];
  const checksAt = (bytes) => union(bytes.map((at) => [...look.plan[at].over, ...look.plan[at].stored]));
  const fieldsAt = (bytes) => union(bytes.map((at) => look.plan[at].fields));
  if (kind === "field") {
    const field = look.fields.find((one) => one.id === name);
    const bytes = field.at;
    const checks = checksAt(bytes);
    return { bytes, fields: [name], checks, line: words.tie.field(field.label, field.bits, checks) };
  }
  if (kind === "byte") {
    const bytes = [Number(name)];
    const cell = look.plan[bytes[0]];
    return {
      bytes,
      fields: cell.fields,
      checks: checksAt(bytes),
      line: words.tie.byte(hex(cell.at), cell.words, cell.over, cell.stored),
    };
  }
  if (kind === "check") {
    const check = look.checks.find((one) => one.id === name);
    const bytes = union([check.covers, check.at]).sort((a, b) => a - b);
    const over = places([...check.covers].sort((a, b) => a - b));
    return {
      bytes,
      fields: fieldsAt(bytes),
      checks: [name],
      line: words.tie.check(name, over, places(check.at)),
    };
  }
  if (kind === "group") {
    const bytes = look.plan.filter((cell) => String(cell.group) === name).map((cell) => cell.at);
    return { bytes, fields: fieldsAt(bytes), checks: [], line: words.tie.group(look.groups[name].name, bytes.length) };
  }
  const bytes = name ? name.split(",").map(Number).filter((at) => at < look.plan.length) : [];
  return { bytes, fields: fieldsAt(bytes), checks: [], line: words.tie.bytes(places(bytes)) };
}

/// Watches the page. look() gives what is on the bench, or null; `line` is where the words go.
export function watchTags(look, line) {
  let shown = null;
  const show = (tie) => {
    if (tie === shown) return;
    shown = tie;
    for (const node of document.querySelectorAll(".tied, .pointed")) node.classList.remove("tied", "pointed");
    const now = look();
    line.classList.toggle("resting", !tie);
    if (!tie || !now) return say(line, words.tie.idle);
    const tag = tied(now, tie);
    const keys = [
      ...tag.bytes.map((at) => `byte:${at}`),
      ...tag.fields.map((id) => `field:${id}`),
      ...tag.checks.map((id) => `check:${id}`),
    ];
    const wanted = new Set(keys);
    for (const node of document.querySelectorAll("[data-tie]")) {
      if (wanted.has(node.dataset.tie)) node.classList.add("tied");
      if (node.dataset.tie === tie) node.classList.add("pointed");
    }
    say(line, tag.line);
  };
  const near = (node) => node?.closest?.("[data-tie]")?.dataset.tie ?? null;
  const rest = () => show(near(document.activeElement));
  document.addEventListener("pointerover", (event) => show(near(event.target) ?? near(document.activeElement)));
  document.addEventListener("pointerleave", rest);
  document.addEventListener("focusin", (event) => show(near(event.target)));
  document.addEventListener("focusout", () => show(null));
  return {
    /// After the page was drawn anew.
    again() {
      shown = null;
      rest();
    },
  };
}
