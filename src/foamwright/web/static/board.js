// The drawing board: three views of the plane to scale, with dimensions to drag or type.
// It computes nothing about planes: outlines come from the server, and so does what moves with
// each dimension; in between it only interpolates, so that a drag is drawn within one frame.

const INCH = 0.0254;
const ROW = 25; // px between rows of dimension lines
const NS = "http://www.w3.org/2000/svg";
const GLYPHS = { fails: "✕", close: "≈", "cannot say": "?" };

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

function stepOf(kind, units) {
  if (kind === "angle") return Math.PI / 720; // a quarter of a degree
  return units === "inch" ? INCH / 16 : 0.001;
}

function svg(tag, attributes, parent) {
  const made = document.createElementNS(NS, tag);
  for (const [name, value] of Object.entries(attributes || {})) made.setAttribute(name, value);
  if (parent) parent.appendChild(made);
  return made;
}

function slug(name) {
  return name.replace(/[^a-z]+/gi, "-").toLowerCase();
}

function escaped(text) {
  return String(text).replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
}

class Board {
  constructor(root, emit) {
    this.root = root;
    this.emit = emit;
    this.data = null;
    this.morphs = {};
    this.ghost = null;
    this.pins = [];
    this.views = ["top", "side", "front"];
    this.zoom = null; // {k, x, y}: px = k * metres + offset; null fits the sheet
    this.drag = null;
    this.waiting = null;
    this.pending = null;
    this.sequence = 0;
    this.lit = "";
    this.station = 0.4;
    this.marks = {};
    this.build();
  }

  build() {
    this.svg = svg("svg", { class: "fw-sheet", role: "group", "aria-label": "Drawing of the plane" });
    this.root.appendChild(this.svg);
    this.layers = {};
    for (const name of ["views", "ghosts", "shapes", "marks", "dims", "pins"]) {
      this.layers[name] = svg("g", { class: `l-${name}` }, this.svg);
    }
    this.dimNodes = {};
    this.tools = document.createElement("div");
    this.tools.className = "fw-tools";
    this.tools.innerHTML =
      '<button type="button" data-do="in" aria-label="Larger">+</button>' +
      '<button type="button" data-do="out" aria-label="Smaller">−</button>' +
      '<button type="button" data-do="fit" aria-label="Whole sheet">whole sheet</button>';
    this.root.appendChild(this.tools);
    this.status = document.createElement("div");
    this.status.className = "fw-status";
    this.status.setAttribute("role", "status");
    this.root.appendChild(this.status);
    this.section = document.createElement("div");
    this.section.className = "fw-section";
    this.root.appendChild(this.section);
    this.listen();
  }

  listen() {
    this.tools.addEventListener("click", (e) => {
      const what = e.target.dataset && e.target.dataset.do;
      if (what === "fit") this.fit();
      else if (what) this.zoomBy(what === "in" ? 1.25 : 0.8);
    });
    this.svg.addEventListener("pointerdown", (e) => this.down(e));
    this.svg.addEventListener("pointermove", (e) => this.move(e));
    this.svg.addEventListener("pointerup", (e) => this.up(e));
    this.svg.addEventListener("pointercancel", () => this.cancel());
    this.svg.addEventListener("dblclick", (e) => {
      if (!e.target.closest("[data-dim]")) this.fit();
    });
    this.svg.addEventListener(
      "wheel",
      (e) => {
        e.preventDefault();
        const box = this.svg.getBoundingClientRect();
        this.zoomBy(Math.exp(-e.deltaY * 0.0015), e.clientX - box.left, e.clientY - box.top);
      },
      { passive: false }
    );
    this.svg.addEventListener("keydown", (e) => this.key(e));
    this.watcher = new ResizeObserver(() => this.data && this.draw());
    this.watcher.observe(this.root);
  }

  close() {
    this.watcher.disconnect();
  }

  // ---------------------------------------------------------------- data in

  set(data) {
    const settled = !this.drag || !this.drag.held;
    this.data = data;
    this.truth = null;
    if (settled || data.generation !== this.generation) {
      this.drag = null;
      this.waiting = this.pending = null;
    }
    if (data.generation !== this.generation) this.morphs = {};
    this.generation = data.generation;
    this.makeDims();
    this.drawSection();
    this.draw();
  }

