// The chip on the bench board: read it onto the card, write the card into it, see whether it holds and
// how its clock goes.
import { goTo } from "./acts.js";
import { makeAsking } from "./asking.js";
import { Jobs } from "./board_job.js";
import { clockTold, heldTold, readTold, troubleTold } from "./board_told.js";
import { comparedTold } from "./comparing.js";
import { ask } from "./core.js";
import { button, el, fill, labelled, say, select } from "./dom.js";
import { reachesPorts } from "./port.js";
import { words } from "./strings.js";

/// Fitting parts first.
function partOptions(parts) {
  const option = (one) => [one.part, one.fits ? one.part : words.board.unfit(one.part)];
  return [["", words.board.partUnknown], ...parts.filter((one) => one.fits).map(option), ...parts.filter((one) => !one.fits).map(option)];
}

function makeChoices() {
  const choices = {
    part: select(partOptions(ask("board-offer").parts)),
    size: select(words.board.sizes),
    off: select(words.board.rests),
    length: select(words.board.lengths),
    clock: el("input", { type: "checkbox" }),
  };
  for (const [key, control] of Object.entries(choices)) control.id = `board-${key}`;
  choices.off.value = "1800";
  choices.length.value = "300";
  return choices;
}

/// What is seen of a job: {node, begin, step, progress, end}. stop(): the button's.
function makeProgress(stop) {
  const doing = el("p", { role: "status" });
  const bar = el("progress", { max: 1, "aria-label": words.board.progress });
  const end = button(words.board.stop, stop);
  const node = el("div", { class: "result", hidden: true }, doing, bar, el("div", { class: "buttons" }, end));
  let from = null;
  return {
    node,
    begin() {
      from = document.activeElement;
      node.hidden = false;
      end.focus();
    },
    step(text) {
      say(doing, text);
      bar.removeAttribute("value");
    },
    progress(part) {
      if (part > 0) bar.value = part;
    },
    end() {
      const here = node.contains(document.activeElement) || document.activeElement === document.body;
      node.hidden = true;
      if (here) from?.focus();
    },
  };
}

/// actions: card() -> what the core is asked with about the card, or null; look(); put(content, name);
/// actButtons(acts).
export function makeBoard(actions) {
  const node = el("details", { class: "card", id: "board" }, el("summary", {}, words.board.heading));
  if (!reachesPorts()) {
    node.append(el("p", { class: "hint" }, words.board.elsewhere));
    return { node, update: () => {}, isBusy: () => false };
  }
  const choices = makeChoices();
  const asking = makeAsking("board-question");
  const result = el("div", { class: "result", "aria-live": "polite" });
  const progress = makeProgress(() => jobs.stop());
  const jobs = new Jobs({
    ...progress,
    begin() {
      fill(result);
      progress.begin();
      update();
    },
    trouble: (refusal, job) => result.append(troubleTold(refusal, job, actions.actButtons)),
    end() {
      update();
      progress.end();
    },
  });
  const run = (order, work) => {
    fill(result);
    return jobs.run({ ...order, part: choices.part.value }, work);
  };
  const readFirst = async (job) => {
    const read = await job.readAndSave(choices.size.value);
    result.append(...readTold(read));
    return read;
  };

  const read = () => run({}, async (job) => {
    const chip = await readFirst(job);
    actions.put(chip.content, chip.name);
  });
  const write = () => {
    const order = { ...actions.card(), write: true, part: choices.part.value, set_clock: choices.clock.checked };
    return run(order, async (job) => {
      const { name } = await readFirst(job);
      if (!(await job.agreed(asking, words.board.writeQuestion(name), words.board.writeYes))) return;
      job.writing = true;
      const { comparison } = await job.work("board-write", order, words.board.writing);
      result.append(...comparedTold(comparison, actions.look(), "", words.board.there));
    });
  };
  const hold = () => run({}, async (job) => {
    const { name, cell_low: low } = await readFirst(job);
    if (!(await job.agreed(asking, words.board.holdQuestion(name), words.board.holdYes))) return;
    const { retention } = await job.work("board-hold", { seconds: Number(choices.off.value) }, words.board.resting);
    result.append(...heldTold(retention, low));
  });
  const clock = () => run({}, async (job) => {
    result.append(...clockTold(await job.work("board-clock", { seconds: Number(choices.length.value) }, words.board.watching)));
  });

  const buttons = { read: button(words.board.read, read, "strong"), write: button(words.board.write, write), hold: button(words.board.hold, hold), clock: button(words.board.clock, clock) };
  const update = () => {
    for (const one of Object.values(buttons)) one.disabled = jobs.busy;
    if (!actions.card()) buttons.write.disabled = true;
  };
  update();
  const piece = (key, ...lines) => el("section", {}, el("h3", {}, words.board[`${key}Heading`]), el("p", { class: "hint" }, words.board[`${key}Hint`]), lines, el("div", { class: "buttons" }, buttons[key]));
  node.append(
    el("p", { class: "hint" }, words.board.hint),
    el("div", { class: "buttons" }, button(words.acts.cautions, goTo("cautions"))),
    el(
      "div",
      { class: "opening" },
      piece("read", labelled(words.board.part, choices.part), labelled(words.board.size, choices.size)),
      piece("write", el("p", { class: "line tick" }, choices.clock, el("label", { for: choices.clock.id }, words.board.setClock))),
      piece("hold", labelled(words.board.off, choices.off)),
      piece("clock", labelled(words.board.length, choices.length)),
    ),
    progress.node,
    asking.node,
    result,
  );
  return { node, update, isBusy: () => jobs.busy };
}
