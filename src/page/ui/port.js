// A serial port of the browser as bytes: what came and when, and what is to go. What they mean is the
// core's business.
import { Refusal, toHex } from "./core.js";
import { words } from "./strings.js";

/// Whether this browser reaches serial ports at all.
export const reachesPorts = () => "serial" in navigator;

/// The time that only goes forward, as the core counts it.
export const microseconds = () => Math.round(performance.now() * 1000);

/// The board's speed, as docs/board-protocol.md has it.
const how = { baudRate: 38400, bufferSize: 4096 };
const closingMost = 1000; // milliseconds

const after = (milliseconds) => new Promise((done) => setTimeout(done, milliseconds));

/// Low and up again resets a board whose line was high already; a port without such lines does
/// without.
async function restart(port) {
  try {
    await port.setSignals({ dataTerminalReady: false, requestToSend: false });
    await port.setSignals({ dataTerminalReady: true, requestToSend: true });
  } catch {
    return;
  }
}

export class Line {
  #port;
  #reader = null;
  #writer;
  #listening;
  #closing = false;
  #came = "";
  #at = 0;
  #wake = () => {};
  /// The port was unplugged, or takes nothing more.
  gone = false;

  constructor(port) {
    this.#port = port;
    this.#writer = port.writable.getWriter();
    this.#listening = this.#listen();
  }

  /// Throws Refusal.
  static async open(port) {
    try {
      await port.open(how);
    } catch (error) {
      throw new Refusal({ where: "board", what: words.board.cannotOpen(error.message), try: words.board.cannotOpenTry });
    }
    const line = new Line(port);
    await restart(port);
    return line;
  }

  /// A wrong parity or a break ends a stream and another one follows; without one the port is gone.
  async #listen() {
    while (this.#port.readable && !this.#closing) {
      this.#reader = this.#port.readable.getReader();
      try {
        for (;;) {
          const { value, done } = await this.#reader.read();
          if (done) break;
          this.#came += toHex(value);
          this.#at = microseconds();
          this.#wake();
        }
      } catch {
        await after(0);
      } finally {
        this.#reader.releaseLock();
      }
    }
    this.gone = true;
    this.#wake();
  }

  /// {came (hex), at}: what has come since the last time, and when the last of it did; now when
  /// nothing did.
  take() {
    const taken = { came: this.#came, at: this.#came ? this.#at : microseconds() };
    this.#came = "";
    return taken;
  }

  /// Until something comes, and no longer than so many milliseconds.
  async more(most) {
    if (!this.#came && !this.gone) await Promise.race([new Promise((done) => (this.#wake = done)), after(most)]);
  }

  /// Not waited for: what does not arrive is asked for again.
  send(bytes) {
    this.#writer.write(bytes).catch(() => (this.gone = true));
  }

  async close() {
    this.#closing = true;
    const closed = async () => {
      await this.#reader?.cancel().catch(() => {});
      await this.#listening;
      this.#writer.releaseLock();
      await this.#port.close();
    };
    await Promise.race([closed().catch(() => {}), after(closingMost)]);
  }
}
