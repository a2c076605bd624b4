// A conversation with the board: the core does the talking, this hands on bytes and time.
import { ask, fromHex, Refusal } from "./core.js";
import { Line, microseconds } from "./port.js";
import { words } from "./strings.js";

const turnMost = 5; // milliseconds between two looks

/// Milliseconds since 1980-01-01T00:00 by this computer's clock, as it hangs on the wall.
function wall() {
  const now = new Date();
  return now.getTime() - now.getTimezoneOffset() * 60000 - Date.UTC(1980, 0, 1);
}

export class Talk {
  #line;
  #show;
  #stopped = false;
  /// The board has said who it is: from then on the chip may be under power.
  #open = false;

  constructor(line, show) {
    this.#line = line;
    this.#show = show;
  }

  /// show(progress): told how far the work is, from 0 to 1. Throws Refusal.
  static async begin(port, show) {
    const line = await Line.open(port);
    ask("board-open", { now: microseconds() });
    return new Talk(line, show);
  }

  /// What is under way, and whatever is begun after it, is refused.
  stop() {
    this.#stopped = true;
  }
  needOn() {
    if (this.#stopped) throw new Refusal({ where: "board", what: words.board.stopped, try: words.board.stoppedTry });
  }

  /// A piece of work to its end: what the core makes of it. Throws Refusal.
  async work(verb, request = {}) {
    this.needOn();
    return this.#converse(verb, request, () => this.needOn());
  }

  async #converse(verb, request, check) {
    ask(verb, { ...request, now: microseconds(), wall: wall() });
    for (;;) {
      check();
      const { came, at } = this.#line.take();
      const turn = ask("board-turn", { came, now: at });
      this.#open ||= turn.open;
      if (turn.go) this.#line.send(fromHex(turn.go));
      this.#show(turn.progress);
      if (turn.done) return turn.result;
      if (this.#line.gone) throw new Refusal({ where: "board", what: words.board.gone, try: words.board.goneTry });
      await this.#line.more(turnMost);
    }
  }

  /// Leaves the chip off, whatever was before, and lets the port go. Without an answer the board itself
  /// switches off after half a minute.
  async end() {
    try {
      if (this.#open && !this.#line.gone) await this.#converse("board-off", {}, () => {});
    } catch (error) {
      if (!(error instanceof Refusal)) throw error;
    } finally {
      await this.#line.close();
    }
  }
}
