// One job at the bench board, from the port's opening to a chip that is off: what is read is saved
// before anything is done to it.
import { ask, Refusal } from "./core.js";
import { save } from "./taking.js";
import { Talk } from "./talking.js";
import { words } from "./strings.js";

const stayEach = 5000; // milliseconds; the board switches off after 30 seconds without a word
const look = 100;

/// A name of its own for each reading: none takes another's place.
function nameNow() {
  const now = new Date();
  const two = (number) => String(number).padStart(2, "0");
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map(two).join("");
  return `chip-${day}-${[now.getHours(), now.getMinutes(), now.getSeconds()].map(two).join("")}.bin`;
}

export class Job {
  /// What the chip held, as it was saved: a file's name.
  saved = "";
  /// Whether the chip may hold a part of an image.
  writing = false;

  constructor(talk, step) {
    this.talk = talk;
    this.step = step;
  }

  work(verb, request, text) {
    this.step(text);
    return this.talk.work(verb, request);
  }

  /// {content, size, cell_low, remarks, name}.
  async readAndSave(size) {
    const read = await this.work("board-read", { size }, words.board.reading);
    const name = nameNow();
    save(read.content, name);
    this.saved = name;
    return { ...read, name };
  }

  /// Asks, and keeps the chip under power meanwhile.
  async agreed(asking, question, yes) {
    let answer = null;
    this.step(words.board.waiting);
    asking.ask(question, [
      [words.board.leave, () => (answer = false)],
      [yes, () => (answer = true)],
    ]);
    try {
      for (let gone = 0; answer === null; gone += look) {
        this.talk.needOn();
        if (gone % stayEach === 0) await this.talk.work("board-stay");
        await new Promise((done) => setTimeout(done, look));
      }
    } finally {
      asking.close();
    }
    return answer;
  }
}

/// The jobs at one port after the other; one at a time. shown: begin(), step(text), progress(part),
/// trouble(refusal, job or null), end().
export class Jobs {
  #port = null;
  #talk = null;
  busy = false;

  constructor(shown) {
    this.shown = shown;
  }

  stop() {
    this.#talk?.stop();
  }

  /// order: looked at before a port opens. run(job) does the work.
  async run(order, run) {
    if (this.busy) return;
    this.busy = true;
    try {
      ask("board-check", order);
      this.#port ??= await navigator.serial.requestPort();
    } catch (error) {
      this.busy = false;
      // Else the person has chosen no port: no fault.
      if (error instanceof Refusal) this.shown.trouble(error, null);
      return;
    }
    this.shown.begin();
    await this.#atPort(run);
    this.busy = false;
    this.shown.end();
  }

  async #atPort(run) {
    let job = null;
    try {
      this.shown.step(words.board.opening);
      this.#talk = await Talk.begin(this.#port, (part) => this.shown.progress(part));
      job = new Job(this.#talk, (text) => this.shown.step(text));
      await run(job);
    } catch (error) {
      this.#port = null; // another one may be meant
      if (!(error instanceof Refusal)) console.error(error);
      this.shown.trouble(error, job);
    } finally {
      this.shown.step(words.board.switchingOff);
      await this.#talk?.end();
      this.#talk = null;
    }
  }
}
