// The drawing board itself: what it holds, and when it is drawn.

import { drawDims, makeDims } from "./dims.js";
import { cancel, down, key, move, send, up } from "./hands.js";
import { drawMarks, drawPins, drawViews, outlines } from "./marks.js";
import { arrange } from "./place.js";
import { drawSection } from "./section.js";
import { svg } from "./words.js";

export class Board {
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
    this.svg.addEventListener("pointerdown", (e) => down(this, e));
    this.svg.addEventListener("pointermove", (e) => move(this, e));
    this.svg.addEventListener("pointerup", (e) => up(this, e));
    this.svg.addEventListener("pointercancel", () => cancel(this));
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
    this.svg.addEventListener("keydown", (e) => key(this, e));
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
    makeDims(this);
    drawSection(this);
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
      send(this, next.id, next.value);
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

  // ---------------------------------------------------------------- drawing

  draw() {
    if (!this.data || !this.root.isConnected) return;
    arrange(this);
    const now = this.figure();
    drawViews(this);
    this.layers.shapes.innerHTML = this.views.map((view) => outlines(this, view, now.views[view])).join("");
    this.layers.ghosts.innerHTML = this.ghost
      ? this.views.map((view) => outlines(this, view, this.ghost[view], true)).join("")
      : "";
    drawMarks(this, now.marks);
    drawDims(this, now.dims);
    drawPins(this);
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
