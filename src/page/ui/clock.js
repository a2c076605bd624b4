// Date and time, and the bits of the registers.
import { button, el, fill, labelled, say } from "./dom.js";
import { words } from "./strings.js";

/// This computer's own time as the core reads it.
export function localNow() {
  const now = new Date();
  const local = new Date(now.getTime() - now.getTimezoneOffset() * 60000);
  return local.toISOString().slice(0, 19);
}

export function makeClock(setClock) {
  const says = el("dd");
  const alarm = el("dd");
  const kept = el("dd");
  const time = el("input", { type: "datetime-local", step: "1", min: "1980-01-01T00:00:00", max: "2099-12-31T23:59:59", id: "clock-time" });
  const registers = el("div", { class: "registers" });
  const apply = () => setClock(time.value.length === 16 ? `${time.value}:00` : time.value);
  const node = el(
    "div",
    { class: "clock", data: { tie: "bytes:0,2,4,6,7,8,9" } },
    el("dl", { class: "says" }, el("dt", {}, words.clock.says), says, el("dt", {}, words.clock.alarm), alarm, el("dt", {}, words.clock.keptIn), kept),
    labelled(words.clock.set, time, words.clock.runs),
    el(
      "div",
      { class: "buttons" },
      button(words.clock.apply, apply),
      button(words.clock.now, () => setClock(localNow())),
    ),
  );
  let shown = null;
  return {
    node: el("div", {}, node, el("details", {}, el("summary", {}, words.clock.registers), registers)),
    update(look) {
      say(says, look.clock.words);
      say(alarm, look.clock.alarm);
      say(kept, look.clock.keptIn ? words.clock.kept(look.clock.keptIn, look.clock.hours) : words.clock.unknown);
      if (document.activeElement !== time) time.value = look.clock.iso ?? "";
      const text = JSON.stringify(look.registers);
      if (text === shown) return;
      shown = text;
      fill(registers, look.registers.map(registerTable));
    },
  };
}

function registerTable(register) {
  const at = register.at.toString(16).toUpperCase().padStart(2, "0");
  return el(
    "table",
    { data: { tie: `byte:${register.at}` } },
    el("caption", {}, words.clock.register(register.name, at)),
    el(
      "tbody",
      {},
      register.known
        ? register.bits.map((bits) => el("tr", {}, el("th", { scope: "row" }, bits.name), el("td", { class: "bytes" }, String(bits.value)), el("td", {}, bits.label)))
        : el("tr", {}, el("td", {}, words.clock.unknown)),
    ),
  );
}
