/** What a hand on the field does. */
export interface FieldHand {
  /** Minutes of arc and degrees as they stand. */
  held(): { readonly arcmin: number; readonly tiltDeg: number };
  turnTo(arcmin: number): void;
  rockTo(degrees: number): void;
  mark(): void;
}

const KEYS: Readonly<Record<string, readonly ['drum' | 'tilt', number]>> = {
  ArrowUp: ['drum', 0.1],
  ArrowDown: ['drum', -0.1],
  PageUp: ['drum', 5],
  PageDown: ['drum', -5],
  ArrowLeft: ['tilt', -1],
  ArrowRight: ['tilt', 1],
};
/** Pixels of a drag for a degree of rocking, and for a minute of arc on the drum. */
const [PX_PER_DEGREE, PX_PER_ARCMIN] = [12, 6];

/** Lets keys and drags on the field move the sextant. */
export function takeInHand(canvas: HTMLCanvasElement, hand: FieldHand): void {
  canvas.addEventListener('keydown', (event) => {
    const known = KEYS[event.key];
    if (!known && event.key !== ' ') return;
    event.preventDefault();
    event.stopPropagation();
    const { arcmin, tiltDeg } = hand.held();
    if (!known) hand.mark();
    else if (known[0] === 'drum') hand.turnTo(arcmin + known[1]);
    else hand.rockTo(tiltDeg + known[1]);
  });
  canvas.addEventListener('pointerdown', (down) => {
    canvas.setPointerCapture(down.pointerId);
    const from = hand.held();
    const move = (event: PointerEvent) => {
      hand.rockTo(from.tiltDeg + (event.clientX - down.clientX) / PX_PER_DEGREE);
      hand.turnTo(from.arcmin + (event.clientY - down.clientY) / PX_PER_ARCMIN);
    };
    const end = () => canvas.removeEventListener('pointermove', move);
    canvas.addEventListener('pointermove', move);
    canvas.addEventListener('pointerup', end, { once: true });
    canvas.addEventListener('pointercancel', end, { once: true });
  });
}
