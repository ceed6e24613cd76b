// Meadow, sky, plane, shadow and cameras of the flight view. Axes here: x ahead, y left, z up, metres.
import { THREE } from "nicegui-scene";

const SKY = ["#f3efe2", "#a9c7dc", "#5f93bd"]; // horizon, half way, overhead
const GRASS = "#93a66b", SHADOW = "#3d4a2c", STALLED = "#d8341f", INK = "#22303a";
const FIELD = 700; // m, radius of the ground that is drawn
const POLES = [10, 25, 50, 100]; // m from the pilot
const LONGEST = 40000; // points of a trace

// A small random source of our own: the meadow is the same at every visit.
function chance(seed) {
  let s = seed;
  return () => ((s = (s * 16807) % 2147483647) / 2147483647);
}

// Without a graphics chip the processor draws: then smooth edges cost more than they are worth.
function drawnByProcessor() {
  const pen = document.createElement("canvas").getContext("webgl2");
  const facts = pen?.getExtension("WEBGL_debug_renderer_info");
  const name = facts ? String(pen.getParameter(facts.UNMASKED_RENDERER_WEBGL)) : "";
  pen?.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}

export class Meadow {
  constructor(holder, units) {
    this.holder = holder;
    this.units = units;
    this.plain = drawnByProcessor();
    this.renderer = new THREE.WebGLRenderer({ antialias: !this.plain && window.devicePixelRatio < 2, powerPreference: "high-performance" });
    this.sharpness = Math.min(window.devicePixelRatio, 1.5);
    this.renderer.setPixelRatio(this.sharpness);
    holder.appendChild(this.renderer.domElement);
    this.scene = new THREE.Scene();
    this.scene.background = new THREE.Color(SKY[0]);
    this.scene.fog = new THREE.Fog(SKY[0], 120, FIELD * 0.95);
    this.scene.add(new THREE.HemisphereLight("#ffffff", "#8b8d6a", 2.4));
    const sun = new THREE.DirectionalLight("#fff6e0", 1.7);
    sun.position.set(-0.4, 0.5, 1);
    this.scene.add(sun);
    this.camera = new THREE.PerspectiveCamera(50, 1, 0.15, 2000);
    this.camera.up.set(0, 0, 1);
    this.view = "pilot";
    this.eye = new THREE.Vector3(-1.7, 0.45, 1.65);
    this.aim = new THREE.Vector3(10, 0, 1.8);
    this.back = null;
    this.sky();
    this.ground();
    this.poles();
    this.trees();
    this.clouds();
    this.sock();
    this.plane = new THREE.Group();
    this.shade = new THREE.Group();
    this.shade.matrixAutoUpdate = false;
    this.scene.add(this.plane, this.shade);
    this.plumb = this.line([[0, 0, 0], [0, 0, 1]], INK, 0.45);
    this.pins = new THREE.Group();
    this.scene.add(this.pins);
    this.way();
    this.watcher = new ResizeObserver(() => this.fit());
    this.watcher.observe(holder);
    this.fit();
  }

  end() {
    this.watcher.disconnect();
    this.scene.traverse((thing) => {
      thing.geometry?.dispose();
      for (const skin of [thing.material].flat()) { skin?.map?.dispose(); skin?.dispose(); }
    });
    this.renderer.dispose();
    this.renderer.forceContextLoss();
    this.renderer.domElement.remove();
  }

  fit() {
    const { clientWidth: wide, clientHeight: high } = this.holder;
    if (!wide || !high) return;
    this.renderer.setSize(wide, high, false);
    this.camera.aspect = wide / high;
    this.camera.updateProjectionMatrix();
  }

  // Fewer pixels when frames come late, more again when there is time to spare.
  spare(seconds) {
    const before = this.sharpness;
    if (seconds > 1 / 48) this.sharpness = Math.max(before * 0.9, 0.75);
    else if (seconds < 1 / 58) this.sharpness = Math.min(before * 1.05, Math.min(window.devicePixelRatio, 1.5));
    if (Math.abs(this.sharpness - before) > 0.02) {
      this.renderer.setPixelRatio(this.sharpness);
      this.fit();
    }
  }

