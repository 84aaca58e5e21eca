import {
  BufferAttribute,
  BufferGeometry,
  Plane as ClipPlane,
  Color,
  DoubleSide,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  PerspectiveCamera,
  Scene,
  SphereGeometry,
  Vector3,
  WebGLRenderer,
} from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import type { Shown } from "./data";
import { type Plane, type Shape, edges, outline, outside, section } from "./shape";

const seen_deg = 35; // chosen: little distortion

/** The heap in three dimensions, drawn when something changes and not otherwise. */
export class HeapScene {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(seen_deg, 1, 0.05, 60);
  private readonly controls: OrbitControls;
  private readonly clip = new ClipPlane(new Vector3(1, 0, 0), 0);
  private readonly shell = new Mesh(
    new BufferGeometry(),
    new MeshBasicMaterial({ vertexColors: true, side: DoubleSide, clippingPlanes: [this.clip] }),
  );
  private readonly face = new Mesh(
    new BufferGeometry(),
    new MeshBasicMaterial({ vertexColors: true, side: DoubleSide }),
  );
  private readonly cutLines = new LineSegments(new BufferGeometry(), new LineBasicMaterial({ color: 0x15110d }));
  private readonly lines = new LineSegments(
    new BufferGeometry(),
    new LineBasicMaterial({ color: 0x15110d, clippingPlanes: [this.clip] }),
  );

  /** Throws when the browser gives no WebGL. */
  constructor(
    private readonly canvas: HTMLCanvasElement,
    size_m: number,
    height_m: number,
    facing_rad: number,
  ) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true });
    this.renderer.localClippingEnabled = true;
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.scene.add(this.shell, this.face, this.lines, this.cutLines);
    const far = 2.05 * Math.max(size_m, height_m);
    const [turn, rise] = [facing_rad + 0.5, 0.5]; // chosen: past the cut's face, and from above
    this.camera.position.set(
      far * Math.cos(rise) * Math.cos(turn),
      height_m / 2 + far * Math.sin(rise),
      -far * Math.cos(rise) * Math.sin(turn),
    );
    this.controls = new OrbitControls(this.camera, canvas);
    this.controls.target.set(0, height_m / 2, 0);
    this.controls.enablePan = false;
    this.controls.minDistance = far * 0.4;
    this.controls.maxDistance = far * 2;
    this.controls.update();
    this.controls.addEventListener("change", () => this.draw());
  }

  show(shown: Shown, plane: Plane): void {
    replace(this.shell, outside(shown));
    replaceLines(this.lines, edges(shown));
    this.cut(shown, plane);
  }

  cut(shown: Shown, plane: Plane): void {
    replace(this.face, section(shown, plane));
    replaceLines(this.cutLines, outline(shown, plane));
    const [nx, ny] = plane.normal;
    this.clip.normal.set(-nx, 0, ny);
    this.clip.constant = plane.offset_m;
    this.draw();
  }

  /** Probes as white balls that shine through: they stand inside the heap. */
  probes(places: readonly [x: number, height: number, y: number][], radius_m: number): void {
    const look = new MeshBasicMaterial({ color: 0xffffff, depthTest: false, transparent: true });
    const rim = new MeshBasicMaterial({ color: 0x15110d, depthTest: false, transparent: true });
    for (const [x, height, y] of places) {
      for (const [material, size] of [
        [rim, 1.35],
        [look, 1],
      ] as const) {
        const ball = new Mesh(new SphereGeometry(radius_m * size, 16, 12), material);
        ball.position.set(x, height, -y);
        ball.renderOrder = size > 1 ? 1 : 2;
        this.scene.add(ball);
      }
    }
    this.draw();
  }

  draw(): void {
    const { clientWidth, clientHeight } = this.canvas;
    if (!clientWidth || !clientHeight) return;
    this.renderer.setSize(clientWidth, clientHeight, false);
    this.camera.aspect = clientWidth / clientHeight;
    // a narrow screen sees as much to the sides as a wide one sees up and down
    const half = Math.tan((seen_deg * Math.PI) / 360) / Math.min(1, this.camera.aspect);
    this.camera.fov = (Math.atan(half) * 360) / Math.PI;
    this.camera.updateProjectionMatrix();
    const paper = getComputedStyle(document.documentElement).getPropertyValue("--wash").trim();
    this.scene.background = new Color(paper);
    this.renderer.render(this.scene, this.camera);
  }

  end(): void {
    this.controls.dispose();
    for (const one of [this.shell, this.face, this.lines, this.cutLines]) {
      one.geometry.dispose();
      one.material.dispose();
    }
    this.renderer.dispose();
  }
}

function replace(mesh: Mesh, shape: Shape): void {
  mesh.geometry.dispose();
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(shape.positions, 3));
  geometry.setAttribute("color", new BufferAttribute(shape.colours, 3));
  geometry.setIndex(new BufferAttribute(shape.indices, 1));
  mesh.geometry = geometry;
}

function replaceLines(lines: LineSegments, ends: Float32Array): void {
  lines.geometry.dispose();
  lines.geometry = new BufferGeometry().setAttribute("position", new BufferAttribute(ends, 3));
}

/** The cut face alone, flat, where there is no WebGL. */
export function drawFlat(canvas: HTMLCanvasElement, shown: Shown, plane: Plane): void {
  const pen = canvas.getContext("2d");
  if (!pen) return;
  canvas.width = canvas.clientWidth;
  canvas.height = canvas.clientHeight;
  const { positions, colours, indices } = section(shown, plane);
  const [nx, ny] = plane.normal;
  const along = (v: number): number => -ny * positions[v * 3]! + nx * -positions[v * 3 + 2]!;
  let [wide_m, high_m] = [0.1, 0.1];
  for (let v = 0; v * 3 < positions.length; ++v) {
    wide_m = Math.max(wide_m, Math.abs(along(v)));
    high_m = Math.max(high_m, positions[v * 3 + 1]!);
  }
  const scale = 0.9 * Math.min(canvas.width / (2 * wide_m), canvas.height / high_m);
  for (let i = 0; i < indices.length; i += 3) {
    const corner = [indices[i]!, indices[i + 1]!, indices[i + 2]!];
    const [r, g, b] = [0, 1, 2].map((k) => corner.reduce((sum, v) => sum + colours[v * 3 + k]!, 0) / 3);
    pen.fillStyle = pen.strokeStyle = `color(srgb-linear ${r} ${g} ${b})`;
    pen.beginPath();
    for (const v of corner)
      pen.lineTo(canvas.width / 2 + along(v) * scale, canvas.height * 0.95 - positions[v * 3 + 1]! * scale);
    pen.closePath();
    pen.fill();
    pen.stroke();
  }
}
