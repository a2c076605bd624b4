// The head of the card: whose bytes these are, and the layout.
import { el, fill, say } from "./dom.js";
import { words } from "./strings.js";

/// actions: chooseLayout(id).
export function makeHeading(actions) {
  const name = el("h2", { id: "name" });
  const from = el("dd");
  const note = el("dd");
  const noteTerm = el("dt", {}, words.head.note);
  const title = el("p", { class: "hint" });
  const why = el("p", { class: "hint" });
  const advice = el("p", { class: "advice" });
  const layout = el("select", { id: "layout", on: { change: () => actions.chooseLayout(layout.value) } });
  let listed = "";

  const list = (record, layouts, chosen) => {
    const scores = new Map(record.identification?.candidates.map((one) => [one.layout, one.score]) ?? []);
    const fitting = layouts.filter((one) => one.size <= record.size);
    // One with several traits is not among those that are offered.
    if (!fitting.some((one) => one.id === chosen)) fitting.push({ id: chosen });
    fitting.sort((a, b) => (scores.get(b.id) ?? -1) - (scores.get(a.id) ?? -1));
    const text = fitting.map((one) => one.id).join() + record.name;
    if (text === listed) return;
    listed = text;
    fill(layout, fitting.map((one) => el("option", { value: one.id }, one.id)));
  };

  const advised = (record, look) => {
    const found = record.identification;
    if (!found || record.why || look.misread) return "";
    if (!found.candidates.length) return words.head.noCandidate;
    if (found.layout !== look.layout.id) return [words.head.unsure, ...found.settle].join(" ");
    return "";
  };

  return {
    node: el(
      "div",
      { class: "head" },
      el("div", {}, el("div", { class: "object" }, el("p", { class: "caption" }, words.head.object), name), el("dl", { class: "facts" }, el("dt", {}, words.open.form), from, noteTerm, note)),
      el("div", { class: "line layout" }, el("label", { for: "layout" }, words.head.layout), layout, title, why, advice),
    ),
    update(record, look, layouts) {
      say(name, record.name);
      say(from, record.form ? words.head.readFrom(words.forms[record.form], record.size) : words.head.composed(record.size));
      note.hidden = noteTerm.hidden = !record.note;
      say(note, record.note);
      list(record, layouts, look.layout.id);
      layout.value = look.layout.id;
      say(title, look.layout.title);
      const candidate = record.identification?.candidates.find((one) => one.layout === look.layout.id);
      say(why, record.why || (candidate ? `${words.head.evidence}: ${candidate.why}` : ""));
      say(advice, advised(record, look));
    },
  };
}
