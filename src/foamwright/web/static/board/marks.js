// Outlines, the marks of the balance point, and the pins of findings.

import { px } from "./place.js";
import { GLYPHS, ROW, escaped, slug, spoken } from "./words.js";

export function drawViews(board) {
  const names = { top: "from above", side: "from the left", front: "from ahead" };
  board.layers.views.innerHTML = board.views
    .map((view) => {
      const shapes = board.data.figure[view].flatMap((s) => s.points || []);
      const disc = board.data.figure[view].find((s) => s.disc);
      const low = Math.min(...shapes.map((p) => p[1]), disc ? disc.disc[1] - disc.radius : Infinity);
      const mid = (Math.min(...shapes.map((p) => p[0])) + Math.max(...shapes.map((p) => p[0]))) / 2;
      const [x, y] = px(board, view, [mid, low]);
      const drop = view === "front" ? 24 : view === "side" ? 3.2 * ROW : 1.9 * ROW;
      const line =
        view === "side" ? "" : centreLine(board, view, shapes);
      if (board.views.length === 1) return line;
      return `${line}<text class="v-name" x="${x}" y="${y + drop}">${names[view]}</text>`;
    })
    .join("");
}

export function centreLine(board, view, shapes) {
  const ys = shapes.map((p) => p[1]);
  const [x, y0] = px(board, view, [0, Math.max(...ys)]);
  const y1 = px(board, view, [0, Math.min(...ys)])[1];
  return `<line class="v-centre" x1="${x}" x2="${x}" y1="${y0 - 12}" y2="${y1 + 12}"/>`;
}

export function outlines(board, view, shapes, ghost) {
  return shapes
    .map((shape) => {
      const kind = shape.id ? `item i-${shape.id}` : `s-${slug(shape.name)}`;
      const lit = !ghost && board.lit === (shape.id || shape.name) ? " lit" : "";
      const name = escaped(shape.name);
      const tag = ghost ? 'class="ghost"' : `class="shape ${kind}${lit}" data-name="${name}" data-item="${shape.id || ""}"`;
      const title = ghost ? "" : `<title>${name}</title>`;
      if (shape.disc) {
        const [x, y] = px(board, view, shape.disc);
        return `<circle ${tag} cx="${x}" cy="${y}" r="${shape.radius * board.zoom.k}">${title}</circle>`;
      }
      const d = shape.points.map((p) => px(board, view, p).map((v) => v.toFixed(1)).join(" ")).join("L");
      return `<path ${tag} d="M${d}Z">${title}</path>`;
    })
    .join("");
}

export function drawMarks(board, marks) {
  if (!marks || !board.views.includes("side")) {
    board.layers.marks.innerHTML = "";
    return;
  }
  const at = (x, z) => px(board, "side", [x, z]);
  const [x, y] = at(marks.cg, marks.height);
  const [front] = at(marks.forward, 0);
  const [aft] = at(marks.aft, 0);
  const [neutral] = at(marks.neutral, 0);
  const [trayFront, trayY] = at(marks.pack_front, packHeight(board));
  const [trayBack] = at(marks.pack_back, 0);
  const out = marks.cg < marks.forward || marks.cg > marks.aft ? " out" : "";
  const quarter = "M0 0L0 -9A9 9 0 0 1 9 0ZM0 0L0 9A9 9 0 0 1 -9 0Z";
  const list = [
    `<line class="tray" x1="${trayFront}" x2="${trayBack}" y1="${trayY}" y2="${trayY}"/>`,
    `<line class="tray end" x1="${trayFront}" x2="${trayFront}" y1="${trayY - 6}" y2="${trayY + 6}"/>`,
    `<line class="tray end" x1="${trayBack}" x2="${trayBack}" y1="${trayY - 6}" y2="${trayY + 6}"/>`,
    `<rect class="cg-band" x="${front}" y="${y - 4}" width="${Math.max(aft - front, 1)}" height="8"><title>where the balance point may lie</title></rect>`,
    `<path class="neutral" d="M${neutral} ${y - 9}l5 9l-5 9l-5 -9Z"><title>neutral point: behind it the plane is not stable</title></path>`,
    `<g class="cg${out}" transform="translate(${x} ${y})"><circle r="9"/><path d="${quarter}"/><title>balance point (CG)</title></g>`,
  ];
  if (board.views.length === 1) list.push(beam(board, marks, out));
  board.layers.marks.innerHTML = list.join("");
}

