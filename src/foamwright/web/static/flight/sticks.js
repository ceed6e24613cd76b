// Sticks from the keyboard or a gamepad: roll right, pitch up (stick back), throttle, yaw right.
const HELD = {
  ArrowLeft: ["roll", -1], ArrowRight: ["roll", 1], ArrowDown: ["pitch", 1], ArrowUp: ["pitch", -1],
  KeyA: ["yaw", -1], KeyD: ["yaw", 1], KeyW: ["throttle", 1], KeyS: ["throttle", -1],
};
const OUT = 3.5, HOME = 6; // of full throw a second, while a key is held and after it is let go
const RISE = 0.7; // of full throttle a second
const DEAD = 0.06; // of a gamepad's travel
const KEPT = "foamwright-sticks";
const NAMES = ["roll", "pitch", "throttle", "yaw"];
// The Gamepad standard's layout: left stick axes 0 and 1, right stick 2 and 3, down and right positive.
const LAYOUTS = {
  2: { roll: [2, 1], pitch: [3, 1], throttle: [1, -1], yaw: [0, 1] },
  1: { roll: [2, 1], pitch: [1, 1], throttle: [3, -1], yaw: [0, 1] },
};

export class Sticks {
  constructor() {
    this.keys = new Map();
    this.now = { roll: 0, pitch: 0, throttle: 0, yaw: 0 };
    this.pad = "";
    this.was = [];
    this.axes = [];
    this.buttons = new Set();
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? "null");
    this.layout = kept?.layout ?? structuredClone(LAYOUTS[2]);
    this.sprung = kept?.sprung ?? true;
  }

  keep() {
    localStorage.setItem(KEPT, JSON.stringify({ layout: this.layout, sprung: this.sprung }));
  }

  mode(number) {
    this.layout = structuredClone(LAYOUTS[number]);
    this.keep();
  }

  // Whether a key moves a stick; then it is taken, and the page does not scroll.
  press(event) {
    const held = HELD[event.code];
    if (!held || event.ctrlKey || event.altKey || event.metaKey) return false;
    this.keys.set(event.code, event.shiftKey ? 0.5 : 1);
    return true;
  }

  release(code) {
    this.keys.delete(code);
  }

  drop() {
    this.keys.clear();
  }

  // Move the sticks on; hands back the buttons pressed since.
  step(seconds) {
    const pressed = this.read(seconds);
    const pull = { roll: 0, pitch: 0, throttle: 0, yaw: 0 };
    for (const [code, share] of this.keys) pull[HELD[code][0]] += HELD[code][1] * share;
    for (const name of ["roll", "pitch", "yaw"]) {
      if (this.flown && !pull[name]) continue;
      const gap = pull[name] - this.now[name];
      const rate = Math.abs(pull[name]) > Math.abs(this.now[name]) ? OUT : HOME;
      this.now[name] += Math.sign(gap) * Math.min(Math.abs(gap), rate * seconds);
    }
    this.now.throttle = clip(this.now.throttle + RISE * pull.throttle * seconds, 0, 1);
    return pressed;
  }

  read(seconds) {
    const pad = [...(navigator.getGamepads?.() ?? [])].find((one) => one?.connected && one.axes.length >= 4);
    this.pad = pad?.id ?? "";
    if (!pad) {
      this.flown = false;
      return [];
    }
    this.axes = [...pad.axes];
    const place = (name) => {
      const [axis, sense] = this.layout[name], value = (pad.axes[axis] ?? 0) * sense;
      return Math.abs(value) < DEAD ? 0 : clip((value - Math.sign(value) * DEAD) / (1 - DEAD), -1, 1);
    };
    // A pad that is merely plugged in does not take the keys away: it flies once it has been moved.
    if (NAMES.some((name) => name !== "throttle" && place(name))) this.flown = true;
    if (this.flown) for (const name of ["roll", "pitch", "yaw"]) this.now[name] = place(name);
    const lift = place("throttle");
    if (this.sprung) this.now.throttle = clip(this.now.throttle + RISE * lift * seconds, 0, 1);
    else if (this.flown) this.now.throttle = 0.5 + 0.5 * lift;
    const down = new Set(pad.buttons.flatMap((button, k) => (button.pressed ? [k] : [])));
    const fresh = [...down].filter((k) => !this.buttons.has(k));
    this.buttons = down;
    return fresh;
  }
}

function clip(value, low, high) {
  return Math.min(Math.max(value, low), high);
}