  setMorphs(generation, morphs) {
    if (generation !== this.generation) return;
    this.morphs = morphs;
    this.root.dataset.ready = generation; // outlines follow a drag from now on
  }

  answer(reply) {
    if (reply.sequence === this.waiting) this.waiting = null;
    if (this.drag && reply.id === this.drag.id) {
      if (reply.refused) {
        this.say(reply.refused, true);
      } else {
        this.truth = reply;
        this.say("");
        this.draw();
      }
    }
    const times = (window.foamwrightLatency ||= []);
    times.push(performance.now() - reply.sent);
    if (times.length > 500) times.shift();
    if (this.pending && this.waiting === null) {
      const next = this.pending;
      this.pending = null;
      this.send(next.id, next.value);
    }
  }

  refuse(words) {
    this.drag = null;
    this.truth = null;
    this.waiting = this.pending = null;
    this.say(words, true);
    if (this.data) this.draw();
  }

  say(words, bad) {
    this.status.textContent = words;
    this.status.classList.toggle("bad", Boolean(bad));
  }

  // ---------------------------------------------------------------- figures

  figure() {
    const base = this.truth || this.data;
    if (!this.drag) return { views: base.figure, dims: base.dims, marks: base.marks };
    const morph = this.morphs[this.drag.id];
    const now = base.dims.find((d) => d.id === this.drag.id);
    const by = now ? this.drag.value - now.value : 0;
    if (!morph || !by) return { views: base.figure, dims: base.dims, marks: base.marks };
    const views = {};
    for (const view of Object.keys(base.figure)) {
      const steps = morph.views[view] || [];
      views[view] = base.figure[view].map((shape, i) => {
        const step = steps[i];
        if (!step || !shape.points || step.length !== shape.points.length) return shape;
        const points = shape.points.map((p, j) => [p[0] + step[j][0] * by, p[1] + step[j][1] * by]);
        return { ...shape, points };
      });
    }
    const dims = base.dims.map((d) => {
      const ends = morph.ends[d.id];
      if (!ends) return d;
      return {
        ...d,
        a: [d.a[0] + ends[0][0] * by, d.a[1] + ends[0][1] * by],
        b: [d.b[0] + ends[1][0] * by, d.b[1] + ends[1][1] * by],
      };
    });
    return { views, dims, marks: base.marks };
  }

