// The wing's folded section at any station of the half span.

import { spoken, svg } from "./words.js";

export function drawSection(board) {
  const rows = board.data.sections || [];
  board.section.hidden = !rows.length || board.fixed || board.views.length === 1 || board.root.clientHeight < 470;
  if (board.section.hidden) return;
  const half = rows[rows.length - 1].to;
  const y = board.station * half;
  const row = rows.find((r) => y >= r.from && y <= r.to) || rows[0];
  const t = row.to > row.from ? (y - row.from) / (row.to - row.from) : 0;
  const chord = row.chords[0] + t * (row.chords[1] - row.chords[0]);
  const units = board.data.units;
  const path = (list) => list.map(([u, v]) => `${(200 * u).toFixed(1)} ${(-200 * v).toFixed(1)}`).join("L");
  const spar = row.spar
    ? `<rect class="sec-spar" x="${200 * row.spar[0]}" y="${-200 * row.spar[3]}" width="${200 * (row.spar[2] - row.spar[0])}" height="${200 * (row.spar[3] - row.spar[1])}"/>`
    : "";
  const rim = [...row.upper, ...[...row.lower].reverse()];
  const words = `${row.build} section, ${spoken(y, "length", units)} from the middle: chord ${spoken(chord, "length", units)}, thickness ${(100 * row.thickness).toFixed(1)} %, camber ${(100 * row.camber).toFixed(1)} %`;
  if (!board.section.firstChild) {
    board.section.innerHTML =
      '<svg viewBox="-6 -38 212 56" role="img"></svg><label><span></span><input type="range" min="0" max="1" step="0.02"></label>';
    const input = board.section.querySelector("input");
    input.value = board.station;
    input.addEventListener("input", () => {
      board.station = Number(input.value);
      drawSection(board);
    });
  }
  const picture = board.section.querySelector("svg");
  picture.innerHTML = `<path class="sec-rim" d="M${path(rim)}Z"/>${spar}`;
  picture.setAttribute("aria-label", words);
  board.section.querySelector("span").textContent = words;
}
