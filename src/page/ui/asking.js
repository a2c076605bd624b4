// A question that a person must answer before anything is replaced.
import { button, el, fill } from "./dom.js";

/// {node, ask(text, answers), close()}; answers: [[text, run], ...], the first of them the harmless one.
/// id: of its heading.
export function makeAsking(id = "question") {
  const node = el("div", { class: "question", role: "group", "aria-live": "polite", hidden: true });
  let before = null;
  const close = () => {
    node.hidden = true;
    fill(node);
    if (before?.isConnected) before.focus();
  };
  return {
    node,
    ask(text, answers) {
      before = document.activeElement;
      const heading = el("h2", { id }, text);
      node.setAttribute("aria-labelledby", heading.id);
      const buttons = answers.map(([answer, run]) => button(answer, () => { close(); run(); }));
      fill(node, heading, el("div", { class: "buttons" }, buttons));
      node.hidden = false;
      node.scrollIntoView({ block: "nearest" });
      buttons[0].focus();
    },
    close,
  };
}
