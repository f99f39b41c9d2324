/** Where the eye stands: degrees round and up, and how far as a share of the usual distance. */
export interface Eye {
  turn: number;
  lift: number;
  far: number;
}

/** Drag and arrow keys turn the view; a press without a drag picks. */
export function steer(
  canvas: HTMLCanvasElement,
  eye: Eye,
  ask: () => void,
  press: (x: number, y: number) => void,
): void {
  let held: { x: number; y: number; moved: boolean } | undefined;
  canvas.addEventListener('pointerdown', (e) => {
    held = { x: e.clientX, y: e.clientY, moved: false };
    canvas.setPointerCapture(e.pointerId);
  });
  canvas.addEventListener('pointermove', (e) => {
    if (!held) return;
    const [dx, dy] = [e.clientX - held.x, e.clientY - held.y];
    if (!held.moved && Math.hypot(dx, dy) < 5) return;
    eye.turn -= dx * 0.4;
    eye.lift = Math.max(-80, Math.min(85, eye.lift + dy * 0.4));
    held = { x: e.clientX, y: e.clientY, moved: true };
    ask();
  });
  canvas.addEventListener('pointerup', (e) => {
    if (held && !held.moved) {
      const box = canvas.getBoundingClientRect();
      press(((e.clientX - box.left) / box.width) * 2 - 1, 1 - ((e.clientY - box.top) / box.height) * 2);
    }
    held = undefined;
  });
  canvas.addEventListener('pointercancel', () => {
    held = undefined;
  });
  canvas.addEventListener('keydown', (e) => {
    const by: Readonly<Record<string, () => void>> = {
      ArrowLeft: () => (eye.turn -= 10),
      ArrowRight: () => (eye.turn += 10),
      ArrowUp: () => (eye.lift = Math.min(85, eye.lift + 8)),
      ArrowDown: () => (eye.lift = Math.max(-80, eye.lift - 8)),
      '+': () => (eye.far = Math.max(0.4, eye.far / 1.15)),
      '-': () => (eye.far = Math.min(2.5, eye.far * 1.15)),
    };
    const act = by[e.key];
    if (!act) return;
    e.preventDefault();
    act();
    ask();
  });
}