  // ---------------------------------------------------------------- the place

  sky() {
    const dome = new THREE.SphereGeometry(900, 24, 12, 0, 2 * Math.PI, 0, Math.PI / 2);
    dome.rotateX(Math.PI / 2);
    const places = dome.attributes.position, colours = [];
    const [low, middle, high] = SKY.map((c) => new THREE.Color(c));
    for (let i = 0; i < places.count; i++) {
      const up = Math.min(Math.max(places.getZ(i) / 900, 0), 1);
      const colour = up < 0.3 ? low.clone().lerp(middle, up / 0.3) : middle.clone().lerp(high, (up - 0.3) / 0.7);
      colours.push(colour.r, colour.g, colour.b);
    }
    dome.setAttribute("color", new THREE.Float32BufferAttribute(colours, 3));
    const skin = new THREE.MeshBasicMaterial({ vertexColors: true, side: THREE.BackSide, fog: false, depthWrite: false });
    this.dome = new THREE.Mesh(dome, skin);
    this.dome.renderOrder = -3;
    this.scene.add(this.dome);
  }

  ground() {
    const random = chance(11), canvas = document.createElement("canvas");
    canvas.width = canvas.height = 256;
    const pen = canvas.getContext("2d");
    pen.fillStyle = GRASS;
    pen.fillRect(0, 0, 256, 256);
    for (let i = 0; i < 1500; i++) {
      pen.strokeStyle = ["#7f9457", "#a6b57c", "#86995f", "#b7b583"][Math.floor(random() * 4)];
      pen.globalAlpha = 0.55;
      const x = random() * 256, y = random() * 256;
      pen.beginPath();
      pen.moveTo(x, y);
      pen.lineTo(x + random() * 8 - 4, y - 3 - random() * 7);
      pen.stroke();
    }
    const cloth = new THREE.CanvasTexture(canvas);
    cloth.colorSpace = THREE.SRGBColorSpace;
    cloth.wrapS = cloth.wrapT = THREE.RepeatWrapping;
    cloth.repeat.set(FIELD / 2.5, FIELD / 2.5);
    cloth.anisotropy = 8;
    // Nothing lies below the ground, so it need not be kept apart from what lies on it by depth.
    const flat = (shape, skin, order) => {
      const mesh = new THREE.Mesh(shape, new THREE.MeshBasicMaterial({ ...skin, depthWrite: false, depthTest: false }));
      mesh.renderOrder = order;
      this.scene.add(mesh);
      return mesh;
    };
    flat(new THREE.PlaneGeometry(2 * FIELD, 2 * FIELD), this.plain ? { color: GRASS } : { map: cloth }, -2);
    const strip = flat(new THREE.PlaneGeometry(140, 14), { color: "#a3b27a" }, -1.9);
    strip.position.set(52, 0, 0);
    // Squares of ten metres, faint, as on a mown field.
    const marks = [];
    for (let x = -100; x <= 200; x += 10) marks.push(x, -100, 0, x, 100, 0);
    for (let y = -100; y <= 100; y += 10) marks.push(-100, y, 0, 200, y, 0);
    const grid = new THREE.BufferGeometry();
    grid.setAttribute("position", new THREE.Float32BufferAttribute(marks, 3));
    const lines = new THREE.LineSegments(grid, new THREE.LineBasicMaterial({ color: "#839660", depthTest: false, depthWrite: false }));
    lines.renderOrder = -1.8;
    this.scene.add(lines);
    // Tufts close by give the height above the grass.
    const tufts = [];
    for (let i = 0; i < 900; i++) {
      const far = 1.5 + 45 * random() ** 1.6, turn = 2 * Math.PI * random();
      const x = far * Math.cos(turn), y = far * Math.sin(turn), high = 0.06 + 0.12 * random();
      for (let blade = 0; blade < 3; blade++) tufts.push(x, y, 0, x + (random() - 0.5) * 0.1, y + (random() - 0.5) * 0.1, high);
    }
    const grass = new THREE.BufferGeometry();
    grass.setAttribute("position", new THREE.Float32BufferAttribute(tufts, 3));
    this.scene.add(new THREE.LineSegments(grass, new THREE.LineBasicMaterial({ color: "#66793f" })));
  }

