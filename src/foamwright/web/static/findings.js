// What the checks say, gravest first; each opens to its reason, source, and what would mend it.

const GLYPHS = { fails: "✕", close: "≈", "cannot say": "?", holds: "✓" };
const COUNT = {
  fails: (n) => (n === 1 ? "1 fails" : `${n} fail`),
  close: (n) => (n === 1 ? "1 is close" : `${n} are close`),
  "cannot say": (n) => `${n} cannot be said`,
  holds: (n) => (n === 1 ? "1 holds" : `${n} hold`),
};

function escaped(text) {
  return String(text ?? "").replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);
}

function percent(ratio) {
  if (ratio === null || ratio === undefined) return "–";
  const n = Math.round(100 * ratio);
  if (n > 999) return "ample";
  return `${n > 0 ? "+" : n < 0 ? "−" : ""}${Math.abs(n)} %`;
}

export default {
  template: '<div class="fw-findings"></div>',
  props: { findings: Array, generation: Number },
  mounted() {
    this.rows = this.findings || [];
    this.now = this.$props.generation;
    this.changes = {};
    this.before = {};
    this.opened = new Set();
    this.showAll = false;
    this.$el.addEventListener("click", (e) => this.click(e));
    this.draw();
  },
  methods: {
    // A settled state: margins seen before are kept, so that every row can say how it moved.
    put(rows, before, generation) {
      this.settled = null;
      this.now = generation;
      this.rows = rows;
      this.before = before || {};
      this.changes = {};
      this.draw();
    },
    // While a dimension is dragged or a change is tried.
    live(rows, generation) {
      if (generation !== this.now) return; // an answer to a question of before
      const was = {};
      const known = {};
      for (const row of this.settled || this.rows) {
        was[row.id] = row.margin;
        known[row.id] = row;
      }
      this.settled ||= this.rows;
      this.before = was;
      // A row that comes as id, verdict and margin is otherwise as it was.
      this.rows = rows.map((r) => (Array.isArray(r) ? { ...known[r[0]], verdict: r[1], margin: r[2] } : r));
      this.draw();
    },
    // Every change that can be worked out has come.
    worked(generation) {
      this.$el.dataset.worked = generation;
    },
    settle() {
      if (this.settled) this.rows = this.settled;
      this.settled = null;
      this.before = {};
      this.draw();
    },
    change(id, list) {
      this.changes[id] = list;
      this.draw();
    },
    open(id) {
      this.opened.add(id);
      this.tell();
      this.showAll = this.showAll || this.rows.some((r) => r.id === id && r.verdict === "holds");
      this.draw();
      const row = this.$el.querySelector(`[data-id="${id}"]`);
      if (row) {
        row.scrollIntoView({ block: "nearest" });
        row.querySelector("button").focus();
      }
    },
    click(e) {
      const button = e.target.closest("button");
      if (!button) return;
      const row = button.closest("[data-id]");
      const id = row ? row.dataset.id : "";
      const what = button.dataset.do;
      if (what === "all") {
        this.showAll = !this.showAll;
        this.draw();
      } else if (what === "toggle") {
        if (!this.opened.delete(id)) this.opened.add(id);
        this.tell();
        this.draw();
      } else {
        this.settled = null;
        this.$emit(what, { id, index: Number(button.dataset.index) });
      }
    },
    tell() {
      this.$emit("opened", { ids: [...this.opened] });
    },
    draw() {
      const shown = this.rows.filter((r) => r.verdict !== "holds");
      const holding = this.rows.filter((r) => r.verdict === "holds");
      const tally = Object.keys(COUNT)
        .map((v) => [v, this.rows.filter((r) => r.verdict === v).length])
        .filter(([, n]) => n)
        .map(([v, n]) => `<span class="t-${v.replace(" ", "-")}">${GLYPHS[v]} ${COUNT[v](n)}</span>`)
        .join("");
      const none = shown.length ? "" : '<p class="f-none">Nothing stands out. Every check holds.</p>';
      const all =
        `<button type="button" class="f-all" data-do="all" aria-expanded="${this.showAll}">` +
        `${this.showAll ? "hide" : "show"} what holds (${holding.length})</button>`;
      if (!this.boxes) this.lay();
      this.set(this.boxes.tally, tally + none);
      this.fill(this.boxes.shown, shown);
      this.set(this.boxes.all, all);
      this.fill(this.boxes.holding, this.showAll ? holding : []);
    },
    lay() {
      this.$el.innerHTML = '<div class="f-tally" role="status"></div><ul></ul><div></div><ul></ul>';
      const [tally, shown, all, holding] = this.$el.children;
      this.boxes = { tally, shown, all, holding };
    },
    // What reads the same stays as it is: only rows that changed are made again.
    set(box, html) {
      if (box.said === html) return;
      const held = box.contains(document.activeElement);
      box.innerHTML = box.said = html;
      if (held && box.querySelector("button")) box.querySelector("button").focus();
    },
    fill(list, rows) {
      const old = new Map([...list.children].map((item) => [item.dataset.id, item]));
      let at = list.firstElementChild;
      for (const r of rows) {
        let item = old.get(r.id);
        old.delete(r.id);
        const html = this.row(r);
        if (!item) item = this.made(html);
        else if (item.said !== html) {
          const fresh = this.made(html);
          const key = this.heldIn(item);
          if (at === item) at = fresh;
          item.replaceWith(fresh);
          item = fresh;
          if (key) this.refocus(key);
        }
        if (item === at) at = at.nextElementSibling;
        else list.insertBefore(item, at);
      }
      for (const item of old.values()) item.remove();
    },
    made(html) {
      const frame = document.createElement("template");
      frame.innerHTML = html;
      const item = frame.content.firstElementChild;
      item.said = html;
      return item;
    },
    heldIn(item) {
      const active = document.activeElement;
      return item.contains(active) ? [item.dataset.id, active.dataset.do, active.dataset.index] : null;
    },
    refocus([id, what, index]) {
      const scope = id ? this.$el.querySelector(`[data-id="${id}"]`) : this.$el;
      const same = scope && [...scope.querySelectorAll("button")].find((b) => b.dataset.do === what && b.dataset.index === index);
      if (same) same.focus();
    },
    row(r) {
      const open = this.opened.has(r.id);
      const kind = r.verdict.replace(" ", "-");
      return (
        `<li class="f ${kind}" data-id="${r.id}">` +
        `<button type="button" class="f-head" data-do="toggle" aria-expanded="${open}">` +
        `<span class="f-glyph" aria-hidden="true">${GLYPHS[r.verdict]}</span>` +
        `<span class="f-title">${escaped(r.title)}<small>${r.verdict}${this.moved(r)}</small></span>` +
        `<span class="f-margin">${percent(r.margin)}${this.gauge(r)}</span></button>` +
        (open ? this.body(r) : "") +
        "</li>"
      );
    },
    moved(r) {
      const was = this.before[r.id];
      if (was === undefined || was === null || r.margin === null) return "";
      const by = Math.round(100 * r.margin) - Math.round(100 * was);
      if (!by) return "";
      const words = by > 0 ? "better" : "worse";
      return ` <em class="m-${words}">${by > 0 ? "▲" : "▼"} ${words}, was ${percent(was)}</em>`;
    },
    gauge(r) {
      if (r.margin === null) return "";
      const at = Math.max(-1, Math.min(1, r.margin / 0.5));
      return `<i class="f-gauge" aria-hidden="true"><b style="left:${50 + 46 * at}%"></b></i>`;
    },
    body(r) {
      const limits = [r.low ? `at least ${r.low}` : "", r.high ? `at most ${r.high}` : ""].filter(Boolean).join(", ");
      return (
        `<div class="f-body"><p>${window.foamwright.explained(escaped(r.why))}</p><dl>` +
        (r.value ? `<dt>reads</dt><dd>${escaped(r.value)}</dd>` : "") +
        (limits ? `<dt>limits</dt><dd>${escaped(limits)}</dd>` : "") +
        `<dt>place</dt><dd>${escaped(r.place)}</dd><dt>source</dt><dd>${escaped(r.source)}</dd></dl>` +
        this.mends(r) +
        "</div>"
      );
    },
    mends(r) {
      if (r.verdict !== "fails" && r.verdict !== "close") return "";
      const list = this.changes[r.id];
      if (this.settled) return "";
      if (!list) return '<p class="f-wait" role="status">working out what would mend it…</p>';
      if (!list.length) return "<p>No single change that was tried mends it; it takes a larger rework.</p>";
      return list
        .map(
          (c, i) =>
            `<div class="f-change"><p><strong>${escaped(c.words)}</strong><br>margin ${percent(r.margin)} → ${percent(c.margin)}</p>` +
            `<p class="f-worse">${c.worse.length ? `▼ gets worse: ${c.worse.map(escaped).join(", ")}` : "no other check gets worse"}</p>` +
            `<button type="button" data-do="apply" data-index="${i}">Apply</button>` +
            `<button type="button" data-do="try" data-index="${i}">Try it first</button></div>`
        )
        .join("");
    },
  },
};
