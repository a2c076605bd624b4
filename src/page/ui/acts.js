// What the core advises, as buttons: the core says what is to be done, this page how it is done here.
import { button } from "./dom.js";
import { words } from "./strings.js";

/// A part of the page that an act leads to, by the id of what takes the focus there: how a dump is
/// written down, and how it is taken away.
const places = { radix: "read-radix", width: "read-width", order: "read-order", addresses: "read-addresses", at: "read-at", size: "read-size", form: "save-form", layout: "layout", disk: "disk", clock: "policy", as: "way", "unsound-anyway": "anyway", "when-lost": "when-lost", code: "show-codes" };

export const goTo = (id, text) => () => {
  const node = document.getElementById(id);
  for (let drawer = node?.closest("details"); drawer; drawer = drawer.parentElement.closest("details")) drawer.open = true;
  node?.scrollIntoView({ block: "center" });
  const controls = node?.matches("input, select, button, textarea") ? [node] : [...(node?.querySelectorAll("input, select, button, textarea") ?? [])];
  controls.find((one) => !one.closest("[hidden]"))?.focus();
  return text;
};

/// How an act is done on this page: {text, run}, or null for what is done elsewhere.
/// doing: takeBack(what), labelOf(field), controlOf(field).
export function onPage({ act, subject, value }, doing) {
  switch (act) {
    case "set-clock":
      return { text: words.acts.setClock, run: goTo("clock") };
    case "set-field":
      return { text: words.acts.setField(doing.labelOf(subject)), run: goTo(doing.controlOf(subject)) };
    case "seal":
      return { text: words.acts.seeChecks, run: goTo("checks") };
    case "see-repairs":
      return { text: words.acts.seeRepairs, run: goTo("findings") };
    case "take-back":
      return { text: `${words.findings.takeBack} (${value})`, run: () => doing.takeBack(value) };
    case "identify":
      return { text: words.acts.chooseLayout, run: goTo("layout") };
    case "cautions":
      return { text: words.acts.cautions, run: goTo("cautions") };
    case "compose":
      return { text: words.acts.compose, run: goTo("compose-layout") };
    case "compare":
    case "compare-kept":
      return { text: words.compare.heading, run: goTo("compare") };
    case "choose":
      return subject in places ? { text: words.acts.choose(words.choices[subject] ?? words.reading.keys[subject] ?? subject), run: goTo(places[subject]) } : null;
    default:
      return null;
  }
}

export const actButtons = (acts, doing) =>
  (acts ?? [])
    .map((act) => onPage(act, doing))
    .filter(Boolean)
    .map(({ text, run }) => button(text, run));