  poles() {
    const places = [[0, 25], [0, -25], [0, 50], [0, -50], [50, 50], [50, -50], [-25, 0]];
    for (const far of POLES) {
      places.push([far, -7], [far, 7]);
      const words = this.units === "inch" ? `${Math.round(far / 0.3048 / 5) * 5} ft` : `${far} m`;
      const plate = this.plate(words), size = 0.5 + far * 0.012;
      plate.position.set(far, 7, 2.35);
      plate.scale.set(2.2 * size, size * 0.8, 1);
      this.scene.add(plate);
    }
    const post = new THREE.CylinderGeometry(0.035, 0.035, 0.5, 6);
    post.rotateX(Math.PI / 2);
    ["#f7f3e8", "#a3241c"].forEach((color, odd) => {
      const rings = new THREE.InstancedMesh(post, new THREE.MeshLambertMaterial({ color }), 2 * places.length);
      const place = new THREE.Matrix4();
      places.forEach(([x, y], k) => {
        for (const up of [0, 1]) rings.setMatrixAt(2 * k + up, place.makeTranslation(x, y, 0.25 + 0.5 * odd + up));
      });
      rings.frustumCulled = false;
      this.scene.add(rings);
    });
  }

  plate(words, back = "#fffdf6", front = INK, near = false) {
    const canvas = document.createElement("canvas");
    canvas.width = 176;
    canvas.height = 64;
    const pen = canvas.getContext("2d");
    pen.fillStyle = back;
    pen.strokeStyle = front;
    pen.lineWidth = 4;
    pen.fillRect(2, 2, 172, 60);
    pen.strokeRect(2, 2, 172, 60);
    pen.fillStyle = front;
    pen.font = "600 40px sans-serif";
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    pen.fillText(words, 88, 34);
    const cloth = new THREE.CanvasTexture(canvas);
    cloth.colorSpace = THREE.SRGBColorSpace;
    return new THREE.Sprite(new THREE.SpriteMaterial({ map: cloth, fog: false, sizeAttenuation: !near }));
  }

  trees() {
    const random = chance(5), crown = new THREE.ConeGeometry(1, 1, 6), count = 150;
    crown.rotateX(Math.PI / 2);
    crown.translate(0, 0, 0.5);
    const wood = new THREE.InstancedMesh(crown, new THREE.MeshLambertMaterial({ color: "#ffffff" }), count);
    const place = new THREE.Matrix4(), colour = new THREE.Color();
    for (let i = 0; i < count; i++) {
      const turn = (2 * Math.PI * (i + random())) / count, far = 170 + 110 * random();
      const high = 7 + 9 * random(), wide = 2.5 + 2.5 * random();
      place.makeScale(wide, wide, high).setPosition(40 + far * Math.cos(turn), far * Math.sin(turn), 0);
      wood.setMatrixAt(i, place);
      wood.setColorAt(i, colour.set(["#5c7349", "#6d8252", "#4f6744", "#7b8a57"][i % 4]));
    }
    this.scene.add(wood);
  }

