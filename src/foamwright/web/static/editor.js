// The text of a design: line numbers beside it, faults marked at their lines.

const QUIET = 450; // ms without a key before the text is read

export default {
  template:
    '<div class="fw-text"><pre aria-hidden="true"></pre>' +
    '<textarea spellcheck="false" autocapitalize="off" aria-label="Text of the design file"></textarea></div>',
  props: { text: String },
  mounted() {
    [this.numbers, this.area] = this.$el.children;
    this.wrong = [];
    this.area.addEventListener("input", () => {
      this.number();
      clearTimeout(this.waiting);
      this.waiting = setTimeout(() => this.$emit("typed", { text: this.area.value }), QUIET);
    });
    this.area.addEventListener("scroll", () => {
      this.numbers.scrollTop = this.area.scrollTop;
    });
    this.put(this.text || "");
  },
  beforeUnmount() {
    clearTimeout(this.waiting);
  },
  methods: {
    put(text) {
      if (this.area.value !== text) this.area.value = text;
      this.number();
    },
    number() {
      const count = this.area.value.split("\n").length;
      const marked = new Set(this.wrong);
      this.numbers.innerHTML = Array.from({ length: count }, (_, i) =>
        marked.has(i + 1) ? `<span class="wrong">✕ ${i + 1}</span>` : String(i + 1)
      ).join("\n");
      this.numbers.scrollTop = this.area.scrollTop;
    },
    fault(lines) {
      this.wrong = lines;
      this.number();
    },
    jump(line) {
      const lines = this.area.value.split("\n");
      const start = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
      this.area.focus();
      this.area.setSelectionRange(start, start + (lines[line - 1] || "").length);
      this.area.scrollTop = Math.max(0, (line - 6) * 20);
    },
  },
};
