// The dump on the bench and everything that was done to it: a list of images, of which one is now.

import { words } from "./strings.js";

export class Record {
  /// name: for headings and file names; image, layout and read as the core hands them over. read: the
  /// dump as it was read, by which the core judges the reading; null for an image made from nothing.
  constructor({ name, image, layout, read = null, form = null, note = "", identification = null, why = "" }) {
    Object.assign(this, { name, form, note, identification, why });
    this.steps = [{ image, layout, read, what: "" }];
    this.now = 0;
    this.second = null;
    /// The image as it was last taken away.
    this.taken = null;
    /// The record that lay here before, and the one that was put in this one's place.
    this.before = this.after = null;
  }

  get image() {
    return this.steps[this.now].image;
  }
  get layout() {
    return this.steps[this.now].layout;
  }
  get read() {
    return this.steps[this.now].read;
  }
  get first() {
    return this.steps[0].image;
  }
  get size() {
    return this.image.length / 2;
  }

  /// A new image; what was undone before is forgotten. Nothing happens when nothing changed.
  change(image, what, layout = this.layout, read = this.read) {
    if (image === this.image && layout === this.layout && read === this.read) return;
    this.after = null;
    this.steps.splice(this.now + 1, Infinity, { image, layout, read, what });
    ++this.now;
  }

  canUndo() {
    return this.now > 0 || this.before !== null;
  }
  canRedo() {
    return this.now + 1 < this.steps.length || this.after !== null;
  }

  /// Whether work would be lost if this record went away now.
  isUnsaved() {
    return this.image !== this.first && this.image !== this.taken;
  }

  /// Notes of the image as it is now whether its checks prove it.
  noteProven(proven) {
    this.steps[this.now].proven = proven;
  }
  /// Whether they did at any step on the way here, by the layout that counts now: what fails since
  /// then was broken by hand.
  wasProven() {
    return this.steps.slice(0, this.now + 1).some((step) => step.proven && step.layout === this.layout);
  }

  /// What was undone or done again, in words; null when there is nothing.
  undo() {
    return this.now > 0 ? this.steps[this.now--].what : null;
  }
  redo() {
    return this.now + 1 < this.steps.length ? this.steps[++this.now].what : null;
  }

  /// Addresses whose bytes are not as they were read.
  changed() {
    const list = [];
    if (this.first.length !== this.image.length) return list;
    for (let at = 0; at < this.size; ++at)
      if (this.image.slice(2 * at, 2 * at + 2) !== this.first.slice(2 * at, 2 * at + 2)) list.push(at);
    return list;
  }
}

/// What the core read from a dump, as a record.
export function recordOf(answer, name) {
  const named = answer.identification && answer.layout && answer.layout !== answer.identification.layout;
  return new Record({
    name,
    image: answer.image,
    layout: answer.layout ?? answer.begin,
    read: answer.read,
    form: answer.form,
    note: answer.note,
    identification: answer.identification,
    why: named ? words.head.named : "",
  });
}
