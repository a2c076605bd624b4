// The workbench: puts the pieces of the card together and lets them speak with the core.
import { ask, Refusal, startCore, textToHex } from "./core.js";
import { actButtons, goTo } from "./acts.js";
import { makeAsking } from "./asking.js";
import { makeBoard } from "./board.js";
import { takesFile, takesText } from "./bringing.js";
import { localNow, makeClock } from "./clock.js";
import { makeComparing } from "./comparing.js";
import { el, fill, hex, say } from "./dom.js";
import { makeFields } from "./fields.js";
import { makeHeading } from "./heading.js";
import { makeChecks, makeFindings } from "./judgement.js";
import { makeOpening } from "./opening.js";
import { makePlan } from "./plan.js";
import { Record, recordOf } from "./record.js";
import { failing, isUnsealed, makeStrip } from "./strip.js";
import { lang, words } from "./strings.js";
import { fileName, formEndings, makeTaking, nameToSave, save, wayEndings } from "./taking.js";
import { watchTags } from "./tags.js";
import { watchWindow } from "./window.js";

let record = null;
let look = null;
let comparison = null;
let offer = null;
let parts = {};
let ties = null;
const noSuspects = { suspects: [], none_of_these: [] };
let suspected = noSuspects;
const asking = makeAsking();
const live = el("p", { class: "unseen", role: "status", "aria-live": "polite" });
const refusal = el("div", { class: "refusal", role: "alert" });
/// What is to be said of how a dump was read: what is uncertain first, then what was decided.
const reading = el("div", { class: "reading", role: "status" });
const card = el("article", { class: "card record", "aria-labelledby": "name", hidden: true });

/// Runs something that the core may refuse; what it says is shown, and null returned.
function attempt(run) {
  try {
    const result = run();
    fill(refusal);
    return result;
  } catch (error) {
    complain(error);
    return null;
  }
}

function complain(error) {
  if (!(error instanceof Refusal)) console.error(error);
  fill(
    refusal,
    el("h2", {}, words.refused.heading),
    el("p", {}, error.where ? el("b", {}, `${words.choices[error.where] ?? error.where}: `) : null, error.message),
    error.shown ? el("pre", { class: "bytes", tabindex: "0" }, error.shown.replace(/^\n/, "")) : null,
    error.remedy ? el("p", { class: "do" }, words.refused.tryThis(error.remedy)) : null,
    el("div", { class: "buttons" }, actButtons(error.acts, doing)),
    record ? el("p", { class: "hint" }, words.refused.kept) : null,
    el("button", { type: "button", on: { click: () => fill(refusal) } }, words.refused.close),
  );
  refusal.scrollIntoView({ block: "nearest" });
}

const about = () => ({ image: record.image, layout: record.layout, read: record.read });

/// What the buttons of acts.js do.
const doing = {
  takeBack,
  labelOf: (field) => look?.fields.find((one) => one.id === field)?.label ?? field,
  controlOf: (field) => `field-${field}`,
};

/// Draws, and sees that the focus is not left on something that is gone.
function keepingFocus(draw) {
  const focused = document.activeElement;
  draw();
  if (focused && focused !== document.body && (!focused.isConnected || focused.closest("[hidden]"))) parts.strip.focus();
}

/// Draws what is on the bench.
const refresh = () => keepingFocus(draw);

function draw() {
  look = ask("look", about());
  record.noteProven(look.standing.settings === "proven");
  suspected = noSuspects;
  const state = {
    changed: new Set(record.changed()),
    differs: new Set(comparison?.differences.filter((one) => one.ignored === null).map((one) => one.at) ?? []),
  };
  parts.strip.update(record, look, suspected.suspects);
  parts.heading.update(record, look, offer.layouts);
  parts.plan.update(look, state);
  parts.clock.update(look);
  parts.fields.update(look);
  parts.checks.update(look);
  parts.findings.update(look);
  parts.taking.update(look, isUnsealed(record, look));
  parts.comparing.update(comparison, look, record);
  parts.board.update();
  ties.again();
  later(suggest);
}

/// What takes longer than an edit may: after the screen is up to date.
let timer = 0;
function later(run) {
  clearTimeout(timer);
  timer = setTimeout(run, 150);
}

function suggest() {
  if (!record) return;
  suspected = failing(look) ? ask("suspects", about()) : noSuspects;
  keepingFocus(() => {
    parts.strip.update(record, look, suspected.suspects);
    parts.findings.updateSuspects(suspected);
  });
}

/// An edit: the core makes the new image, or refuses.
function change(verb, request, what) {
  const answer = ask(verb, { ...about(), ...request });
  record.change(answer.image, what, record.layout, answer.read ?? record.read);
  compareAgain();
  refresh();
  say(live, [what, answer.told, look.verdict].filter(Boolean).join(" "));
}

/// A new record: what lay there before is one step back.
function put(next) {
  next.before = record;
  if (record) record.after = next;
  lay(next);
}