  // Flat clouds, so that the sky tells which way the eye turns.
  clouds() {
    const random = chance(23), puffs = [];
    for (let cloud = 0; cloud < 16; cloud++) {
      const turn = (2 * Math.PI * (cloud + random() * 0.7)) / 16, rise = 0.22 + 0.85 * random(), wide = 20 + 26 * random();
      for (let puff = 0; puff < 5; puff++) puffs.push([turn + (puff - 2) * wide * 0.0011, rise + 0.02 * random(), wide * (1 - 0.25 * Math.abs(puff - 2)) * (0.8 + 0.4 * random())]);
    }
    const white = new THREE.InstancedMesh(new THREE.CircleGeometry(1, 14), new THREE.MeshBasicMaterial({ color: "#eef3f4", fog: false, depthWrite: false }), puffs.length);
    const stand = new THREE.Object3D();
    puffs.forEach(([turn, rise, wide], k) => {
      stand.position.set(Math.cos(turn) * Math.cos(rise), Math.sin(turn) * Math.cos(rise), Math.sin(rise)).multiplyScalar(820);
      stand.up.set(0, 0, 1);
      stand.lookAt(0, 0, 0);
      stand.scale.set(wide, wide * 0.42, 1);
      stand.updateMatrix();
      white.setMatrixAt(k, stand.matrix);
    });
    white.renderOrder = -2.5;
    white.frustumCulled = false;
    this.dome.add(white);
  }

  sock() {
    const pole = new THREE.Mesh(new THREE.CylinderGeometry(0.04, 0.05, 5, 6), new THREE.MeshLambertMaterial({ color: "#e8e4da" }));
    pole.rotation.x = Math.PI / 2;
    pole.position.set(22, -9, 2.5);
    this.bag = new THREE.Group();
    for (let ring = 0; ring < 4; ring++) {
      const tube = new THREE.CylinderGeometry(0.26 - 0.04 * ring, 0.3 - 0.04 * ring, 0.5, 10, 1, true);
      tube.rotateZ(-Math.PI / 2);
      tube.translate(0.25 + 0.5 * ring, 0, 0);
      this.bag.add(new THREE.Mesh(tube, new THREE.MeshLambertMaterial({ color: ring % 2 ? "#f7f3e8" : "#c8641e", side: THREE.DoubleSide })));
    }
    this.bag.position.set(22, -9, 5);
    this.scene.add(pole, this.bag);
    this.wind(0, 0);
  }

  // Wind as it blows: metres a second ahead and left.
  wind(ahead, left) {
    const speed = Math.hypot(ahead, left);
    const droop = (Math.PI / 2) * (1 - Math.min(speed / 7, 1)) ** 1.5;
    this.bag.rotation.set(0, 0, 0);
    this.bag.rotateZ(speed > 0.05 ? Math.atan2(left, ahead) : 2.6);
    this.bag.rotateY(Math.min(droop, 1.45));
  }

  line(points, color, opacity) {
    const shape = new THREE.BufferGeometry();
    shape.setAttribute("position", new THREE.Float32BufferAttribute(points.flat(), 3));
    const made = new THREE.Line(shape, new THREE.LineBasicMaterial({ color, transparent: opacity < 1, opacity }));
    made.frustumCulled = false;
    this.scene.add(made);
    return made;
  }

  // ---------------------------------------------------------------- the plane

  put(data) {
    for (const group of [this.plane, this.shade]) {
      group.traverse((thing) => thing.geometry?.dispose());
      group.clear();
    }
    this.data = data;
    this.strips = [];
    this.hinges = [];
    const dark = [];
    for (const solid of data.solids) {
      const made = this.solid(solid);
      this.plane.add(made.pivot);
      dark.push(...made.corners.map((v, k) => v + made.pivot.position.getComponent(k % 3)));
      if (solid.strip) this.strips.push({ mesh: made.mesh, strip: solid.strip });
      if (solid.hinge) this.hinges.push({ pivot: made.pivot, axis: made.axis, moves: solid.moves });
    }
    const flat = new THREE.BufferGeometry();
    flat.setAttribute("position", new THREE.Float32BufferAttribute(dark, 3));
    const shadow = new THREE.Mesh(flat, new THREE.MeshBasicMaterial({ color: SHADOW, side: THREE.DoubleSide, depthTest: false, depthWrite: false }));
    shadow.renderOrder = -1;
    shadow.frustumCulled = false;
    this.shade.add(shadow);
    this.screw(data.propeller);
  }

