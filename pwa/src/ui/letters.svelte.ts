// Words inside a drawing grow with the person's own text size, like every other word. App keeps a probe
// one rem wide on the page and says here how wide it came out.

class Letters {
  /** The floor step of the type scale in pixels, as it stands on this screen now. */
  em = $state(14)

  measured(rem: number) {
    if (rem > 0) this.em = Math.max(14, rem * 0.8235)
  }
}

export const letters = new Letters()