function lay(next) {
  record = next;
  comparison = null;
  compareAgain();
  card.hidden = false;
  parts.fields.forget();
  parts.findings.updateSuspects(noSuspects);
  parts.taking.clear();
  refresh();
  parts.opening.settle(true);
  say(live, `${record.name}. ${look.verdict}`);
  document.getElementById("name").scrollIntoView({ block: "nearest" });
}

function showReading({ notes = [], warnings = [] } = {}) {
  const lines = [...warnings.map((one) => el("li", { class: "doubt" }, one)), ...notes.map((one) => el("li", {}, one))];
  fill(reading, ...(lines.length ? [el("h2", {}, words.open.readSo), el("ul", {}, lines)] : []));
}

/// A dump that was brought: onto the empty bench, or where the person says.
function open(content, name, how) {
  attempt(() => {
    const answer = ask("open", { ...how, content, name, time: localNow() });
    const replace = () => putRead(answer, name);
    if (!record) return replace();
    asking.ask(words.another.question(name, record.name), [
      [words.another.beside, () => compareWith(content, name, how)],
      [words.another.instead, replace],
      [words.another.leave, () => {}],
    ]);
  });
}

function putRead(answer, name) {
  attempt(() => {
    showReading(answer.remarks);
    put(recordOf(answer, name));
  });
}

function compose(layout) {
  attempt(() => {
    const answer = ask("compose", { layout, time: localNow() });
    put(new Record({ name: words.open.composeName, image: answer.image, layout: answer.layout, note: answer.note, why: words.head.chosen }));
  });
}

function readLayout(content, name) {
  attempt(() => {
    const answer = ask("read-layout", { content, name });
    offer = ask("offer");
    parts.opening.listLayouts(offer.layouts);
    parts.fields.forget();
    if (record && record.size >= answer.size) chooseLayout(answer.layout);
    else if (record) refresh();
    say(live, words.open.layoutRead(answer.layout));
  });
}

/// What `rtcmend page DUMP` put on the page.
function openGiven() {
  const text = document.getElementById("given").textContent;
  if (!text) return;
  const { name, content, how, layout, layout_file: own } = JSON.parse(text);
  if (own) readLayout(textToHex(own), layout);
  open(content, name, how);
  if (layout && record) chooseLayout(layout);
}

const openFile = takesFile(open, complain);
const openText = takesText(open, complain);

function chooseLayout(layout) {
  attempt(() => {
    record.why = words.head.chosen;
    record.change(record.image, words.head.layout, layout);
    parts.fields.forget();
    compareAgain();
    refresh();
  });
}

function takeBack(what) {
  attempt(() => {
    const { image, read } = ask("undo-misread", { ...about(), what });
    const answer = ask("open", { image: read.image, name: record.name });
    record.identification = answer.identification;
    record.why = "";
    record.change(image, words.findings.tookBack, answer.layout ?? answer.begin, read);
    comparison = record.second = null;
    parts.fields.forget();
    refresh();
  });
}

function step(move, told) {
  if (!record) return;
  attempt(() => {
    const what = record[move]();
    const other = move === "undo" ? record.before : record.after;
    if (what === null && !other) return;
    if (what === null) return lay(other);
    compareAgain();
    refresh();
    say(live, `${told(what)}. ${look.verdict}`);
  });
}

const undo = () => step("undo", words.head.undone);
const redo = () => step("redo", words.head.redone);

/// What lies on the bench and what it took the place of.
function everyRecord() {
  const all = [];
  for (let one = record; one; one = one.before) all.push(one);
  for (let one = record?.after; one; one = one.after) all.push(one);
  return all;
}

function compareAgain() {
  comparison = null;
  if (!record.second || record.second.size !== record.size) return;
  comparison = ask("compare", { ...about(), ...record.second.how, content: record.second.content, name: record.second.name });
}

function compareWith(content, name, how) {
  attempt(() => {
    const answer = ask("compare", { ...about(), ...how, content, name });
    record.second = { content, name, how, size: record.size };
    comparison = answer;
    refresh();
  });
}

/// What was saved: its name, or null when the core refused.
function saveImage(form, fillByte, anyway) {
  return attempt(() => {
    const answer = ask("save", { ...about(), form, fill: fillByte, note: record.note, anyway });
    const name = nameToSave(record, formEndings[form] ?? "bin");
    save(answer.content, name);
    record.taken = record.image;
    return name;
  });
}

function saveSheet(beside) {
  return attempt(() => {
    const answer = ask("sheet", {
      ...about(), ...beside, name: record.name, note: record.note, form: record.form ?? "", time: localNow(),
    });
    const name = nameToSave(record, "html");
    save(new TextEncoder().encode(answer.html), name, "text/html");
    return name;
  });
}

function carrier(verb, order, base) {
  return attempt(() => {
    const answer = ask(verb, order);
    const name = fileName(base, wayEndings[order.way] ?? "bin");
    save(answer.content, name);
    return { ...answer, name };
  });
}

