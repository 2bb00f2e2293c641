/** Waiting between tries: full jitter over a span that doubles from 1 s to 5 min, so that many phones that
 *  lost one server do not come back in step. */
export class Backoff {
  #tries = 0

  constructor(
    private readonly random: () => number = Math.random,
    private readonly first = 1_000,
    private readonly most = 300_000,
  ) {}

  /** Milliseconds until the next try; never less than `least` (what the server asked for). */
  next(least = 0): number {
    const span = Math.min(this.most, this.first * 2 ** this.#tries++)
    return Math.max(least, Math.round(this.random() * span))
  }

  reset() {
    this.#tries = 0
  }
}
