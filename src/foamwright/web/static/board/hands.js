// What pointer and keyboard do: drag a dimension, move the sheet, pick a part.

import { closeTyping, type } from "./typing.js";
import { stepOf } from "./words.js";

export function down(board, e) {
  const pin = e.target.closest("[data-pin]");
  if (pin) {
    board.emit("pin", { id: pin.dataset.pin });
    return;
  }
  const dim = e.target.closest("[data-dim]");
  board.svg.setPointerCapture(e.pointerId);
  if (dim && e.button === 0) {
    e.preventDefault();
    dim.focus();
    begin(board, dim.dataset.dim, [e.clientX, e.clientY]);
    return;
  }
  const shape = e.target.closest(".shape");
  board.panning = {
    from: [e.clientX, e.clientY],
    zoom: { ...board.zoom },
    shape: shape ? { name: shape.dataset.name, item: shape.dataset.item } : null,
    moved: false,
  };
}

export function begin(board, id, from) {
  const d = (board.truth || board.data).dims.find((row) => row.id === id);
  if (!d) return;
  closeTyping(board);
  board.drag = { id, from: d.value, value: d.value, start: from, moved: false, held: true };
  board.drag.gain = gainOf(board, d);
}

export function gainOf(board, d) {
  const k = board.zoom.k;
  if (d.id === "nose") return [-k, 0];
  const morph = board.morphs[d.id];
  const ends = morph && morph.ends[d.id];
  if (ends) {
    const b = ends[1];
    if (Math.hypot(b[0], b[1]) > 0.05) return [b[0] * k, -b[1] * k];
  }
  if (d.kind === "angle") return [0, -k * Math.hypot(d.b[0] - d.a[0], d.b[1] - d.a[1])];
  const n = Math.hypot(d.b[0] - d.a[0], d.b[1] - d.a[1]) || 1;
  return [((d.b[0] - d.a[0]) / n) * k, (-(d.b[1] - d.a[1]) / n) * k];
}

export function move(board, e) {
  if (board.panning) {
    const dx = e.clientX - board.panning.from[0];
    const dy = e.clientY - board.panning.from[1];
    if (Math.hypot(dx, dy) < 3 && !board.panning.moved) return;
    board.panning.moved = true;
    board.zoom = { ...board.panning.zoom, x: board.panning.zoom.x + dx, y: board.panning.zoom.y + dy, fitted: false };
    board.draw();
    return;
  }
  if (!board.drag || !board.drag.held) return;
  const by = [e.clientX - board.drag.start[0], e.clientY - board.drag.start[1]];
  if (!board.drag.moved && Math.hypot(by[0], by[1]) < 3) return;
  board.drag.moved = true;
  const g = board.drag.gain;
  turnTo(board, board.drag.from + (by[0] * g[0] + by[1] * g[1]) / (g[0] * g[0] + g[1] * g[1]));
}

export function turnTo(board, wanted) {
  const d = board.data.dims.find((row) => row.id === board.drag.id);
  const step = stepOf(d.kind, board.data.units);
  let value = Math.round(wanted / step) * step;
  if (d.kind === "length" && !d.block) value = Math.max(value, step);
  if (Math.abs(value - board.drag.value) < step / 10) return;
  board.drag.value = value;
  board.draw();
  send(board, d.id, value);
}

export function send(board, id, value) {
  if (board.waiting !== null) {
    board.pending = { id, value };
    return;
  }
  board.waiting = ++board.sequence;
  board.emit("drag", { id, value, sequence: board.waiting, sent: performance.now(), generation: board.generation });
}

export function up(board) {
  if (board.panning) {
    if (!board.panning.moved) pick(board, board.panning.shape);
    board.panning = null;
    return;
  }
  if (!board.drag) return;
  const { id, value, moved, from } = board.drag;
  board.drag.held = false;
  if (!moved) {
    board.drag = null;
    board.draw();
    type(board, id);
  } else if (Math.abs(value - from) > 1e-9) {
    board.pending = null;
    board.emit("drop", { id, value });
  } else {
    cancel(board);
  }
}

export function cancel(board) {
  board.drag = board.truth = board.panning = board.pending = null;
  board.draw();
  board.emit("cancel", {});
}

export function pick(board, shape) {
  board.lit = shape ? shape.item || shape.name : "";
  board.say(shape ? shape.name : "");
  board.draw();
}

export function key(board, e) {
  const pin = e.target.closest("[data-pin]");
  if (pin && (e.key === "Enter" || e.key === " ")) {
    e.preventDefault();
    board.emit("pin", { id: pin.dataset.pin });
    return;
  }
  const dim = e.target.closest("[data-dim]");
  if (!dim) return;
  const up = e.key === "ArrowUp" || e.key === "ArrowRight";
  if (up || e.key === "ArrowDown" || e.key === "ArrowLeft") {
    e.preventDefault();
    nudge(board, dim.dataset.dim, (up ? 1 : -1) * (e.shiftKey ? 8 : 1));
  } else if (e.key === "Enter" || e.key === " ") {
    e.preventDefault();
    type(board, dim.dataset.dim);
  } else if (e.key === "Escape" && board.drag) {
    clearTimeout(board.nudging);
    cancel(board);
  }
}

export function nudge(board, id, steps) {
  if (!board.drag || board.drag.id !== id) begin(board, id, [0, 0]);
  if (!board.drag) return;
  const d = board.data.dims.find((row) => row.id === id);
  turnTo(board, board.drag.value + steps * stepOf(d.kind, board.data.units));
  clearTimeout(board.nudging);
  board.nudging = setTimeout(() => {
    if (!board.drag || board.drag.id !== id) return;
    board.drag.held = false;
    board.pending = null;
    board.emit("drop", { id, value: board.drag.value });
  }, 450);
}