  screw(p) {
    this.disc = new THREE.Mesh(
      new THREE.CircleGeometry(p.radius, 40),
      new THREE.MeshBasicMaterial({ color: "#4a5560", transparent: true, opacity: 0.2, side: THREE.DoubleSide, depthWrite: false })
    );
    this.blades = new THREE.Mesh(new THREE.PlaneGeometry(2 * p.radius, 0.1 * p.radius), new THREE.MeshBasicMaterial({ color: INK, side: THREE.DoubleSide }));
    const shaft = new THREE.Group();
    shaft.position.set(...p.at);
    shaft.quaternion.setFromUnitVectors(new THREE.Vector3(0, 0, 1), new THREE.Vector3(...p.axis));
    shaft.add(this.disc, this.blades);
    this.plane.add(shaft);
  }

  solid(solid) {
    const origin = solid.hinge ? solid.hinge[0] : [0, 0, 0];
    const flat = (faces) => faces.flatMap((face) => face.flatMap((i) => solid.points[i].map((v, k) => v - origin[k])));
    const above = flat(solid.above), corners = [...above, ...flat(solid.below)], colours = [];
    const [top, under] = [solid.colour, solid.under].map((c) => new THREE.Color(c));
    for (let k = 0; k < corners.length; k += 3) colours.push(...(k < above.length ? top : under).toArray());
    const shape = new THREE.BufferGeometry();
    shape.setAttribute("position", new THREE.Float32BufferAttribute(corners, 3));
    shape.setAttribute("color", new THREE.Float32BufferAttribute(colours, 3));
    shape.computeVertexNormals();
    this.paper ??= new THREE.MeshLambertMaterial({ vertexColors: true, side: THREE.DoubleSide });
    this.red ??= new THREE.MeshLambertMaterial({ color: STALLED, side: THREE.DoubleSide });
    this.pencil ??= new THREE.LineBasicMaterial({ color: INK, transparent: true, opacity: 0.6 });
    const mesh = new THREE.Mesh(shape, this.paper), pivot = new THREE.Group();
    if (!solid.bare) mesh.add(new THREE.LineSegments(new THREE.EdgesGeometry(shape, 35), this.pencil));
    pivot.position.set(...origin);
    pivot.add(mesh);
    const axis = solid.hinge ? new THREE.Vector3(...solid.hinge[1].map((v, k) => v - origin[k])).normalize() : null;
    return { mesh, pivot, corners, axis };
  }

  // Show one moment: place, turn, deflections, what has stalled, turns of the propeller.
  show(now, seconds) {
    this.plane.position.set(now.x, now.y, now.z);
    this.plane.quaternion.set(now.qx, now.qy, now.qz, now.qw);
    for (const hinge of this.hinges) {
      let angle = 0;
      for (const [name, share] of Object.entries(hinge.moves)) angle += share * (now.moved[name] ?? 0);
      hinge.pivot.quaternion.setFromAxisAngle(hinge.axis, angle);
    }
    for (const { strip, mesh } of this.strips) {
      const gone = (strip[0] === "left" ? now.stalledLeft : now.stalledRight) & (1 << strip[1]);
      mesh.material = gone ? this.red : this.paper;
    }
    const turning = now.turns > 4;
    this.disc.material.opacity = turning ? 0.12 + 0.12 * Math.min(now.turns / 120, 1) : 0.03;
    this.blades.visible = now.turns < 40;
    this.blades.rotation.z -= 2 * Math.PI * Math.min(now.turns, 9) * seconds;
    this.plane.updateMatrix();
    // Straight down on the grass: where it lies and how far below says how high the plane is.
    const flat = new THREE.Matrix4().set(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0.0001, 0.01, 0, 0, 0, 1);
    this.shade.matrix.multiplyMatrices(flat, this.plane.matrix);
    this.shade.visible = now.z > -1;
    const foot = this.plumb.geometry.attributes.position;
    foot.setXYZ(0, now.x, now.y, 0);
    foot.setXYZ(1, now.x, now.y, Math.max(now.z, 0));
    foot.needsUpdate = true;
    this.look(now, seconds);
  }

