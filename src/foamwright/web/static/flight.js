// Fly the plane by hand: the view, the read-outs, the sticks, the trace and its replay.
import { Film, Meadow, Sticks } from "foamwright-flight";

const VIEWS = { pilot: "from where you stand", behind: "from behind" };
const PACES = [1, 0.5, 0.25];
const AGAIN = 700; // ms before a lost connection is tried again
const WIDE = 600, HIGH = 74; // of the strip chart

export default {
  template: `
  <div class="fl-desk">
    <div class="fl-view" ref="view" tabindex="0" role="application" aria-label="Flight view. Space throws, arrow keys fly." aria-describedby="fl-keys"
      @keydown="down" @keyup="up" @blur="drop" @pointerdown="$refs.view.focus()">
      <div class="fl-glass" ref="glass"></div>
      <p class="fl-where" aria-hidden="true">{{ replaying ? "replay" : flying ? "flying" : over ? "down" : "in the hand" }}, seen {{ views[view] }}<span v-if="pace < 1 && !replaying">, time at {{ pace === 0.5 ? "½" : "¼" }}</span></p>
      <div class="fl-stall" v-if="stall" aria-hidden="true">{{ stall }}</div>
      <div class="fl-hint" v-if="!flying && !replaying">
        <b>{{ over || "The plane is in your hand." }}</b>
        <p id="fl-keys"><kbd>Space</kbd> {{ over ? "throws it again" : "throws it" }}. <kbd>←</kbd> <kbd>→</kbd> {{ rolls }}, <kbd>↓</kbd> pulls the nose up, <kbd>↑</kbd> pushes it down,
        <kbd>A</kbd> <kbd>D</kbd> rudder, <kbd>W</kbd> <kbd>S</kbd> more and less throttle. With <kbd>Shift</kbd> half as far.
        <kbd>P</kbd> pause, <kbd>T</kbd> slow motion, <kbd>V</kbd> view, <kbd>R</kbd> back in the hand.</p>
      </div>
      <svg class="fl-map" viewBox="-60 -64 120 120" aria-hidden="true">
        <circle v-for="far in [25, 50]" :key="far" r="10" :style="{ r: far * map.scale }"></circle>
        <path class="you" d="M-3 0H3M0 -3V3"></path><path class="wind" :d="map.wind"></path>
        <g :transform="map.plane"><path d="M0 -5L4 4L0 2L-4 4Z"></path></g>
        <line x1="56" x2="56" y1="54" :y2="54 - map.tall"></line>
        <text x="-57" y="-53">{{ map.words }}</text>
      </svg>
      <div class="fl-sticks" aria-hidden="true">
        <i class="box"><i class="dot" :style="dot(sticks.yaw, 2 * sticks.throttle - 1)"></i></i>
        <i class="box"><i class="dot" :style="dot(sticks.roll, -sticks.pitch)"></i></i>
      </div>
    </div>
    <dl class="fl-reads">
      <div v-for="read in reads" :key="read.name" :class="read.kind" :data-read="read.name"><dt>{{ read.label }}</dt><dd>{{ read.words }}</dd></div>
    </dl>
    <div class="fl-acts">
      <button type="button" class="strong" @click="fling">{{ flying || over ? "Throw again" : "Throw" }}</button>
      <button type="button" @click="hold" :disabled="!flying" :aria-pressed="String(paused)">{{ paused ? "Go on" : "Pause" }}</button>
      <button type="button" @click="slower">{{ pace === 1 ? "Slow motion" : pace === 0.5 ? "Slower still" : "Full speed" }}</button>
      <button type="button" @click="turn">{{ view === "pilot" ? "See it from behind" : "See it from your place" }}</button>
      <button type="button" @click="replay" :disabled="!length" :aria-pressed="String(replaying)">{{ replaying ? "End the replay" : "Replay" }}</button>
      <button type="button" v-if="replaying" @click="running = !running">{{ running ? "Stop" : "Run" }}</button>
      <span role="status" class="fl-says">{{ says }}</span>
    </div>
    <div class="fl-track" v-show="length">
      <svg viewBox="0 0 ${WIDE} ${HIGH}" preserveAspectRatio="none" aria-hidden="true">
        <path class="height" :d="curves.height"></path><path class="speed" :d="curves.speed"></path>
        <line v-for="(pin, k) in pins" :key="k" :x1="across(pin.t)" :x2="across(pin.t)" y1="0" y2="${HIGH}" class="pinline"></line>
        <line :x1="across(time)" :x2="across(time)" y1="0" y2="${HIGH}" class="head"></line>
      </svg>
      <p class="fl-legend" aria-hidden="true"><span class="height">height, to {{ curves.tall }}</span> <span class="speed">airspeed, to {{ curves.fast }}</span></p>
      <label>moment of the flight <input type="range" min="0" :max="length" step="0.05" :value="time" @input="seek(+$event.target.value)" :aria-valuetext="time.toFixed(1) + ' s'"></label>
    </div>
    <section class="fl-pins" v-if="pins.length" aria-label="Noted on this flight">
      <h2>Noted on this flight</h2>
      <ol><li v-for="(pin, k) in pins" :key="k"><button type="button" :aria-pressed="String(chosen === k)" @click="visit(k)"><b>{{ pin.t.toFixed(1) }} s</b> {{ pin.words }}</button></li></ol>
    </section>
    <details class="fl-pad">
      <summary>Sticks: {{ pad ? "gamepad or transmitter" : "keyboard" }}</summary>
      <p v-if="!pad">Plug a gamepad in, or a transmitter that the computer sees as one, and move a stick.</p>
      <template v-else>
        <p>{{ pad }}</p>
        <button type="button" @click="mode(2)">Throttle left</button> <button type="button" @click="mode(1)">Throttle right</button>
        <table><thead><tr><th scope="col">does</th><th scope="col">axis</th><th scope="col">turned round</th><th scope="col">now</th></tr></thead>
          <tbody><tr v-for="name in ['roll', 'pitch', 'throttle', 'yaw']" :key="name"><th scope="row">{{ name }}</th>
            <td><select :aria-label="'axis of ' + name" :value="layout[name][0]" @change="axis(name, +$event.target.value)"><option v-for="(_, k) in axes" :key="k" :value="k">{{ k + 1 }}</option></select></td>
            <td><input type="checkbox" :aria-label="name + ' turned round'" :checked="layout[name][1] < 0" @change="sense(name, $event.target.checked)"></td>
            <td>{{ (axes[layout[name][0]] ?? 0).toFixed(2) }}</td></tr></tbody></table>
        <label><input type="checkbox" :checked="sprung" @change="spring($event.target.checked)"> the throttle stick springs back to its middle</label>
      </template>
    </details>
  </div>`,
  props: { shapes: Object, fields: Array, address: String, units: Object, system: String, rolls: String },
  data: () => ({
    views: VIEWS, view: "pilot", pace: 1, flying: false, paused: false, over: "", says: "", stall: "", replaying: false, running: false,
    length: 0, time: 0, pins: [], chosen: -1, pad: "", axes: [], layout: {}, sprung: true, reads: [], sticks: { roll: 0, pitch: 0, throttle: 0, yaw: 0 },
    map: { scale: 1, plane: "", wind: "", tall: 0, words: "" },
    curves: { height: "", speed: "", tall: "", fast: "" },
  }),
  mounted() {
    this.film = new Film(this.fields);
    this.hands = new Sticks();
    this.layout = this.hands.layout;
    this.sprung = this.hands.sprung;
    this.meadow = new Meadow(this.$refs.glass, this.system);
    this.meadow.put(this.shapes);
    this.meadow.jump = true;
    this.frames = [];
    this.sent = "";
    this.connect();
    this.stop = () => this.drop();
    window.addEventListener("blur", this.stop);
    this.asked = requestAnimationFrame((now) => this.frame(now));
    // The hint says that the space bar throws: so the keys have to land here from the start.
    if (document.activeElement === document.body) this.$refs.view.focus({ preventScroll: true });
    window.foamwrightFlight = this;
  },
  beforeUnmount() {
    this.gone = true;
    cancelAnimationFrame(this.asked);
    window.removeEventListener("blur", this.stop);
    this.line?.close();
    this.meadow.end();
    if (window.foamwrightFlight === this) delete window.foamwrightFlight;
  },
  methods: {
    connect() {
      if (this.gone) return;
      this.line = new WebSocket(this.address.replace(/^\//, `ws://${location.host}/`));
      this.line.binaryType = "arraybuffer";
      this.line.onopen = () => (this.sent = "");
      this.line.onmessage = (event) => (typeof event.data === "string" ? this.told(JSON.parse(event.data)) : this.film.add(event.data));
      this.line.onclose = () => setTimeout(() => this.connect(), AGAIN);
    },
    tell(what) {
      if (this.line?.readyState === WebSocket.OPEN) this.line.send(JSON.stringify(what));
    },
    told(news) {
      if (news.begin) {
        this.film.clear();
        Object.assign(this, { pins: [], chosen: -1, over: "", stall: "", length: 0, time: 0, replaying: false, running: false });
        this.meadow.pinned([], -1);
        this.meadow.path.visible = false;
        this.meadow.jump = true;
        this.hands.now.throttle = news.throttle;
      }
      if (news.pin) {
        this.pins.push(news.pin);
        this.says = news.pin.words;
      }
      for (const name of ["flying", "paused", "pace", "over", "says"]) if (name in news) this[name] = news[name];
      if (news.over || (news.paused && this.film.end > 0)) this.ended();
    },
    put(shapes) {
      this.meadow.put(shapes);
    },
    ended() {
      this.length = this.film.end;
      this.time = this.length;
      this.meadow.trace(this.film.moments);
      this.meadow.path.visible = true;
      this.meadow.pinned(this.pins, this.chosen);
      this.draw_curves();
    },

    // ------------------------------------------------------------ every frame
    frame(at) {
      if (this.gone) return;
      this.asked = requestAnimationFrame((next) => this.frame(next));
      const seconds = Math.min((at - (this.last ?? at)) / 1000, 0.2);
      this.last = at;
      this.frames.push(at);
      if (this.frames.length > 240) this.frames.shift();
      const pressed = this.hands.step(seconds);
      if (pressed.includes(0)) this.fling();
      if (pressed.includes(3)) this.turn();
      if (pressed.includes(9)) this.hold();
      this.send();
      let now;
      if (this.replaying) {
        if (this.running) this.time = Math.min(this.time + seconds * this.pace, this.length);
        if (this.time >= this.length) this.running = false;
        now = this.film.at(this.time);
      } else now = this.film.follow(this.flying && !this.paused ? seconds * this.pace : 0);
      if (!now) return;
      this.now = now;
      this.meadow.show(now, seconds);
      this.meadow.draw();
      this.count = (this.count ?? 0) + 1;
      if (this.count % 6 === 0) this.read(now);
      if (this.count % 60 === 0) this.meadow.spare((this.frames.at(-1) - this.frames.at(-60)) / 59000);
    },
    send() {
      const { roll, pitch, throttle, yaw } = this.hands.now;
      const words = JSON.stringify({ sticks: [roll, pitch, throttle, yaw].map((v) => Math.round(v * 1000) / 1000) });
      if (words === this.sent || this.line?.readyState !== WebSocket.OPEN) return;
      this.sent = words;
      this.line.send(words);
    },
    read(now) {
      const { speed, height } = this.units, say = (value, [factor, unit, digits]) => `${(value * factor).toFixed(digits)} ${unit}`;
      const left = (now.margin * 180) / Math.PI, stalled = now.stalledLeft || now.stalledRight;
      this.reads = [
        { name: "airspeed", label: "airspeed", words: say(now.airspeed, speed) },
        { name: "height", label: "height", words: say(Math.max(now.low, 0), height) },
        { name: "throttle", label: "throttle", words: `${Math.round(100 * now.throttle)} %` },
        { name: "margin", label: "to the stall", words: now.airspeed < 1 ? "–" : left > 0 ? `${left.toFixed(0)}° left` : `${(-left).toFixed(0)}° past`, kind: left <= 0 || stalled ? "bad" : left < 3 ? "close" : "" },
        { name: "load", label: "wing carries", words: `${(Math.round(10 * now.load) / 10 || 0).toFixed(1)} g` },
        { name: "pack", label: "pack left", words: `${Math.round(100 * now.pack)} %` },
        { name: "time", label: "time", words: `${now.t.toFixed(1)} s` },
      ];
      this.sticks = { ...this.hands.now };
      this.stall = !stalled ? "" : now.stalledLeft && now.stalledRight ? "both wings stalled" : now.stalledLeft ? "left wing stalled" : "right wing stalled";
      this.pad = this.hands.pad;
      if (this.pad) this.axes = [...this.hands.axes];
      this.meadow.wind(now.windAhead, now.windLeft);
      this.mark(now);
      if (!this.flying && !this.replaying && this.film.end > 0.2 && !this.length) this.ended();
    },

    // The field from above: you, the plane, its height as a bar, the wind as an arrow.
    mark(now) {
      const far = Math.hypot(now.x, now.y), scale = 50 / Math.max(50, 25 * Math.ceil((far + 5) / 25));
      const [ahead, left] = [1 - 2 * (now.qy ** 2 + now.qz ** 2), 2 * (now.qx * now.qy + now.qw * now.qz)];
      const turn = (-Math.atan2(left, ahead) * 180) / Math.PI, blow = Math.hypot(now.windAhead, now.windLeft);
      const [wx, wy] = blow > 0.3 ? [-now.windLeft / blow, -now.windAhead / blow] : [0, 0];
      this.map = {
        scale, plane: `translate(${(-now.y * scale).toFixed(1)} ${(-now.x * scale).toFixed(1)}) rotate(${turn.toFixed(0)})`,
        wind: blow > 0.3 ? `M${-44 - 9 * wx} ${40 - 9 * wy}L${-44 + 9 * wx} ${40 + 9 * wy}l${-5 * wx - 3 * wy} ${-5 * wy + 3 * wx}m${5 * wx + 3 * wy} ${5 * wy - 3 * wx}l${-5 * wx + 3 * wy} ${-5 * wy - 3 * wx}` : "",
        tall: Math.min(Math.max(now.low, 0) * scale, 108), words: `${Math.round(far * this.units.height[0])} ${this.units.height[1]} away`,
      };
    },

    // ------------------------------------------------------------ keys and buttons
    down(event) {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const act = { Space: this.space, KeyR: this.again, KeyP: this.hold, KeyT: this.slower, KeyV: this.turn }[event.code];
      if (this.hands.press(event) || act) event.preventDefault();
      if (act && !event.repeat) act();
    },
    up(event) {
      this.hands.release(event.code);
    },
    drop() {
      this.hands.drop();
    },
    space() {
      if (!this.flying) this.fling();
      else if (this.paused) this.hold();
    },
    fling() {
      this.$refs.view.focus();
      this.tell({ do: "throw" });
    },
    again() {
      this.tell({ do: "again" });
    },
    hold() {
      if (this.replaying) this.running = !this.running;
      else if (this.flying) this.tell({ do: "pause", on: !this.paused });
    },
    slower() {
      this.pace = PACES[(PACES.indexOf(this.pace) + 1) % PACES.length];
      this.tell({ do: "pace", value: this.pace });
    },
    turn() {
      this.view = this.view === "pilot" ? "behind" : "pilot";
      this.meadow.view = this.view;
      this.meadow.jump = true;
    },
    replay() {
      if (this.replaying) {
        this.replaying = this.running = false;
        return;
      }
      if (this.flying && !this.paused) this.tell({ do: "pause", on: true });
      this.ended();
      Object.assign(this, { replaying: true, running: true, time: 0 });
      this.meadow.jump = true;
    },
    seek(time) {
      if (!this.replaying) {
        this.replay();
        this.running = false;
      }
      this.time = time;
    },
    visit(index) {
      this.chosen = index;
      this.running = false;
      this.seek(this.pins[index].t);
      this.running = false;
      this.meadow.pinned(this.pins, index);
    },

    // ------------------------------------------------------------ sticks and chart
    dot: (across, up) => ({ left: `${50 + 44 * across}%`, top: `${50 - 44 * up}%` }),
    mode(number) {
      this.hands.mode(number);
      this.layout = this.hands.layout;
    },
    axis(name, number) {
      this.layout[name] = [number, this.layout[name][1]];
      this.hands.layout = this.layout;
      this.hands.keep();
    },
    sense(name, reversed) {
      this.layout[name] = [this.layout[name][0], reversed ? -1 : 1];
      this.hands.layout = this.layout;
      this.hands.keep();
    },
    spring(on) {
      this.sprung = this.hands.sprung = on;
      this.hands.keep();
    },
    across(time) {
      return this.length ? part(time, this.length).toFixed(1) : 0;
    },
    draw_curves() {
      const moments = this.film.moments, { speed, height } = this.units;
      const step = Math.max(1, Math.floor(moments.length / 500));
      const some = moments.filter((_, k) => k % step === 0 || k === moments.length - 1);
      const tall = Math.max(...some.map((m) => m.low), 2), fast = Math.max(...some.map((m) => m.airspeed), 5);
      const path = (value, most) => some.map((m, k) => `${k ? "L" : "M"}${part(m.t, this.length).toFixed(1)} ${(HIGH - 2 - (HIGH - 6) * Math.max(value(m), 0) / most).toFixed(1)}`).join("");
      this.curves = {
        height: path((m) => m.low, tall), speed: path((m) => m.airspeed, fast),
        tall: `${(tall * height[0]).toFixed(height[2])} ${height[1]}`, fast: `${(fast * speed[0]).toFixed(speed[2])} ${speed[1]}`,
      };
    },
  },
};

function part(time, length) {
  return (WIDE * time) / length;
}
