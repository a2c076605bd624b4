// Checks, condition, forecast and suspects.
import { actButtons } from "./acts.js";
import { button, el, fill, hex, places, say } from "./dom.js";
import { words } from "./strings.js";

const value = (check, number) =>
  number === null ? "??" : number.toString(16).toUpperCase().padStart(check.width / 4, "0");

function state(check) {
  if (!check.counts) return [words.checks.idle, "idle"];
  if (check.ok) return [words.checks.holds, "sound"];
  if (check.stored === null || check.computed === null) return [words.checks.unjudged, "doubt"];
  if (check.blank) return [words.checks.blank, "doubt"];
  return [words.checks.fails, "fault"];
}

/// Fills a node only when what it shows has changed.
function once(node, build) {
  let shown = null;
  return (data) => {
    const text = JSON.stringify(data);
    if (text === shown) return false;
    shown = text;
    fill(node, build(data));
    return true;
  };
}

export function makeChecks(seal) {
  const body = el("div");
  const again = button(words.checks.seal, seal);
  const draw = once(body, (checks) => {
    if (!checks.length) return [el("p", {}, words.checks.none)];
    return [
      el(
        "ul",
        { class: "checks" },
        checks.map((check, place) => {
          const [text, kind] = state(check);
          return el(
            "li",
            { class: kind, tabindex: "0", data: { tie: `check:${check.id}`, check: check.id } },
            el("p", { class: "name" }, el("span", { class: "swatch lines", "aria-hidden": "true" }, el("i", { class: "line", data: { place } }), el("i", { class: "square", data: { place } })), el("b", {}, check.id), el("span", { class: `stamp ${kind}` }, text)),
            el("p", { class: "words" }, check.words),
            el(
              "dl",
              {},
              el("div", {}, el("dt", {}, words.checks.over), el("dd", {}, places([...check.covers].sort((a, b) => a - b)))),
              el("div", {}, el("dt", {}, `${words.checks.stored} (${places(check.at)})`), el("dd", { class: "bytes" }, value(check, check.stored))),
              el("div", {}, el("dt", {}, words.checks.computed), el("dd", { class: "bytes" }, value(check, check.computed))),
            ),
          );
        }),
      ),
    ];
  });
  const hint = el("p", { class: "hint" }, words.checks.sealHint);
  return {
    node: el("div", {}, body, el("div", { class: "buttons" }, again), hint),
    update(look) {
      draw(look.checks);
      again.hidden = hint.hidden = !look.checks.length || look.misread;
    },
  };
}

/// doing: what acts.js asks for; repair(id) makes a suspect's repair.
export function makeFindings(doing, repair) {
  const list = el("div");
  const forecast = el("div");
  const suspects = el("div");
  const drawList = once(list, (findings) => {
    if (!findings.length) return [el("p", {}, words.findings.none)];
    return [el("ul", { class: "findings" }, findings.map((one) => findingItem(one, doing)))];
  });
  const drawForecast = once(forecast, ({ codes, unsettled, misread }) => {
    if (misread) return [el("p", {}, words.findings.forecastMisread)];
    const open = unsettled.map((one) => el("p", { class: "hint" }, words.findings.forecastOpen(one.text)));
    if (!codes.length) return [el("p", {}, words.findings.forecastNone), ...open];
    return [
      el(
        "ul",
        { class: "codes" },
        codes.map((code) =>
          el("li", {}, el("p", {}, el("b", { class: "code" }, code.code), " ", code.means), code.why?.length ? el("p", {}, code.why.join(" ")) : null, el("p", { class: "do" }, code.do)),
        ),
      ),
      ...open,
    ];
  });
  const drawSuspects = once(suspects, ({ suspects: all, none_of_these: open }) => {
    if (!all.length) return [];
    return [
      el("h3", {}, words.findings.suspects),
      el("p", { class: "hint" }, words.findings.suspectsHint),
      el(
        "ol",
        { class: "suspects" },
        all.map((one) =>
          el(
            "li",
            { data: { tie: `bytes:${one.changes.map((change) => change.at)}` } },
            el("p", {}, one.text, " ", el("span", { class: "odds" }, words.findings.odds(one.odds))),
            el("p", { class: "bytes" }, one.changes.map((change) => `${hex(change.at)}: ${hex(change.from)} → ${hex(change.to)}`).join(", ")),
            button(words.findings.repair, () => repair(one.id)),
          ),
        ),
      ),
      ...open.map((one) => el("p", { class: "hint" }, words.findings.noneOfThese(one.mends.join(", "), one.odds))),
    ];
  });
  return {
    node: el("div", {}, list, suspects, el("h3", {}, words.findings.forecast), forecast),
    update(look) {
      drawList(look.findings);
      drawForecast({ codes: look.forecast, unsettled: look.cannotPromise, misread: look.misread });
    },
    updateSuspects(answer) {
      drawSuspects({ ...answer, suspects: answer.suspects.slice(0, 5) });
    },
  };
}

function findingItem(finding, doing) {
  const buttons = actButtons(finding.acts, doing);
  return el(
    "li",
    { class: finding.severity, tabindex: finding.at.length ? "0" : null, data: { tie: `bytes:${finding.at}`, finding: finding.id } },
    el("p", {}, el("span", { class: `stamp ${finding.severity}` }, words.findings[finding.severity]), " ", finding.text),
    finding.do ? el("p", { class: "do" }, finding.do) : null,
    buttons.length ? el("div", { class: "buttons" }, buttons) : null,
    finding.source ? el("small", {}, words.findings.source(finding.source)) : null,
  );
}
