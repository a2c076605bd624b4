// The core's advice names commands and options; on this page it names what does the same here.
import { words } from "./strings.js";

const { clock, fields, findings, checks, open, head, compare, take } = words;
const parts = { verify: findings.suspects, seal: checks.seal, compose: open.compose, convert: findings.takeBack, identify: head.layout };
const options = { form: open.form, layout: head.layout, "unsound-anyway": take.anyway, "when-lost": take.whenLost };

/// "rtcmend amend --clock now" and the like, in quotes.
function part(whole, command, rest) {
  if (command === "amend") return `"${rest.includes("--clock") ? clock.set : fields.heading}"`;
  return command in parts ? `"${parts[command]}"` : whole;
}

export const here = (text) =>
  text
    .replace(/"rtcmend ([a-z]+)([^"]*)"/g, part)
    .replace(/run rtcmend compare/g, words.advice.use(compare.heading))
    .replace(/run rtcmend verify/g, words.advice.lookAt(findings.heading))
    .replace(/--(form|layout|unsound-anyway|when-lost)\b/g, (whole, option) => `"${options[option]}"`);
