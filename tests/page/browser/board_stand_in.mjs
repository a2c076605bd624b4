// A bench board for the page's tests: put in as navigator.serial before the page's own scripts. It
// speaks the protocol of docs/board-protocol.md, typed from that page, and has faults.

/// Runs in the page. faults: {absent} no serial ports in this browser; {taken} the port does not open;
/// {silent} nothing answers; {foreign} another program's board; {version} of the protocol; {noChip}
/// an empty socket; {dead} a cell that keeps nothing; {ppm} how fast its clock runs; {haste} how many
/// times as fast all time goes, the page's too; and of the lines
/// that the board sends, counted from 0: {lost} a character of that line, {changed} one, {reset} the
/// board there, {gone} the port there. window.bench shows what became of it.
export function putBoardIn(faults) {
  if (faults.absent) return delete Navigator.prototype.serial;

  if (faults.haste) {
    const now = performance.now.bind(performance), later = window.setTimeout.bind(window);
    performance.now = () => now() * faults.haste;
    window.setTimeout = (run, milliseconds = 0) => later(run, milliseconds / faults.haste);
  }

  const hex = (bytes) => bytes.map((byte) => byte.toString(16).toUpperCase().padStart(2, "0")).join("");
  /// CRC-16/IBM-3740: polynomial 1021h, begun with FFFFh.
  const crc = (bytes) => {
    let sum = 0xffff;
    for (const byte of bytes) {
      sum ^= byte << 8;
      for (let i = 0; i < 8; ++i) sum = (sum & 0x8000 ? (sum << 1) ^ 0x1021 : sum << 1) & 0xffff;
    }
    return [sum >> 8, sum & 0xff];
  };
  const line = (start, bytes) => `${start}${hex([...bytes, ...crc([start.charCodeAt(0), ...bytes])])}\n`;
  const word = (number) => [number >> 8, number & 0xff];
  const off = 0, on = 1, resting = 2;

  const bench = {
    // 2031-05-14 09:30:00, a Wednesday, with an alarm at 05:34:59; then RAM.
    bytes: [0x00, 0x59, 0x30, 0x34, 0x09, 0x05, 0x04, 0x14, 0x05, 0x31, 0x26, 0x02, 0x00, faults.dead ? 0x00 : 0x80, ...Array.from({ length: 114 }, (_, i) => (i * 7 + 3) & 0xff)],
    state: off,
    lines: 0,
    requests: "",
    opened: 0,
  };
  let controller = null;
  let input = "";
  let before = { text: "", answer: "" };
  let restEnds = 0;
  let losses = 0;

  const end = () => {
    bench.gone = true;
    port.readable = null;
    controller?.error(new DOMException("The device has been lost.", "NetworkError"));
    controller = null;
  };
  const send = (text) => {
    if (faults.silent || !controller) return;
    if (faults.foreign) text = "Ready.\r\n";
    const number = bench.lines++;
    const middle = text.length >> 1;
    if (number === faults.gone) return end();
    if (number === faults.reset) return restart();
    if (number === faults.lost) text = text.slice(0, middle) + text.slice(middle + 1);
    if (number === faults.changed) text = text.slice(0, middle) + (text[middle] === "7" ? "8" : "7") + text.slice(middle + 1);
    // In two pieces, as they come from a real port.
    const cut = 1 + (number % (text.length - 1));
    for (const piece of [text.slice(0, cut), text.slice(cut)]) controller.enqueue(new TextEncoder().encode(piece));
  };
  const hello = () => [faults.version ?? 1, bench.state, 0, ...word(5000), ...word(bench.state === on ? 4990 : 0), ...word(bench.state === resting ? Math.ceil((restEnds - performance.now()) / 1000) : 0)];
  const restart = () => {
    bench.state = off;
    before = { text: "", answer: "" };
    setTimeout(() => send(line("!", hello())), 20);
  };
  const forget = () => {
    ++losses;
    if (faults.dead) for (let at = 0; at < 128; ++at) if (at < 10 || at > 13) bench.bytes[at] = (at * 73 + losses * 41) & 0xff;
  };

  const chip = {
    X: () => [0],
    R: (data) => {
      const [at, count] = data;
      if (data.length !== 2 || !count || count > 32 || at + count > 128) return [3];
      return faults.noChip ? [7, at] : [0, ...bench.bytes.slice(at, at + count)];
    },
    W: ([at, ...bytes]) => {
      if (!bytes.length || at < 14 || at + bytes.length > 128) return [3];
      bytes.forEach((byte, i) => (bench.bytes[at + i] = byte));
      return [0];
    },
    T: () => (faults.noChip ? [7, 0x0d] : [0, ...bench.bytes.slice(0, 14)]),
    S: (data) => {
      if (data.length === 2) [bench.bytes[10], bench.bytes[11]] = data;
      else if (data.length === 12) data.forEach((byte, at) => (bench.bytes[at] = byte));
      else return [3];
      return [0];
    },
  };
  const board = {
    H: () => [0, ...hello()],
    P: () => {
      if (bench.state === resting) return [12, 0, 1];
      if (bench.state === off) forget();
      bench.state = on;
      return [0];
    },
    O: () => {
      bench.state = off;
      return [0];
    },
    F: ([high, low]) => {
      if (bench.state !== on) return [4];
      bench.state = resting;
      forget();
      const length = (high * 256 + low) * 1000;
      restEnds = performance.now() + length;
      setTimeout(() => (bench.state = bench.state === resting ? on : bench.state), length);
      return [0];
    },
  };
  const answer = (command, data) => {
    if (board[command]) return board[command](data);
    if (!chip[command]) return [2];
    if (bench.state === resting) return [12, 0, 1];
    return bench.state === on ? chip[command](data) : [4];
  };

  const take = (text) => {
    const bytes = (text.slice(1).match(/../g) ?? []).map((pair) => parseInt(pair, 16));
    const sum = bytes.splice(-2);
    const wanted = crc([0x3e, ...bytes]);
    if (text[0] !== ">" || bytes.length < 2 || sum[0] !== wanted[0] || sum[1] !== wanted[1]) return send(line("<", [0, 1]));
    const [number, code, ...data] = bytes;
    const command = String.fromCharCode(code);
    bench.requests += command;
    if (command !== "H" && text === before.text) return send(before.answer);
    const finish = (reply) => {
      before = { text, answer: line("<", [number, ...reply]) };
      send(before.answer);
    };
    if (command !== "E" || bench.state !== on) return finish(answer(command, data));
    const second = 1000 / (1 + (faults.ppm ?? 0) / 1e6);
    const gone = performance.now() % second;
    setTimeout(() => finish([0, bench.bytes[0]]), second - gone);
  };

  const port = {
    readable: null,
    writable: null,
    async open({ baudRate }) {
      if (faults.taken) throw new DOMException("Failed to open serial port.", "NetworkError");
      if (baudRate !== 38400) throw new DOMException("no such speed", "NotSupportedError");
      ++bench.opened;
      port.readable = new ReadableStream({ start: (one) => (controller = one), cancel: () => (controller = null) });
      port.writable = new WritableStream({
        write(chunk) {
          if (bench.gone) throw new DOMException("The device has been lost.", "NetworkError");
          input += new TextDecoder().decode(chunk);
          for (let at; (at = input.indexOf("\n")) >= 0; input = input.slice(at + 1)) take(input.slice(0, at));
        },
      });
      restart();
    },
    async setSignals() {},
    async close() {
      port.readable = port.writable = null;
    },
  };
  window.bench = bench;
  Object.defineProperty(navigator, "serial", { value: { requestPort: async () => port } });
}
