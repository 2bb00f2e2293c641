// The server's nudges: "this book has moved". They only save waiting; everything is fetched by the sender,
// so a lost nudge costs nothing but time.

import type { Account } from './account'
import { Backoff } from './backoff'
import type { Http } from './http'

interface Nudge {
  book: string
  head: number
}

export class Nudges {
  #open: AbortController | null = null

  constructor(
    private readonly http: Http,
    private readonly account: Account,
    private readonly hear: (nudge: Nudge) => void,
    private readonly backoff = new Backoff(),
  ) {}

  /** Listen until stop(). Called again while listening: nothing changes. */
  start() {
    if (this.#open) return
    const end = new AbortController()
    this.#open = end
    void this.#listen(end.signal)
  }

  /** The app is out of sight, or nobody is signed in: no line is kept open. */
  stop() {
    this.#open?.abort()
    this.#open = null
  }

  async #listen(end: AbortSignal) {
    while (!end.aborted) {
      try {
        const stream = await this.http.stream('events', await this.account.access(), end)
        this.backoff.reset()
        for await (const nudge of nudges(stream)) this.hear(nudge)
      } catch {
        // No line, or it broke: the next try says so again, and the sender tells the person.
      }
      if (!end.aborted) await pause(this.backoff.next(1_000), end)
    }
  }
}

/** The data of server-sent events, one by one. Anything but a nudge (comments, later kinds) is passed over. */
export async function* nudges(stream: ReadableStream<Uint8Array>): AsyncGenerator<Nudge> {
  const reader = stream
    .pipeThrough(new TextDecoderStream() as ReadableWritablePair<string, Uint8Array>)
    .getReader()
  let text = ''
  try {
    for (;;) {
      const { value, done } = await reader.read()
      if (done) return
      text += value
      for (let end; (end = text.indexOf('\n')) >= 0; text = text.slice(end + 1)) {
        const line = text.slice(0, end).trim()
        if (!line.startsWith('data:')) continue
        try {
          const nudge = JSON.parse(line.slice(5)) as Partial<Nudge>
          if (typeof nudge.book === 'string' && typeof nudge.head === 'number') yield nudge as Nudge
        } catch {
          // Not a nudge of ours.
        }
      }
    }
  } finally {
    await reader.cancel().catch(() => undefined)
  }
}

function pause(ms: number, end: AbortSignal): Promise<void> {
  return new Promise((done) => {
    const timer = setTimeout(done, ms)
    end.addEventListener('abort', () => {
      clearTimeout(timer)
      done()
    })
  })
}
