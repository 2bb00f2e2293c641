// @vitest-environment node
import { describe, expect, it } from 'vitest'
import { nudges } from './nudge'

function stream(...pieces: string[]): ReadableStream<Uint8Array> {
  return new ReadableStream({
    start(out) {
      for (const piece of pieces) out.enqueue(new TextEncoder().encode(piece))
      out.close()
    },
  })
}
async function all(...pieces: string[]) {
  const heard = []
  for await (const nudge of nudges(stream(...pieces))) heard.push(nudge)
  return heard
}

describe('nudges', () => {
  it('are read however the network cuts them', async () => {
    const text = 'data: {"book":"b1","head":3}\n\n: still there\n\ndata: {"book":"b2","head":4}\n\n'
    const want = [
      { book: 'b1', head: 3 },
      { book: 'b2', head: 4 },
    ]
    expect(await all(text)).toEqual(want)
    expect(await all(...text)).toEqual(want)
  })
  it('pass over what is none', async () => {
    expect(
      await all(
        'event: later\ndata: {"new":"kind"}\n\ndata: not json\r\n\r\ndata: {"book":"b","head":1}\r\n\r\n',
      ),
    ).toEqual([{ book: 'b', head: 1 }])
  })
})
