// The strip that stays in view: the verdict in a sentence, why, the one next act, and the way back.
import { button, el, say } from "./dom.js";
import { words } from "./strings.js";

/// A repair is offered here from this share on; below it, one is better off looking at all of them.
const likely = 0.5;

export const failing = (look) => look.checks.some((check) => check.counts && !check.ok);

/// Whether the person's own changes broke checks that held before them. Only then is sealing right: in a
/// dump whose checks never held, by this layout, it would hide what is wrong.
export const isUnsealed = (record, look) => !look.misread && failing(look) && record.wasProven();

/// {kind, stamp, why, text, run}: what is said, and the one thing to do about it. doing: repair(id),
/// seal(), to(id), with a place's id.
export function nextStep(record, look, suspects, doing) {
  const worst = look.findings.find((one) => one.severity === "fault") ?? look.findings.find((one) => one.severity === "doubt");
  const said = { kind: look.sound ? "sound" : look.ready ? "doubt" : "fault", stamp: look.verdict, why: worst?.text ?? "" };
  if (look.misread) return { ...said, text: words.strip.seeMisread, run: () => doing.to("findings") };
  if (isUnsealed(record, look)) return { kind: "doubt", stamp: words.strip.unsealed, why: words.strip.unsealedWhy, text: words.strip.seal, run: doing.seal };
  if (failing(look)) {
    const first = suspects[0];
    if (first?.odds >= likely) return { ...said, why: first.text, text: words.strip.repair(first.odds), run: () => doing.repair(first.id) };
    return { ...said, text: words.strip.seeRepairs, run: () => doing.to("findings") };
  }
  if (look.standing.clock !== "right") return { ...said, text: words.acts.setClock, run: () => doing.to("clock") };
  if (look.ready) return { ...said, text: words.strip.takeAway, run: () => doing.to("take") };
  return { ...said, text: words.strip.seeFindings, run: () => doing.to("findings") };
}

/// actions: undo(), redo(), and what nextStep() asks for.
export function makeStrip(actions) {
  const verdict = el("span", { class: "stamp big" });
  const why = el("p", { class: "why" });
  let step = null;
  const act = button("", () => step?.run(), "strong");
  const undo = button(words.head.undo, actions.undo);
  const redo = button(words.head.redo, actions.redo);
  undo.setAttribute("aria-keyshortcuts", "Control+Z");
  redo.setAttribute("aria-keyshortcuts", "Control+Shift+Z");
  const changed = el("span", { class: "hint" });
  const node = el(
    "section",
    { class: "strip", tabindex: "-1", "aria-label": words.strip.name, hidden: true },
    el("div", { class: "says" }, verdict, why),
    el("div", { class: "buttons" }, act, undo, redo, changed),
  );
  return {
    node,
    /// suspects: likeliest first; those of this image, or none as long as they are being looked for.
    update(record, look, suspects) {
      node.hidden = false;
      step = nextStep(record, look, suspects, actions);
      verdict.className = `stamp big ${step.kind}`;
      say(verdict, step.stamp);
      say(why, step.why);
      say(act, step.text);
      undo.disabled = !record.canUndo();
      redo.disabled = !record.canRedo();
      const count = record.changed().length;
      say(changed, count ? words.head.changed(count) : words.head.nothingChanged);
    },
    /// Takes the focus of something that is gone.
    focus: () => node.focus({ preventScroll: true }),
  };
}
