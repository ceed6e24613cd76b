// Where the views lie on the sheet, and where a place of the plane lies on the screen.

import { ROW } from "./words.js";

export function arrange(board) {
  const box = board.svg.getBoundingClientRect();
  const width = Math.max(box.width, 200);
  const beam = board.views.length === 1 ? 140 : 0; // kept free for the balance scale
  const height = Math.max(box.height - beam, 200);
  // On paper the sheet has another size than on the screen: the drawing is scaled as it stands.
  if (box.width) board.svg.setAttribute("viewBox", `0 0 ${box.width} ${box.height}`);
  const size = {};
  for (const view of board.views) {
    let [l, b, r, t] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const shape of [...board.data.figure[view], ...(board.ghost ? board.ghost[view] : [])]) {
      for (const [x, y] of shape.points || []) {
        l = Math.min(l, x);
        r = Math.max(r, x);
        b = Math.min(b, y);
        t = Math.max(t, y);
      }
      if (shape.disc) {
        b = Math.min(b, shape.disc[1] - shape.radius);
        t = Math.max(t, shape.disc[1] + shape.radius);
      }
    }
    size[view] = { l, b, r, t, w: r - l, h: t - b };
  }
  const places = place(board, size, width, height);
  if (!board.zoom || board.zoom.fitted) {
    const k = Math.min((width - 40) / places.w, (height - 40) / places.h);
    board.zoom = {
      k,
      x: (width - k * places.w) / 2,
      y: (height - k * places.h) / 2,
      fitted: true,
    };
  }
  board.places = places;
}

export function place(board, size, width, height) {
  // Room for dimension lines is asked for in pixels, so it depends on the scale: settle in two turns.
  const views = board.views;
  let room = 0.12;
  let found = null;
  for (let turn = 0; turn < 4; turn++) {
    found = placeWith(board, size, room, width / height);
    const k = Math.min((width - 40) / found.w, (height - 40) / found.h);
    room = (2.7 * ROW) / k;
  }
  return views.length ? found : { w: 1, h: 1, at: {} };
}

export function placeWith(board, size, room, shape) {
  const at = {};
  if (board.views.length === 1) {
    const s = size[board.views[0]];
    at[board.views[0]] = [room - s.l, 0.6 * room + s.t];
    return { w: s.w + 2.6 * room, h: s.h + 1.9 * room, at };
  }
  const [top, side, front] = [size.top, size.side, size.front];
  const left = Math.max(top.w, front.w);
  if (shape > 1.15) {
    at.top = [room / 2 + left / 2 - (top.l + top.r) / 2, room + top.t];
    const under = room + top.h + 1.4 * room;
    at.front = [room / 2 + left / 2 - (front.l + front.r) / 2, under + front.t];
    at.side = [room / 2 + left + 1.2 * room - side.l, room + side.t];
    const tall = Math.max(under + front.h, room + side.h + room);
    return { w: left + side.w + 3.4 * room, h: tall + 0.5 * room, at };
  }
  const wide = Math.max(left, side.w);
  at.top = [room + wide / 2 - (top.l + top.r) / 2, room + top.t];
  const under = room + top.h + room;
  at.front = [room + wide / 2 - (front.l + front.r) / 2, under + front.t];
  const last = under + front.h + room;
  at.side = [room + wide / 2 - (side.l + side.r) / 2, last + side.t];
  return { w: wide + 2 * room, h: last + side.h + 1.2 * room, at };
}

export function px(board, view, point) {
  const [ox, oy] = board.places.at[view];
  const moved = pan(board, view);
  const { k, x, y } = board.zoom;
  return [(ox + point[0] + moved[0]) * k + x, (oy - point[1] - moved[1]) * k + y];
}

export function pan(board, view) {
  // The nose is the datum: when it grows, the sheet moves so that the rest seems to stand still.
  if (!board.drag || board.drag.id !== "nose") return [0, 0];
  const by = board.drag.value - board.drag.from;
  return view === "side" ? [-by, 0] : view === "top" ? [0, by] : [0, 0];
}
