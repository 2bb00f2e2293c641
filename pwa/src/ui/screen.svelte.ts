// How large the letters and the page are on this screen now. Drawings need it in figures: their words grow
// with the person's own text size like every other word. App keeps two probes on the page and reports them.

class Screen {
  /** One rem in pixels. */
  #rem = $state(17)
  #width = $state(0)
  /** The floor step of the type scale in pixels. */
  em = $derived(Math.max(14, this.#rem * 0.8235))
  /** There is room for columns. The stylesheets say the same as `width >= 56rem`. */
  wide = $derived(this.#width >= 56 * this.#rem)

  measured(rem: number, width: number) {
    if (rem > 0) this.#rem = rem
    this.#width = width
  }
}

export const screen = new Screen()
