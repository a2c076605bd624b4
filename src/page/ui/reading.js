// How a dump is written down, for whoever knows better than the reader: the form, and what the
// numbers of a listing are.
import { el, labelled, select } from "./dom.js";
import { words } from "./strings.js";

const anything = ["", words.reading.any];
const choiceOf = (key, values) => select([anything, ...values.map((value) => [value, words.reading.values[key][value]])]);

/// The control that answers each question of the core's reader.
const makeControls = (offer) => ({
  form: select([anything, ...offer.forms.map((form) => [form, words.forms[form] ?? form])]),
  radix: choiceOf("radix", ["16", "10", "8", "2"]),
  width: choiceOf("width", ["1", "2", "4", "8"]),
  order: choiceOf("order", ["low", "high"]),
  addresses: choiceOf("addresses", ["hex", "decimal", "octal", "none"]),
  at: el("input", { type: "text", autocomplete: "off", spellcheck: "false", size: "8", placeholder: words.reading.atPlace }),
  size: choiceOf("size", ["64", "128"]),
});

/// {node, how() -> what was said, by the core's keys}. prefix: of the controls' ids.
export function makeReading(offer, prefix) {
  const controls = makeControls(offer);
  const lines = Object.entries(controls).map(([key, control]) => {
    control.id = `${prefix}-${key}`;
    return labelled(words.reading.keys[key], control);
  });
  return {
    node: el("details", { class: "reading" }, el("summary", {}, words.reading.heading), el("p", { class: "hint" }, words.reading.hint), lines),
    how: () => Object.fromEntries(Object.entries(controls).map(([key, control]) => [key, control.value.trim()])),
  };
}
