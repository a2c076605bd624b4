// A second dump beside the card: what differs, and whether it matters.
import { button, el, fill, hex } from "./dom.js";
import { fileButton, takesDrops } from "./opening.js";
import { makeReading } from "./reading.js";
import { words } from "./strings.js";

const shown = (byte, hidden) => (hidden ? words.compare.hidden : byte === null ? words.compare.unknown : hex(byte));

/// actions: readFile(file, how), readText(text, how), close(), sameChip(). how: of reading.js.
export function makeComparing(offer, actions) {
  const reading = makeReading(offer, "second");
  const readFile = (file) => actions.readFile(file, reading.how());
  const text = el("textarea", { rows: "2", spellcheck: "false", autocomplete: "off", class: "bytes", id: "second", "aria-label": words.compare.paste });
  const result = el("div", { class: "result", "aria-live": "polite" });
  const node = el(
    "div",
    { class: "drop" },
    el("p", { class: "hint" }, words.compare.hint),
    el("div", { class: "buttons" }, fileButton(words.compare.choose, readFile, "second-file")),
    el("div", { class: "line" }, el("label", { for: "second" }, words.compare.paste), text),
    el("div", { class: "buttons" }, button(words.compare.run, () => actions.readText(text.value, reading.how()))),
    reading.node,
    result,
  );
  takesDrops(node, readFile);
  return {
    node,
    /// comparison: the core's answer, or null.
    update(comparison, look, record) {
      if (!comparison) return fill(result);
      fill(
        result,
        comparedTold(comparison, look, record.second?.name),
        el("div", { class: "buttons" }, record.read ? button(words.compare.sameChip, actions.sameChip) : null, button(words.compare.close, actions.close)),
      );
    },
  };
}

/// What a comparison says, and where. name: of what was held beside the card; there: what it is.
export function comparedTold(comparison, look, name = "", there = words.compare.there) {
  const matter = comparison.differences.filter((one) => one.ignored === null).length;
  const told = el("p", {}, el("span", { class: `stamp ${matter ? "fault" : "sound"}` }, matter ? words.compare.different(matter) : words.compare.equal), " ", name);
  return comparison.differences.length ? [told, table(comparison, look, there)] : [told];
}

function table(comparison, look, there) {
  const { at, here, fields, matters } = words.compare;
  const head = [at, here, there, fields, matters].map((text) => el("th", { scope: "col" }, text));
  const rows = comparison.differences.map((one) => {
    const hidden = look.plan[one.at].concealed;
    return el(
      "tr",
      { data: { tie: `byte:${one.at}` } },
      el("th", { scope: "row", class: "bytes" }, hex(one.at)),
      el("td", { class: "bytes" }, shown(one.wanted, hidden)),
      el("td", { class: "bytes" }, shown(one.found, hidden)),
      el("td", {}, one.fields.join(", ")),
      el("td", {}, one.ignored ?? words.compare.yes),
    );
  });
  return el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": words.compare.heading }, el("table", {}, el("thead", {}, el("tr", {}, head)), el("tbody", {}, rows)));
}
