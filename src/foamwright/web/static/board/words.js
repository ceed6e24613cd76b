// Words, steps and small makers that every part of the board uses.

export const INCH = 0.0254;
export const ROW = 25; // px between rows of dimension lines
const NS = "http://www.w3.org/2000/svg";
export const GLYPHS = { fails: "✕", close: "≈", "cannot say": "?" };

function gcd(a, b) {
  return b ? gcd(b, a % b) : a;
}

export function spoken(value, kind, units) {
  if (kind === "angle") return `${(Math.round((value * 180 * 4) / Math.PI) / 4).toString()} deg`;
  if (units !== "inch") return `${Math.round(value * 1000)} mm`;
  const sixteenths = Math.round((Math.abs(value) / INCH) * 16);
  const whole = Math.floor(sixteenths / 16);
  const rest = sixteenths % 16;
  const sign = value < 0 && sixteenths ? "-" : "";
  if (!rest) return `${sign}${whole} in`;
  const d = gcd(rest, 16);
  return `${sign}${whole ? whole + " " : ""}${rest / d}/${16 / d} in`;
}

export function stepOf(kind, units) {
  if (kind === "angle") return Math.PI / 720; // a quarter of a degree
  return units === "inch" ? INCH / 16 : 0.001;
}

export function svg(tag, attributes, parent) {
  const made = document.createElementNS(NS, tag);
  for (const [name, value] of Object.entries(attributes || {})) made.setAttribute(name, value);
  if (parent) parent.appendChild(made);
  return made;
}

export function slug(name) {
  return name.replace(/[^a-z]+/gi, "-").toLowerCase();
}

export function escaped(text) {
  return String(text).replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
}
