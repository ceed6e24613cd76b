// The plane in the round, drawn with the three.js that comes with the page library.
import { OrbitControls, THREE } from "nicegui-scene";

const APART = 0.9;

export default {
  template: '<div class="fw-solid" role="img" aria-label="The plane in the round"></div>',
  props: { data: Object },
  mounted() {
    this.spread = 0;
    this.renderer = new THREE.WebGLRenderer({ antialias: true, preserveDrawingBuffer: true });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.$el.appendChild(this.renderer.domElement);
    this.scene = new THREE.Scene();
    this.scene.background = new THREE.Color("#fffdf6");
    this.scene.add(new THREE.HemisphereLight("#ffffff", "#b8a888", 2.2));
    const sun = new THREE.DirectionalLight("#ffffff", 1.6);
    sun.position.set(-1, -2, 3);
    this.scene.add(sun);
    this.camera = new THREE.PerspectiveCamera(32, 1, 0.01, 50);
    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, this.renderer.domElement);
    this.controls.addEventListener("change", () => this.draw());
    this.group = new THREE.Group();
    this.scene.add(this.group);
    this.watcher = new ResizeObserver(() => this.fit());
    this.watcher.observe(this.$el);
    this.put(this.data);
    this.look();
  },
  beforeUnmount() {
    this.watcher.disconnect();
    this.controls.dispose();
    this.renderer.dispose();
  },
  methods: {
    put(data) {
      this.now = data;
      this.group.clear();
      for (const solid of data.solids) this.group.add(this.mesh(solid));
      const p = data.propeller;
      const disc = new THREE.Mesh(
        new THREE.CircleGeometry(p.radius, 48),
        new THREE.MeshBasicMaterial({ color: "#5b6770", transparent: true, opacity: 0.22, side: THREE.DoubleSide })
      );
      disc.position.set(...p.at);
      disc.quaternion.setFromUnitVectors(new THREE.Vector3(0, 0, 1), new THREE.Vector3(...p.axis));
      this.group.add(disc);
      this.draw();
    },
    mesh(solid) {
      const corners = new Float32Array(solid.faces.flatMap((face) => face.flatMap((i) => solid.points[i])));
      const shape = new THREE.BufferGeometry();
      shape.setAttribute("position", new THREE.BufferAttribute(corners, 3));
      shape.computeVertexNormals();
      const skin = new THREE.MeshStandardMaterial({ color: solid.colour, roughness: 0.9, side: THREE.DoubleSide });
      const mesh = new THREE.Mesh(shape, skin);
      mesh.add(new THREE.LineSegments(new THREE.EdgesGeometry(shape, 24), new THREE.LineBasicMaterial({ color: "#22303a" })));
      mesh.position.set(...solid.away.map((v) => v * this.spread * this.now.span));
      return mesh;
    },
    look() {
      const middle = [this.now.length * 0.42, 0, 0.03];
      const far = Math.max(this.now.span, this.now.length) * 1.75;
      this.camera.position.set(middle[0] - far * 0.72, -far * 0.78, far * 0.48);
      this.controls.target.set(...middle);
      this.controls.update();
      this.fit();
    },
    fit() {
      const box = this.$el.getBoundingClientRect();
      if (!box.width || !box.height) return;
      this.renderer.setSize(box.width, box.height, false);
      this.camera.aspect = box.width / box.height;
      this.camera.updateProjectionMatrix();
      this.draw();
    },
    draw() {
      if (this.queued) return;
      this.queued = requestAnimationFrame(() => {
        this.queued = null;
        this.renderer.render(this.scene, this.camera);
      });
    },
    apart() {
      this.spread = this.spread ? 0 : APART;
      this.put(this.now);
    },
    picture() {
      this.renderer.render(this.scene, this.camera);
      const link = document.createElement("a");
      link.href = this.renderer.domElement.toDataURL("image/png");
      link.download = `${this.now.name.toLowerCase().replace(/[^a-z0-9]+/g, "-")}.png`;
      link.click();
    },
  },
};