  arrange() {
    const box = this.svg.getBoundingClientRect();
    const width = Math.max(box.width, 200);
    const beam = this.views.length === 1 ? 140 : 0; // kept free for the balance scale
    const height = Math.max(box.height - beam, 200);
    // On paper the sheet has another size than on the screen: the drawing is scaled as it stands.
    if (box.width) this.svg.setAttribute("viewBox", `0 0 ${box.width} ${box.height}`);
    const size = {};
    for (const view of this.views) {
      let [l, b, r, t] = [Infinity, Infinity, -Infinity, -Infinity];
      for (const shape of [...this.data.figure[view], ...(this.ghost ? this.ghost[view] : [])]) {
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
    const places = this.place(size, width, height);
    if (!this.zoom || this.zoom.fitted) {
      const k = Math.min((width - 40) / places.w, (height - 40) / places.h);
      this.zoom = {
        k,
        x: (width - k * places.w) / 2,
        y: (height - k * places.h) / 2,
        fitted: true,
      };
    }
    this.places = places;
  }

  place(size, width, height) {
    // Room for dimension lines is asked for in pixels, so it depends on the scale: settle in two turns.
    const views = this.views;
    let room = 0.12;
    let found = null;
    for (let turn = 0; turn < 4; turn++) {
      found = this.placeWith(size, room, width / height);
      const k = Math.min((width - 40) / found.w, (height - 40) / found.h);
      room = (2.7 * ROW) / k;
    }
    return views.length ? found : { w: 1, h: 1, at: {} };
  }

  placeWith(size, room, shape) {
    const at = {};
    if (this.views.length === 1) {
      const s = size[this.views[0]];
      at[this.views[0]] = [room - s.l, 0.6 * room + s.t];
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

  px(view, point) {
    const [ox, oy] = this.places.at[view];
    const pan = this.pan(view);
    const { k, x, y } = this.zoom;
    return [(ox + point[0] + pan[0]) * k + x, (oy - point[1] - pan[1]) * k + y];
  }

  pan(view) {
    // The nose is the datum: when it grows, the sheet moves so that the rest seems to stand still.
    if (!this.drag || this.drag.id !== "nose") return [0, 0];
    const by = this.drag.value - this.drag.from;
    return view === "side" ? [-by, 0] : view === "top" ? [0, by] : [0, 0];
  }

  // ---------------------------------------------------------------- drawing

  draw() {
    if (!this.data || !this.root.isConnected) return;
    this.arrange();
    const now = this.figure();
    this.drawViews();
    this.layers.shapes.innerHTML = this.views.map((view) => this.outlines(view, now.views[view])).join("");
    this.layers.ghosts.innerHTML = this.ghost
      ? this.views.map((view) => this.outlines(view, this.ghost[view], true)).join("")
      : "";
    this.drawMarks(now.marks);
    this.drawDims(now.dims);
    this.drawPins();
  }

  drawViews() {
    const names = { top: "from above", side: "from the left", front: "from ahead" };
    this.layers.views.innerHTML = this.views
      .map((view) => {
        const shapes = this.data.figure[view].flatMap((s) => s.points || []);
        const disc = this.data.figure[view].find((s) => s.disc);
        const low = Math.min(...shapes.map((p) => p[1]), disc ? disc.disc[1] - disc.radius : Infinity);
        const mid = (Math.min(...shapes.map((p) => p[0])) + Math.max(...shapes.map((p) => p[0]))) / 2;
        const [x, y] = this.px(view, [mid, low]);
        const drop = view === "front" ? 24 : view === "side" ? 3.2 * ROW : 1.9 * ROW;
        const line =
          view === "side" ? "" : this.centreLine(view, shapes);
        if (this.views.length === 1) return line;
        return `${line}<text class="v-name" x="${x}" y="${y + drop}">${names[view]}</text>`;
      })
      .join("");
  }

  centreLine(view, shapes) {
    const ys = shapes.map((p) => p[1]);
    const [x, y0] = this.px(view, [0, Math.max(...ys)]);
    const y1 = this.px(view, [0, Math.min(...ys)])[1];
    return `<line class="v-centre" x1="${x}" x2="${x}" y1="${y0 - 12}" y2="${y1 + 12}"/>`;
  }

  outlines(view, shapes, ghost) {
    return shapes
      .map((shape) => {
        const kind = shape.id ? `item i-${shape.id}` : `s-${slug(shape.name)}`;
        const lit = !ghost && this.lit === (shape.id || shape.name) ? " lit" : "";
        const name = escaped(shape.name);
        const tag = ghost ? 'class="ghost"' : `class="shape ${kind}${lit}" data-name="${name}" data-item="${shape.id || ""}"`;
        const title = ghost ? "" : `<title>${name}</title>`;
        if (shape.disc) {
          const [x, y] = this.px(view, shape.disc);
          return `<circle ${tag} cx="${x}" cy="${y}" r="${shape.radius * this.zoom.k}">${title}</circle>`;
        }
        const d = shape.points.map((p) => this.px(view, p).map((v) => v.toFixed(1)).join(" ")).join("L");
        return `<path ${tag} d="M${d}Z">${title}</path>`;
      })
      .join("");
  }

  drawMarks(marks) {
    if (!marks || !this.views.includes("side")) {
      this.layers.marks.innerHTML = "";
      return;
    }
    const at = (x, z) => this.px("side", [x, z]);
    const [x, y] = at(marks.cg, marks.height);
    const [front] = at(marks.forward, 0);
    const [aft] = at(marks.aft, 0);
    const [neutral] = at(marks.neutral, 0);
    const [trayFront, trayY] = at(marks.pack_front, this.packHeight());
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
    if (this.views.length === 1) list.push(this.beam(marks, out));
    this.layers.marks.innerHTML = list.join("");
  }

  beam(marks, out) {
    // A scale of its own under the plane: where the balance point is, where it may be, and where the
    // pack can bring it. It is drawn larger than the plane, or the band would be a few pixels wide.
    const { width, height } = this.root.getBoundingClientRect();
    const ends = [marks.forward, marks.aft, marks.neutral, marks.cg, marks.cg_front, marks.cg_back];
    const low = Math.min(...ends);
    const room = Math.max(...ends) - low;
    const x = (at) => 0.16 * width + (0.68 * width * (at - low)) / room;
    const y = height - 96;
    const word = (at, dy, text, anchor) =>
      `<line class="m-lead" x1="${x(at)}" x2="${x(at)}" y1="${y}" y2="${y + dy - 12}"/>` +
      `<text class="m-word" x="${x(at)}" y="${y + dy}" text-anchor="${anchor}">${text}</text>`;
    const units = this.data.units;
    const edge = this.data.edge;
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

  packHeight() {
    const pack = this.data.dims.find((d) => d.block === "pack");
    return pack ? pack.b[1] : 0;
  }

  makeDims() {
    const wanted = this.fixed ? [] : this.data.dims.filter((d) => this.views.includes(d.view));
    for (const id of Object.keys(this.dimNodes)) {
      if (!wanted.some((d) => d.id === id)) {
        this.dimNodes[id].group.remove();
        delete this.dimNodes[id];
      }
    }
    for (const d of wanted) {
      if (this.dimNodes[d.id]) continue;
      const group = svg(
        "g",
        { class: `dim d-${slug(d.id)}`, "data-dim": d.id, tabindex: "0", role: "slider" },
        this.layers.dims
      );
      const title = svg("title", {}, group);
      const lines = svg("path", { class: "d-line" }, group);
      const hit = svg("path", { class: "d-hit" }, group);
      const block = d.block ? svg("rect", { class: "d-block" }, group) : null;
      const grip = svg("path", { class: "d-grip", d: "M-5 0L0 -5L5 0L0 5Z" }, group);
      const plate = svg("rect", { class: "d-plate", rx: "2" }, group);
      const text = svg("text", { class: "d-text" }, group);
      this.dimNodes[d.id] = { group, title, lines, hit, block, grip, plate, text };
    }
  }

  drawDims(dims) {
    for (const d of dims) {
      const node = this.dimNodes[d.id];
      if (!node) continue;
      const held = this.drag && this.drag.id === d.id;
      const value = held ? this.drag.value : d.value;
      const words = held ? spoken(value, d.kind, this.data.units) : d.words;
      this.drawDim(d, node, `${d.label} ${words}`);
      node.group.classList.toggle("held", Boolean(held));
      node.title.textContent = `${d.label}: ${d.help} Drag it, or click to type.`;
      node.group.setAttribute("aria-label", d.label);
      node.group.setAttribute("aria-valuenow", value.toFixed(4));
      node.group.setAttribute("aria-valuetext", words);
    }
  }

  drawDim(d, node, words) {
    const off = d.level * ROW + 14;
    const side = [d.side[0], -d.side[1]];
    const [a, b] = [this.px(d.view, d.a), this.px(d.view, d.b)];
    if (d.block) return this.drawBlock(d, node, words, b);
    if (d.kind === "angle") return this.drawAngle(node, words, a, b);
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
    this.label(node, words, middle, turned);
    return undefined;
  }

  drawAngle(node, words, a, b) {
    node.lines.setAttribute("d", `M${a[0]} ${a[1]}L${b[0]} ${a[1]}`);
    node.hit.setAttribute("d", `M${b[0] - 8} ${b[1]}L${b[0] + 8} ${b[1]}`);
    node.grip.setAttribute("transform", `translate(${b[0]} ${b[1]})`);
    this.label(node, words, [b[0] - 34, Math.min(a[1], b[1]) - 16], false);
  }

  drawBlock(d, node, words, b) {
    const item = this.itemBox(d);
    node.lines.setAttribute("d", d.block === "pack" ? `M${b[0]} ${item.y - 12}L${b[0]} ${item.y}` : "");
    node.hit.setAttribute("d", "");
    for (const name of ["x", "y", "width", "height"]) node.block.setAttribute(name, item[name]);
    node.grip.setAttribute("transform", `translate(${b[0]} ${b[1]})`);
    const at = d.block === "pack" ? [b[0] - 6, item.y - 20] : [b[0] - 8, b[1] - this.reach() - 12];
    this.label(node, words, at, false);
  }

  reach() {
    const disc = this.data.figure.front.find((s) => s.disc);
    return disc ? disc.radius * this.zoom.k : 20;
  }

  itemBox(d) {
    const now = this.figure().views[d.view].find((s) => s.id === d.block);
    const points = (now ? now.points : [d.b, d.b]).map((p) => this.px(d.view, p));
    const xs = points.map((p) => p[0]);
    const ys = points.map((p) => p[1]);
    const [x, y] = [Math.min(...xs), Math.min(...ys)];
    return { x, y, width: Math.max(...xs) - x, height: Math.max(...ys) - y };
  }

  label(node, words, at, turned) {
    const wide = 6.7 * words.length + 10;
    if (!turned) at[0] = Math.min(Math.max(at[0], wide / 2 + 2), this.root.clientWidth - wide / 2 - 2);
    node.text.textContent = words;
    const turn = turned ? ` rotate(-90)` : "";
    node.text.setAttribute("transform", `translate(${at[0]} ${at[1]})${turn}`);
    node.plate.setAttribute("transform", `translate(${at[0]} ${at[1]})${turn}`);
    for (const [name, value] of [["x", -wide / 2], ["y", -9], ["width", wide], ["height", 18]]) {
      node.plate.setAttribute(name, value);
    }
    node.at = at;
  }

  drawPins() {
    const taken = [];
    const marks = this.pins
      .map((pin) => {
        const anchor = this.data.anchors[pin.anchor];
        if (!anchor || !this.views.includes(anchor.view)) return "";
        const [x, y] = this.px(anchor.view, anchor.at);
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
    if (marks !== this.lastPins) {
      const focused = document.activeElement && document.activeElement.dataset ? document.activeElement.dataset.pin : "";
      this.layers.pins.innerHTML = marks;
      this.lastPins = marks;
      if (focused) {
        const again = this.layers.pins.querySelector(`[data-pin="${focused}"]`);
        if (again) again.focus();
      }
    }
  }

  // ---------------------------------------------------------------- section at a station

  drawSection() {
    const rows = this.data.sections || [];
    this.section.hidden = !rows.length || this.fixed || this.views.length === 1 || this.root.clientHeight < 470;
    if (this.section.hidden) return;
    const half = rows[rows.length - 1].to;
    const y = this.station * half;
    const row = rows.find((r) => y >= r.from && y <= r.to) || rows[0];
    const t = row.to > row.from ? (y - row.from) / (row.to - row.from) : 0;
    const chord = row.chords[0] + t * (row.chords[1] - row.chords[0]);
    const units = this.data.units;
    const path = (list) => list.map(([u, v]) => `${(200 * u).toFixed(1)} ${(-200 * v).toFixed(1)}`).join("L");
    const spar = row.spar
      ? `<rect class="sec-spar" x="${200 * row.spar[0]}" y="${-200 * row.spar[3]}" width="${200 * (row.spar[2] - row.spar[0])}" height="${200 * (row.spar[3] - row.spar[1])}"/>`
      : "";
    const rim = [...row.upper, ...[...row.lower].reverse()];
    const words = `${row.build} section, ${spoken(y, "length", units)} from the middle: chord ${spoken(chord, "length", units)}, thickness ${(100 * row.thickness).toFixed(1)} %, camber ${(100 * row.camber).toFixed(1)} %`;
    if (!this.section.firstChild) {
      this.section.innerHTML =
        '<svg viewBox="-6 -38 212 56" role="img"></svg><label><span></span><input type="range" min="0" max="1" step="0.02"></label>';
      const input = this.section.querySelector("input");
      input.value = this.station;
      input.addEventListener("input", () => {
        this.station = Number(input.value);
        this.drawSection();
      });
    }
    const picture = this.section.querySelector("svg");
    picture.innerHTML = `<path class="sec-rim" d="M${path(rim)}Z"/>${spar}`;
    picture.setAttribute("aria-label", words);
    this.section.querySelector("span").textContent = words;
  }

  // ---------------------------------------------------------------- hands

  down(e) {
    const pin = e.target.closest("[data-pin]");
    if (pin) {
      this.emit("pin", { id: pin.dataset.pin });
      return;
    }
    const dim = e.target.closest("[data-dim]");
    this.svg.setPointerCapture(e.pointerId);
    if (dim && e.button === 0) {
      e.preventDefault();
      dim.focus();
      this.begin(dim.dataset.dim, [e.clientX, e.clientY]);
      return;
    }
    const shape = e.target.closest(".shape");
    this.panning = {
      from: [e.clientX, e.clientY],
      zoom: { ...this.zoom },
      shape: shape ? { name: shape.dataset.name, item: shape.dataset.item } : null,
      moved: false,
    };
  }

  begin(id, from) {
    const d = (this.truth || this.data).dims.find((row) => row.id === id);
    if (!d) return;
    this.closeTyping();
    this.drag = { id, from: d.value, value: d.value, start: from, moved: false, held: true };
    this.drag.gain = this.gainOf(d);
  }

  gainOf(d) {
    const k = this.zoom.k;
    if (d.id === "nose") return [-k, 0];
    const morph = this.morphs[d.id];
    const ends = morph && morph.ends[d.id];
    if (ends) {
      const b = ends[1];
      if (Math.hypot(b[0], b[1]) > 0.05) return [b[0] * k, -b[1] * k];
    }
    if (d.kind === "angle") return [0, -k * Math.hypot(d.b[0] - d.a[0], d.b[1] - d.a[1])];
    const n = Math.hypot(d.b[0] - d.a[0], d.b[1] - d.a[1]) || 1;
    return [((d.b[0] - d.a[0]) / n) * k, (-(d.b[1] - d.a[1]) / n) * k];
  }

  move(e) {
    if (this.panning) {
      const dx = e.clientX - this.panning.from[0];
      const dy = e.clientY - this.panning.from[1];
      if (Math.hypot(dx, dy) < 3 && !this.panning.moved) return;
      this.panning.moved = true;
      this.zoom = { ...this.panning.zoom, x: this.panning.zoom.x + dx, y: this.panning.zoom.y + dy, fitted: false };
      this.draw();
      return;
    }
    if (!this.drag || !this.drag.held) return;
    const by = [e.clientX - this.drag.start[0], e.clientY - this.drag.start[1]];
    if (!this.drag.moved && Math.hypot(by[0], by[1]) < 3) return;
    this.drag.moved = true;
    const g = this.drag.gain;
    this.turnTo(this.drag.from + (by[0] * g[0] + by[1] * g[1]) / (g[0] * g[0] + g[1] * g[1]));
  }

  turnTo(wanted) {
    const d = this.data.dims.find((row) => row.id === this.drag.id);
    const step = stepOf(d.kind, this.data.units);
    let value = Math.round(wanted / step) * step;
    if (d.kind === "length" && !d.block) value = Math.max(value, step);
    if (Math.abs(value - this.drag.value) < step / 10) return;
    this.drag.value = value;
    this.draw();
    this.send(d.id, value);
  }

  send(id, value) {
    if (this.waiting !== null) {
      this.pending = { id, value };
      return;
    }
    this.waiting = ++this.sequence;
    this.emit("drag", { id, value, sequence: this.waiting, sent: performance.now(), generation: this.generation });
  }

  up() {
    if (this.panning) {
      if (!this.panning.moved) this.pick(this.panning.shape);
      this.panning = null;
      return;
    }
    if (!this.drag) return;
    const { id, value, moved, from } = this.drag;
    this.drag.held = false;
    if (!moved) {
      this.drag = null;
      this.draw();
      this.type(id);
    } else if (Math.abs(value - from) > 1e-9) {
      this.pending = null;
      this.emit("drop", { id, value });
    } else {
      this.cancel();
    }
  }

  cancel() {
    this.drag = this.truth = this.panning = this.pending = null;
    this.draw();
    this.emit("cancel", {});
  }

  pick(shape) {
    this.lit = shape ? shape.item || shape.name : "";
    this.say(shape ? shape.name : "");
    this.draw();
  }

  key(e) {
    const pin = e.target.closest("[data-pin]");
    if (pin && (e.key === "Enter" || e.key === " ")) {
      e.preventDefault();
      this.emit("pin", { id: pin.dataset.pin });
      return;
    }
    const dim = e.target.closest("[data-dim]");
    if (!dim) return;
    const up = e.key === "ArrowUp" || e.key === "ArrowRight";
    if (up || e.key === "ArrowDown" || e.key === "ArrowLeft") {
      e.preventDefault();
      this.nudge(dim.dataset.dim, (up ? 1 : -1) * (e.shiftKey ? 8 : 1));
    } else if (e.key === "Enter" || e.key === " ") {
      e.preventDefault();
      this.type(dim.dataset.dim);
    } else if (e.key === "Escape" && this.drag) {
      clearTimeout(this.nudging);
      this.cancel();
    }
  }

  nudge(id, steps) {
    if (!this.drag || this.drag.id !== id) this.begin(id, [0, 0]);
    if (!this.drag) return;
    const d = this.data.dims.find((row) => row.id === id);
    this.turnTo(this.drag.value + steps * stepOf(d.kind, this.data.units));
    clearTimeout(this.nudging);
    this.nudging = setTimeout(() => {
      if (!this.drag || this.drag.id !== id) return;
      this.drag.held = false;
      this.pending = null;
      this.emit("drop", { id, value: this.drag.value });
    }, 450);
  }

  type(id) {
    this.closeTyping();
    const node = this.dimNodes[id];
    const d = this.data.dims.find((row) => row.id === id);
    const input = document.createElement("input");
    input.className = "fw-typing";
    input.value = d.words;
    input.setAttribute("aria-label", `${d.label}, in any unit`);
    input.style.left = `${node.at[0]}px`;
    input.style.top = `${node.at[1]}px`;
    this.root.appendChild(input);
    this.typing = input;
    this.say(`${d.label}: type it in any unit, such as 300 mm or 11 3/4 in`);
    input.focus();
    input.select();
    input.addEventListener("keydown", (e) => {
      e.stopPropagation();
      if (e.key === "Enter") {
        this.emit("typed", { id, text: input.value });
        this.closeTyping();
        node.group.focus();
      } else if (e.key === "Escape") {
        this.closeTyping();
        node.group.focus();
      }
    });
    input.addEventListener("blur", () => this.closeTyping());
  }

  closeTyping() {
    if (!this.typing) return;
    const input = this.typing;
    this.typing = null;
    input.remove();
    this.say("");
  }

  zoomBy(factor, x, y) {
    const box = this.svg.getBoundingClientRect();
    const [cx, cy] = [x ?? box.width / 2, y ?? box.height / 2];
    const k = Math.min(Math.max(this.zoom.k * factor, 60), 20000);
    const by = k / this.zoom.k;
    this.zoom = { k, x: cx - (cx - this.zoom.x) * by, y: cy - (cy - this.zoom.y) * by, fitted: false };
    this.draw();
  }

  fit() {
    this.zoom = null;
    this.draw();
  }
}

export default {
  template: '<div class="fw-board"></div>',
  props: { data: Object, views: Array, fixed: Boolean },
  mounted() {
    this.board = this.$el.fwBoard = new Board(this.$el, (name, value) => this.$emit(name, value));
    this.board.views = this.views || this.board.views;
    this.board.fixed = this.fixed;
    if (this.data) this.board.set(this.data);
  },
  beforeUnmount() {
    this.board.close();
  },
  methods: {
    put(data) {
      this.board.set(data);
    },
    morph(generation, morphs) {
      this.board.setMorphs(generation, morphs);
    },
    answer(reply) {
      this.board.answer(reply);
    },
    refuse(words) {
      this.board.refuse(words);
    },
    pin(pins) {
      this.board.pins = pins;
      if (this.board.data) this.board.draw();
    },
    haunt(ghost) {
      this.board.ghost = ghost;
      if (this.board.data) this.board.draw();
    },
  },
};
