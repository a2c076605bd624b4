// Making elements. Text goes in as text, never as markup: what a dump, a layout or a file name says
// can therefore do nothing.

/// el("p", {class: "hint", on: {click}, data: {tie}}, child, ...): a string child is text.
export function el(tag, props = {}, ...children) {
  const node = document.createElement(tag);
  for (const [key, value] of Object.entries(props)) {
    if (value === undefined || value === null || value === false) continue;
    if (key === "on") for (const [name, run] of Object.entries(value)) node.addEventListener(name, run);
    else if (key === "data") Object.assign(node.dataset, value);
    else if (key in node && typeof value !== "string") node[key] = value;
    else node.setAttribute(key, value === true ? "" : value);
  }
  node.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return node;
}

/// Replaces what a node holds.
export function fill(node, ...children) {
  node.replaceChildren(...children.flat().filter((child) => child !== null && child !== undefined));
}

/// Sets text only where it differs, so that nothing is announced or laid out twice.
export function say(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/// A labelled control: {row, control}.
let count = 0;
export function labelled(label, control, hint) {
  control.id ||= `c${++count}`;
  const parts = [el("label", { for: control.id }, label), control];
  if (hint) {
    const id = `${control.id}-hint`;
    control.setAttribute("aria-describedby", id);
    parts.push(el("small", { id }, hint));
  }
  return el("div", { class: "line" }, parts);
}

export function button(text, run, kind = "") {
  return el("button", { type: "button", class: kind, on: { click: run } }, text);
}

export function select(options, props = {}) {
  return el("select", props, options.map(([value, text]) => el("option", { value }, text)));
}

export const hex = (byte) => byte.toString(16).toUpperCase().padStart(2, "0");

/// "10h-2Dh, 30h" for ascending addresses.
export function places(list) {
  const parts = [];
  for (let i = 0; i < list.length; ) {
    let j = i;
    while (j + 1 < list.length && list[j + 1] === list[j] + 1) ++j;
    parts.push(i === j ? `${hex(list[i])}h` : `${hex(list[i])}h-${hex(list[j])}h`);
    i = j + 1;
  }
  return parts.join(", ");
}
