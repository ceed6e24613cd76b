// Dimension lines with their grips and words.

import { px } from "./place.js";
import { ROW, slug, spoken, svg } from "./words.js";

export function makeDims(board) {
  const wanted = board.fixed ? [] : board.data.dims.filter((d) => board.views.includes(d.view));
  for (const id of Object.keys(board.dimNodes)) {
    if (!wanted.some((d) => d.id === id)) {
      board.dimNodes[id].group.remove();
      delete board.dimNodes[id];
    }
  }
  for (const d of wanted) {
    if (board.dimNodes[d.id]) continue;
    const group = svg(
      "g",
      { class: `dim d-${slug(d.id)}`, "data-dim": d.id, tabindex: "0", role: "slider" },
      board.layers.dims
    );
    const title = svg("title", {}, group);
    const lines = svg("path", { class: "d-line" }, group);
    const hit = svg("path", { class: "d-hit" }, group);
    const block = d.block ? svg("rect", { class: "d-block" }, group) : null;
    const grip = svg("path", { class: "d-grip", d: "M-5 0L0 -5L5 0L0 5Z" }, group);
    const plate = svg("rect", { class: "d-plate", rx: "2" }, group);
    const text = svg("text", { class: "d-text" }, group);
    board.dimNodes[d.id] = { group, title, lines, hit, block, grip, plate, text };
  }
}

export function drawDims(board, dims) {
  for (const d of dims) {
    const node = board.dimNodes[d.id];
    if (!node) continue;
    const held = board.drag && board.drag.id === d.id;
    const value = held ? board.drag.value : d.value;
    const words = held ? spoken(value, d.kind, board.data.units) : d.words;
    drawDim(board, d, node, `${d.label} ${words}`);
    node.group.classList.toggle("held", Boolean(held));
    node.title.textContent = `${d.label}: ${d.help} Drag it, or click to type.`;
    node.group.setAttribute("aria-label", d.label);
    node.group.setAttribute("aria-valuenow", value.toFixed(4));
    node.group.setAttribute("aria-valuetext", words);
  }
}

export function drawDim(board, d, node, words) {
  const off = d.level * ROW + 14;
  const side = [d.side[0], -d.side[1]];
  const [a, b] = [px(board, d.view, d.a), px(board, d.view, d.b)];
  if (d.block) return drawBlock(board, d, node, words, b);
  if (d.kind === "angle") return drawAngle(board, node, words, a, b);
  // A dimension line runs square to its side; the ends are brought to it by extension lines.
  const across = Math.abs(side[0]) > 0.5;
  const reach = across
    ? (side[0] > 0 ? Math.max(a[0], b[0]) : Math.min(a[0], b[0])) + side[0] * off
    : (side[1] > 0 ? Math.max(a[1], b[1]) : Math.min(a[1], b[1])) + side[1] * off;
  const [p, q] = across
    ? [[reach, a[1]], [reach, b[1]]]
    : [[a[0], reach], [b[0], reach]];
  const gap = (from, to) => {
    const n = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
    const u = [(to[0] - from[0]) / n, (to[1] - from[1]) / n];
    return `M${from[0] + 4 * u[0]} ${from[1] + 4 * u[1]}L${to[0] + 4 * u[0]} ${to[1] + 4 * u[1]}`;
  };
  const tick = (at) => `M${at[0] - 4} ${at[1] + 4}L${at[0] + 4} ${at[1] - 4}`;
  const line = `M${p[0]} ${p[1]}L${q[0]} ${q[1]}`;
  node.lines.setAttribute("d", `${gap(a, p)}${gap(b, q)}${line}${tick(p)}${tick(q)}`);
  node.hit.setAttribute("d", line);
  node.grip.setAttribute("transform", `translate(${q[0]} ${q[1]})`);
  const middle = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
  const turned = across && Math.abs(p[1] - q[1]) > 7.2 * words.length;
  const wide = 6.7 * words.length + 10;
  const short = !across && Math.abs(q[0] - p[0]) < wide + 8;
  if (short) middle[0] = q[0] + Math.sign(q[0] - p[0]) * (wide / 2 + 10); // beyond the moving end
  if (across && !turned) middle[0] += Math.sign(side[0]) * (3.4 * words.length + 10);
  label(board, node, words, middle, turned);
  return undefined;
}

export function drawAngle(board, node, words, a, b) {
  node.lines.setAttribute("d", `M${a[0]} ${a[1]}L${b[0]} ${a[1]}`);
  node.hit.setAttribute("d", `M${b[0] - 8} ${b[1]}L${b[0] + 8} ${b[1]}`);
  node.grip.setAttribute("transform", `translate(${b[0]} ${b[1]})`);
  label(board, node, words, [b[0] - 34, Math.min(a[1], b[1]) - 16], false);
}

export function drawBlock(board, d, node, words, b) {
  const item = itemBox(board, d);
  node.lines.setAttribute("d", d.block === "pack" ? `M${b[0]} ${item.y - 12}L${b[0]} ${item.y}` : "");
  node.hit.setAttribute("d", "");
  for (const name of ["x", "y", "width", "height"]) node.block.setAttribute(name, item[name]);
  node.grip.setAttribute("transform", `translate(${b[0]} ${b[1]})`);
  const at = d.block === "pack" ? [b[0] - 6, item.y - 20] : [b[0] - 8, b[1] - reach(board) - 12];
  label(board, node, words, at, false);
}

export function reach(board) {
  const disc = board.data.figure.front.find((s) => s.disc);
  return disc ? disc.radius * board.zoom.k : 20;
}

export function itemBox(board, d) {
  const now = board.figure().views[d.view].find((s) => s.id === d.block);
  const points = (now ? now.points : [d.b, d.b]).map((p) => px(board, d.view, p));
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x, y] = [Math.min(...xs), Math.min(...ys)];
  return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
}

export function label(board, node, words, at, turned) {
  const wide = 6.7 * words.length + 10;
  if (!turned) at[0] = Math.min(Math.max(at[0], wide / 2 + 2), board.root.clientWidth - wide / 2 - 2);
  node.text.textContent = words;
  const turn = turned ? ` rotate(-90)` : "";
  node.text.setAttribute("transform", `translate(${at[0]} ${at[1]})${turn}`);
  node.plate.setAttribute("transform", `translate(${at[0]} ${at[1]})${turn}`);
  for (const [name, value] of [["x", -wide / 2], ["y", -9], ["width", wide], ["height", 18]]) {
    node.plate.setAttribute(name, value);
  }
  node.at = at;
}