  look(now, seconds) {
    const at = this.plane.position, lens = this.camera;
    const ease = (rate) => 1 - Math.exp(-rate * Math.max(seconds, 0.001));
    let wide;
    if (this.view === "behind") {
      const way = new THREE.Vector3(now.u, now.v, now.w);
      if (way.lengthSq() < 1) way.set(1, 0, 0).applyQuaternion(this.plane.quaternion);
      way.z *= 0.5;
      way.normalize();
      if (!this.back) this.back = way.clone();
      this.back.lerp(way, ease(4)).normalize();
      const far = Math.max(2.6 * this.data.span, 2.2);
      lens.position.copy(at).addScaledVector(this.back, -far);
      lens.position.z = Math.max(lens.position.z + 0.36 * far, 0.35);
      this.aim.copy(at).addScaledVector(this.back, 1.5 * far);
      wide = 52;
    } else {
      this.back = null;
      lens.position.copy(this.eye);
      const reach = at.clone().sub(this.eye), far = Math.max(reach.length(), 1.5);
      wide = Math.min(Math.max((2 * Math.atan((3.2 * this.data.span) / far) * 180) / Math.PI, 9), 50);
      const tall = (wide * Math.PI) / 180, up = Math.asin(Math.min(Math.max(reach.z / far, -1), 1));
      // Keep the horizon in the picture as long as the plane stays in it too.
      const lift = Math.max(Math.min(up * 0.6, 0.4 * tall), up - 0.34 * tall);
      const round = Math.atan2(reach.y, reach.x);
      const target = new THREE.Vector3(Math.cos(round) * Math.cos(lift), Math.sin(round) * Math.cos(lift), Math.sin(lift));
      target.multiplyScalar(far).add(this.eye);
      if (this.jump) this.aim.copy(target);
      else this.aim.lerp(target, ease(14));
    }
    lens.fov += (wide - lens.fov) * (this.jump ? 1 : ease(4));
    lens.updateProjectionMatrix();
    lens.lookAt(this.aim);
    // Lines that are wider than what they outline would turn a far plane black.
    const pixels = (this.data.span * this.holder.clientHeight) / (2 * Math.tan((lens.fov * Math.PI) / 360) * Math.max(lens.position.distanceTo(at), 0.5));
    this.pencil.opacity = 0.6 * Math.min(Math.max((pixels - 50) / 150, 0), 1);
    this.pencil.visible = pixels > 50;
    this.dome.position.set(lens.position.x, lens.position.y, -2);
    this.jump = false;
  }

  draw() {
    this.renderer.render(this.scene, this.camera);
  }

  // ---------------------------------------------------------------- the trace

  way() {
    this.path = this.line([], "#1d5482", 1);
    this.path.geometry.setAttribute("position", new THREE.BufferAttribute(new Float32Array(3 * LONGEST), 3));
    this.path.geometry.setDrawRange(0, 0);
    this.path.visible = false;
  }

  trace(moments) {
    const places = this.path.geometry.attributes.position, count = Math.min(moments.length, LONGEST);
    for (let i = 0; i < count; i++) places.setXYZ(i, moments[i].x, moments[i].y, moments[i].z);
    places.needsUpdate = true;
    this.path.geometry.setDrawRange(0, count);
  }

  pinned(pins, chosen) {
    this.pins.traverse((thing) => thing.geometry?.dispose());
    this.pins.clear();
    pins.forEach((pin, index) => {
      const picked = index === chosen;
      const stem = this.line([[pin.x, pin.y, 0], [pin.x, pin.y, pin.z]], "#a3241c", picked ? 0.9 : 0.4);
      this.pins.add(stem);
      const plate = this.plate(String(index + 1), picked ? "#a3241c" : "#fffdf6", picked ? "#ffffff" : "#a3241c", true);
      plate.position.set(pin.x, pin.y, pin.z);
      plate.center.set(0.5, -1.1);
      plate.scale.set(0.07, 0.026, 1); // as large on the screen at any distance
      this.pins.add(plate);
    });
  }
}