export function beam(board, marks, out) {
  // A scale of its own under the plane: where the balance point is, where it may be, and where the
  // pack can bring it. It is drawn larger than the plane, or the band would be a few pixels wide.
  const { width, height } = board.root.getBoundingClientRect();
  const ends = [marks.forward, marks.aft, marks.neutral, marks.cg, marks.cg_front, marks.cg_back];
  const low = Math.min(...ends);
  const room = Math.max(...ends) - low;
  const x = (at) => 0.16 * width + (0.68 * width * (at - low)) / room;
  const y = height - 96;
  const word = (at, dy, text, anchor) =>
    `<line class="m-lead" x1="${x(at)}" x2="${x(at)}" y1="${y}" y2="${y + dy - 12}"/>` +
    `<text class="m-word" x="${x(at)}" y="${y + dy}" text-anchor="${anchor}">${text}</text>`;
  const units = board.data.units;
  const edge = board.data.edge;
  const far = (at) => spoken(at - edge, "length", units);
  return (
    `<line class="m-beam" x1="${0.1 * width}" x2="${0.9 * width}" y1="${y}" y2="${y}"/>` +
    `<rect class="cg-band" x="${x(marks.forward)}" y="${y - 8}" width="${Math.max(x(marks.aft) - x(marks.forward), 1)}" height="16"/>` +
    `<line class="m-reach" x1="${x(marks.cg_front)}" x2="${x(marks.cg_back)}" y1="${y + 14}" y2="${y + 14}"/>` +
    `<line class="m-spread" x1="${x(marks.low)}" x2="${x(marks.high)}" y1="${y - 13}" y2="${y - 13}"/>` +
    word(marks.forward, 36, `front limit ${far(marks.forward)}`, "end") +
    word(marks.aft, 36, `rear limit ${far(marks.aft)}`, "start") +
    word(marks.neutral, 56, "neutral point", "start") +
    `<text class="m-word reach" x="${(x(marks.cg_front) + x(marks.cg_back)) / 2}" y="${y + 76}" text-anchor="middle">the pack can bring it from ${far(marks.cg_front)} to ${far(marks.cg_back)}</text>` +
    `<g class="cg${out}" transform="translate(${x(marks.cg)} ${y})"><circle r="9"/><path d="M0 0L0 -9A9 9 0 0 1 9 0ZM0 0L0 9A9 9 0 0 1 -9 0Z"/></g>` +
    `<text class="m-word strong" x="${x(marks.cg)}" y="${y - 22}" text-anchor="middle">balance point, ${far(marks.cg)} behind the wing's edge</text>`
  );
}

export function packHeight(board) {
  const pack = board.data.dims.find((d) => d.block === "pack");
  return pack ? pack.b[1] : 0;
}

export function drawPins(board) {
  const taken = [];
  const marks = board.pins
    .map((pin) => {
      const anchor = board.data.anchors[pin.anchor];
      if (!anchor || !board.views.includes(anchor.view)) return "";
      const [x, y] = px(board, anchor.view, anchor.at);
      const to = [x + 16, y - (anchor.view === "side" ? 84 : 26)];
      while (taken.some((other) => Math.hypot(other[0] - to[0], other[1] - to[1]) < 24)) to[0] += 24;
      taken.push(to);
      const kind = pin.verdict.replace(" ", "-");
      const body =
        pin.verdict === "fails"
          ? '<rect x="-10" y="-10" width="20" height="20"/>'
          : '<circle r="10"/>';
      return (
        `<g class="pin ${kind}" data-pin="${pin.id}" tabindex="0" role="button" ` +
        `aria-label="${escaped(pin.verdict)}: ${escaped(pin.title)}">` +
        `<line x1="${x}" y1="${y}" x2="${to[0]}" y2="${to[1]}"/><circle class="foot" cx="${x}" cy="${y}" r="2.5"/>` +
        `<g transform="translate(${to[0]} ${to[1]})">${body}<text>${GLYPHS[pin.verdict]}</text></g>` +
        `<title>${escaped(pin.title)} ${escaped(pin.verdict)}</title></g>`
      );
    })
    .join("");
  if (marks !== board.lastPins) {
    const focused = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.pin : "";
    board.layers.pins.innerHTML = marks;
    board.lastPins = marks;
    if (focused) {
      const again = board.layers.pins.querySelector(`[data-pin="${focused}"]`);
      if (again) again.focus();
    }
  }
}
