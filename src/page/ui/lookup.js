// Questions that need no dump: the numbers on a screen, and the type of a fixed disk.
import { button, el, fill, labelled } from "./dom.js";
import { words } from "./strings.js";

/// A line to type in, a button, and the answer below. answer(text) gives nodes, or null when the core
/// refused.
function makeQuestion({ id, heading, hint, label, example, run }, answer) {
  const input = el("input", { id, type: "text", autocomplete: "off", spellcheck: "false", placeholder: example, class: "bytes" });
  const result = el("div", { class: "result", "aria-live": "polite" });
  const go = () => {
    const nodes = answer(input.value);
    if (nodes) fill(result, nodes);
  };
  input.addEventListener("keydown", (event) => event.key === "Enter" && go());
  return el("section", {}, el("h3", {}, heading), el("p", { class: "hint" }, hint), labelled(label, input), el("div", { class: "buttons" }, button(run, go)), result);
}

function codeItem(one) {
  if (!one.known) return el("li", {}, el("b", { class: "code" }, one.code), " ", words.lookup.unknownCode);
  return el(
    "li",
    {},
    el("p", {}, el("b", { class: "code" }, one.code), " ", one.means, one.look_at ? ` ${one.look_at}` : ""),
    one.causes.length ? el("ul", { class: "causes" }, one.causes.map((cause) => el("li", {}, cause.text, cause.seen.length ? el("b", {}, ` (${words.lookup.seen})`) : null))) : null,
    one.do ? el("p", { class: "do" }, one.do) : null,
  );
}

function driveTable(answer) {
  if (!answer.matches.length) return [el("p", {}, words.lookup.noType)];
  const most = 12;
  const rows = answer.matches.slice(0, most).map((one) =>
    el(
      "tr",
      {},
      el("th", { scope: "row" }, String(one.type)),
      [one.cylinders, one.heads, one.sectors].map((number) => el("td", {}, String(number))),
      el("td", {}, words.lookup.megabytes(one.capacity)),
      el("td", {}, one.fit === "exact" ? words.lookup.exact : words.lookup.lost(one.lost)),
    ),
  );
  return [
    el("p", { class: "hint" }, words.lookup.table(answer.table)),
    el("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": words.lookup.drives.heading }, el("table", {}, el("thead", {}, el("tr", {}, words.lookup.columns.map((text) => el("th", { scope: "col" }, text)))), el("tbody", {}, rows))),
    answer.matches.some((one) => one.unsure) ? el("p", { class: "hint" }, words.lookup.unsure) : null,
  ];
}

/// actions: explain(codes), drives(disk): the core's answer, or null.
export function makeLookup(actions) {
  return [
    makeQuestion({ id: "codes", ...words.lookup.codes }, (text) => {
      const answer = actions.explain(text);
      return answer && [el("ul", { class: "codes" }, answer.codes.map(codeItem)), answer.order.map((line) => el("p", {}, line))];
    }),
    makeQuestion({ id: "disk-asked", ...words.lookup.drives }, (text) => {
      const answer = actions.drives(text);
      return answer && driveTable(answer);
    }),
  ];
}
