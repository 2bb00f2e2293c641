// This phone's clock, and how far it is from the server's. What is written carries the phone's own clock as
// evidence; the difference only puts the day and time a form begins with right, and tells the person. Nothing is
// ever ordered, judged or expired by it.

/** A difference up to this is a slow line and the sloppiness of clocks, ms. */
const SLOPPY = 5 * 60_000

/** What was known when the server was heard. */
export interface Heard {
  server: number
  /** What to add to this phone's clock to have the server's, ms; 0 = as good as the same. */
  off: number
}

export class Clock {
  #heard: Heard = { server: 0, off: 0 }

  /** `changed` is called when the difference begins, ends or jumps. */
  constructor(
    private readonly read: () => number = Date.now,
    private readonly changed: (heard: Heard) => void = () => undefined,
  ) {}

  /** As known from the last run, until the server is heard in this one. */
  begin(last: Heard | undefined) {
    if (last && this.#heard.server === 0) this.#heard = last
  }

  /** The server says what time it is. */
  heard(server: number) {
    const apart = server - this.read()
    const off = Math.abs(apart) > SLOPPY ? apart : 0
    const before = this.#heard.off
    this.#heard = { server, off }
    if (Math.abs(off - before) > SLOPPY) this.changed(this.#heard)
  }

  /** It was off when the server was heard last. */
  get wrong(): boolean {
    return this.#heard.off !== 0
  }

  /** Evidence: the phone's clock as it stands. */
  now(): Date {
    return new Date(this.read())
  }

  /** The likely time: by the clock as it was off then, or as it stands if somebody has set it since; whichever is
   *  the sooner after the server was heard, and never before that. */
  likely(): Date {
    const { server, off } = this.#heard
    const since = [this.read() + off, this.read()].filter((at) => at >= server - SLOPPY)
    return new Date(since.length > 0 ? Math.min(...since) : server)
  }
}
