// What has been flown, moment by moment; between two moments it is filled in.
const LATE = 0.034; // s behind the newest moment, so that there are always two to look between
const ANGLES = ["qx", "qy", "qz", "qw"];

export class Film {
  constructor(fields) {
    this.fields = fields;
    this.clear();
  }

  clear() {
    this.moments = [];
    this.head = null;
  }

  // Take a packet of 32-bit floats, one moment or several.
  add(buffer) {
    const values = new Float32Array(buffer), width = this.fields.length;
    for (let start = 0; start + width <= values.length; start += width) {
      const moment = {};
      this.fields.forEach((name, k) => (moment[name] = values[start + k]));
      const last = this.moments.at(-1);
      if (last && moment.t <= last.t) this.moments.length = this.before(moment.t) + (this.moments[0].t < moment.t ? 1 : 0);
      this.moments.push(moment);
    }
  }

  get end() {
    return this.moments.at(-1)?.t ?? 0;
  }

  // The playhead of live flight runs with the clock and is drawn gently to where it should be.
  follow(seconds) {
    const wanted = Math.max(this.end - LATE, 0);
    if (this.head === null || Math.abs(wanted - this.head) > 0.25) this.head = wanted;
    else this.head += seconds + (wanted - this.head - seconds) * Math.min(4 * Math.max(seconds, 0.004), 0.5);
    this.head = Math.min(this.head, this.end);
    return this.at(this.head);
  }

  before(time) {
    let low = 0, high = this.moments.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.moments[middle].t <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  at(time) {
    if (!this.moments.length) return null;
    const index = this.before(time), a = this.moments[index], b = this.moments[index + 1] ?? a;
    const share = b.t > a.t ? Math.min(Math.max((time - a.t) / (b.t - a.t), 0), 1) : 0;
    const now = { ...a };
    const sign = ANGLES.reduce((sum, name) => sum + a[name] * b[name], 0) < 0 ? -1 : 1;
    for (const name of this.fields) {
      if (name.startsWith("stalled")) continue;
      const end = ANGLES.includes(name) ? sign * b[name] : b[name];
      now[name] = a[name] + share * (end - a[name]);
    }
    const length = Math.hypot(...ANGLES.map((name) => now[name])) || 1;
    for (const name of ANGLES) now[name] /= length;
    now.moved = { "aileron left": now.aileronLeft, "aileron right": now.aileronRight, elevator: now.elevator, rudder: now.rudder };
    return now;
  }
}
