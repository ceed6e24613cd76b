// The drawing board: three views of the plane to scale, with dimensions to drag or type.
// It computes nothing about planes: outlines come from the server, and so does what moves with
// each dimension; in between it only interpolates, so that a drag is drawn within one frame.
import { Board } from "foamwright-board";

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
