import { median } from 'simple-statistics';

/** Of so many frames the time of drawing is kept. */
const KEPT = 60;

/** Draws again and again while the element can be seen, and not at all while it is scrolled away. */
export class Frames {
  private readonly took: number[] = [];
  private readonly observer: IntersectionObserver;
  private pending = 0;
  count = 0;

  constructor(
    element: Element,
    private readonly draw: () => void,
  ) {
    this.observer = new IntersectionObserver((entries) => {
      cancelAnimationFrame(this.pending);
      if (entries.at(-1)?.isIntersecting) this.next();
    });
    this.observer.observe(element);
  }

  /** Median time of drawing a frame, of the last ones; 0 before the first. */
  get drawMs(): number {
    return this.took.length > 0 ? median(this.took) : 0;
  }

  stop(): void {
    cancelAnimationFrame(this.pending);
    this.observer.disconnect();
  }

  private next(): void {
    this.pending = requestAnimationFrame(() => {
      const began = performance.now();
      this.draw();
      this.took[this.count % KEPT] = performance.now() - began;
      this.count += 1;
      this.next();
    });
  }
}