function section(id, heading, node) {
  return el("section", { id, "aria-labelledby": `${id}-heading` }, el("h2", { id: `${id}-heading` }, heading), node);
}

/// What may hurt at the bench, in the core's words; in sight whether or not a dump lies there.
const makeCautions = (cautions) =>
  el("div", { class: "card cautions" }, section("cautions", words.cautions.heading, el("ul", {}, cautions.map((one) => el("li", {}, one)))));

function build() {
  const tieLine = el("p", { class: "tie resting" }, words.tie.idle);
  const seal = () => attempt(() => change("seal", {}, words.checks.sealed));
  const repair = (suspect) => attempt(() => change("accept", { suspect }, words.findings.repaired));
  parts = {
    opening: makeOpening(offer, { readFile: openFile, readText: openText, compose, readLayout: takesFile(readLayout, complain), explain: (codes) => attempt(() => ask("explain", { ...(record ? about() : {}), codes })), drives: (disk) => attempt(() => ask("drives", { disk, layout: record?.layout ?? "" })), capture: (way, disk) => carrier("capture", { way, disk }, `read-${way}`), complain }),
    strip: makeStrip({ undo, redo, seal, repair, to: (place) => goTo(place)() }),
    heading: makeHeading({ chooseLayout }),
    plan: makePlan((at, digits) => {
      attempt(() => change("byte", { at, digits }, words.done.byte(hex(at))));
      if (!refusal.childNodes.length) return;
      refresh();
    }, tieLine),
    clock: makeClock((time) => attempt(() => change("clock", { time }, words.clock.changed))),
    fields: makeFields((field, entry) => {
      try {
        change("set", { field, entry }, words.done.field(look.fields.find((one) => one.id === field).label));
        return null;
      } catch (error) {
        if (!(error instanceof Refusal)) throw error;
        say(live, error.message);
        return error.remedy ? `${error.message}. ${words.refused.tryThis(error.remedy)}` : error.message;
      }
    }),
    checks: makeChecks(seal),
    findings: makeFindings(doing, repair),
    comparing: makeComparing(offer, {
      readFile: takesFile(compareWith, complain),
      readText: takesText(compareWith, complain),
      close: () => {
        comparison = record.second = null;
        refresh();
      },
      /// The second dump is the same chip as it was, read once more: it judges the reading.
      sameChip: () => attempt(() => {
        record.change(record.image, words.compare.sameChip, record.layout, { ...record.read, again: comparison.found });
        refresh();
        say(live, look.verdict);
      }),
    }),
    board: makeBoard({
      card: () => record && { ...about(), anyway: document.getElementById("anyway").checked },
      look: () => look,
      put: (content, name) => open(content, name, { form: "raw" }),
      actButtons: (acts) => actButtons(acts, doing),
    }),
    taking: makeTaking(offer, { saveImage, seal, saveSheet, deliver: (order) => carrier("deliver", { ...about(), ...order }, `${fileName(record.name, "x").slice(0, -2)}-${order.way}`) }),
  };
  fill(
    card,
    parts.heading.node,
    el("div", { class: "drawn" }, section("plan", words.plan.heading, parts.plan.node)),
    el("div", { class: "judged" }, section("checks", words.checks.heading, parts.checks.node), section("findings", words.findings.heading, parts.findings.node)),
    el("div", { class: "told" }, section("clock", words.clock.heading, parts.clock.node), section("fields", words.fields.heading, parts.fields.node)),
    el("div", { class: "beside" }, section("compare", words.compare.heading, parts.comparing.node)),
    el("div", { class: "foot" }, section("take", words.take.heading, parts.taking.node)),
  );
  fill(document.getElementById("bench"), parts.strip.node, refusal, asking.node, reading, parts.opening.node, parts.board.node, card, makeCautions(offer.cautions), live);
  parts.opening.settle(false);
  ties = watchTags(() => look, tieLine);
}

async function begin() {
  document.documentElement.lang = lang;
  document.title = words.title;
  say(document.getElementById("brand"), words.brand);
  say(document.getElementById("brand-line"), words.brandLine);
  say(document.getElementById("promise"), words.promise);
  say(document.getElementById("skip"), words.skip);
  const bench = document.getElementById("bench");
  fill(bench, el("p", { class: "starting" }, words.starting));
  try {
    await startCore();
  } catch (error) {
    console.error(error);
    fill(bench, el("p", { role: "alert" }, words.noCore));
    return;
  }
  offer = ask("offer");
  for (const { name, title, ending } of offer.form_table) {
    words.forms[name] = title;
    formEndings[name] = ending;
  }
  build();
  watchWindow({ undo, redo, openFile, openText, isUnsaved: () => parts.board.isBusy() || everyRecord().some((one) => one.isUnsaved()) });
  openGiven();
  document.documentElement.dataset.ready = "yes";
  performance.mark("usable");
}

begin();
