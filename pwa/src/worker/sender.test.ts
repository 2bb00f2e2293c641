// @vitest-environment node
import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, it } from 'vitest'
import { textOf } from './entry'
import { BOOK, Phone } from './testing/phone'
import { Server } from './testing/server'
import { inBook } from './entries'
import { noticeIn, putAway } from './notice'

let server: Server
let phone: Phone
beforeEach(() => {
  server = new Server()
  phone = new Phone(server)
})
const ledger = () => server.books.get(BOOK)?.records.map((r) => textOf(r.entry)) ?? []
const note = (text: string) => JSON.stringify({ type: 'note', text })

describe('without an account', () => {
  it('sends nothing and asks nobody', async () => {
    await phone.write('a')
    await phone.send()
    expect(server.asked).toEqual([])
    expect(await phone.badge()).toMatchObject({ waiting: 0, unjoined: 1, stuck: '' })
  })
  it('brings its own books along when somebody signs in', async () => {
    await phone.write('a', 'b')
    await phone.signIn()
    await phone.send()
    expect(ledger()).toEqual([note('a'), note('b')])
    expect(await phone.states()).toEqual(['sent', 'sent'])
  })
})

describe('a round', () => {
  it('sends what waits, in order, and then says all sent', async () => {
    await phone.signIn()
    await phone.write('a', 'b', 'c')
    expect(await phone.badge()).toMatchObject({
      waiting: 3,
      since: phone.now.getTime(),
      lastTry: 0,
      lastSent: 0,
    })
    await phone.send()
    expect(ledger()).toEqual(['a', 'b', 'c'].map(note))
    expect((await phone.rows()).map((r) => r.seq)).toEqual([1, 2, 3])
    expect(await phone.badge()).toMatchObject({
      waiting: 0,
      since: 0,
      lastTry: phone.now.getTime(),
      lastSent: phone.now.getTime(),
      stuck: '',
    })
    expect(phone.next).toBeNull()
  })
  it('costs one request when nothing is new', async () => {
    await phone.signIn()
    await phone.write('a')
    await phone.send()
    server.asked.length = 0
    await phone.send()
    expect(server.asked).toEqual(['GET hello'])
  })
  it('cuts batches by the limits the server states and counts along', async () => {
    await phone.signIn()
    server.limits.batch_entries = 2
    await phone.write('a', 'b', 'c')
    await phone.send()
    expect(server.asked.filter((r) => r.endsWith('push'))).toHaveLength(2)
    expect(ledger()).toHaveLength(3)
    expect(phone.badges).toContainEqual({ i: 1, n: 3 })
    expect(phone.badges).toContainEqual({ i: 3, n: 3 })
  })
  it('brings what others wrote, with their name', async () => {
    await phone.signIn()
    await phone.write('mine')
    await phone.send()
    const other = new Phone(server)
    await other.signIn()
    await other.send()
    expect((await other.rows()).map((r) => [textOf(r.entry), r.seq, r.author])).toEqual([
      [note('mine'), 1, 'I. Varnham'],
    ])
    await other.write('theirs')
    await other.send()
    await phone.send()
    expect((await phone.rows()).map((r) => r.seq).sort()).toEqual([1, 2])
    expect(phone.changed).toContain(BOOK)
  })
  it('fetches a long ledger page by page and checks the chain across pages', async () => {
    await phone.signIn()
    await phone.write(...Array.from({ length: 1201 }, (_, i) => `line ${i}`))
    await phone.send()
    const other = new Phone(server)
    await other.signIn()
    Object.assign(server.limits, { snapshot_after: 5000 })
    server.asked.length = 0
    await other.send()
    expect(await other.rows()).toHaveLength(1201)
    expect(server.asked.filter((r) => r.endsWith('pull'))).toHaveLength(3)
  }, 30_000)
})

describe('a lost reply', () => {
  it('to a push is asked for again and enters the ledger once', async () => {
    await phone.signIn()
    await phone.write('a', 'b')
    let lose = true
    server.after = (request) => {
      if (request.endsWith('push') && lose) {
        lose = false
        throw new TypeError('network')
      }
    }
    await phone.send()
    expect(await phone.badge()).toMatchObject({ waiting: 2, stuck: 'no-answer' })
    phone.next?.act()
    await phone.send()
    expect(ledger()).toEqual([note('a'), note('b')])
    expect(await phone.states()).toEqual(['sent', 'sent'])
  })
  it('to a refresh signs nobody out: the same nonce is sent until an answer comes', async () => {
    await phone.signIn()
    await phone.write('a')
    phone.elapsed = 600_000 // the access token has run out
    let lose = true
    server.after = (request) => {
      if (request === 'POST session/refresh' && lose) {
        lose = false
        throw new TypeError('network')
      }
    }
    await phone.send()
    expect(await phone.badge()).toMatchObject({ waiting: 1, stuck: 'no-answer' })
    await phone.send()
    expect(server.nonces).toHaveLength(2)
    expect(server.nonces[0]).toBe(server.nonces[1])
    expect(ledger()).toEqual([note('a')])
    phone.elapsed = 1_300_000
    await phone.send()
    expect(server.nonces[2]).not.toBe(server.nonces[0])
  })
})

describe('401', () => {
  it('renews the token once and goes on', async () => {
    await phone.signIn()
    await phone.write('a')
    server.token++ // the server was restarted under a new key, say
    await phone.send()
    expect(ledger()).toEqual([note('a')])
    expect(server.nonces).toHaveLength(1)
  })
  it('to the refresh asks for a sign-in and keeps everything, here and readable', async () => {
    await phone.signIn()
    await phone.write('a')
    server.token++
    server.signedIn = false
    await phone.send()
    expect(await phone.account.current()).toMatchObject({
      session: { name: 'I. Varnham' },
      needsSignIn: true,
    })
    expect(await phone.badge()).toMatchObject({ waiting: 1, stuck: 'sign-in' })
    expect(phone.next).toBeNull() // no hammering
    await phone.write('b')
    server.signedIn = true
    await phone.signIn()
    await phone.send()
    expect(ledger()).toEqual([note('a'), note('b')])
  })
})

describe('an answer that is not ours', () => {
  it.each([
    ["a hotel's log-in page with status 200", () => new Response('<html>Welcome</html>', { status: 200 })],
    ['JSON without proto', () => new Response('{"results":[]}', { status: 200 })],
    ['a bare list', () => new Response('[]', { status: 200 })],
    ['a torn body', () => new Response('{"proto":1,"resu', { status: 200 })],
    ["a proxy's 502", () => new Response('<h1>Bad gateway</h1>', { status: 502 })],
    ["a stranger's 401", () => new Response('{"error":"who are you"}', { status: 401 })],
  ])('%s is no answer', async (_what, page) => {
    await phone.signIn()
    await phone.write('a')
    server.before = page
    await phone.send()
    expect(await phone.badge()).toMatchObject({ waiting: 1, stuck: 'no-answer' })
    expect(await phone.account.current()).toMatchObject({ needsSignIn: false })
    server.before = () => undefined
    await phone.send()
    expect(ledger()).toEqual([note('a')])
  })
})

describe('backing off', () => {
  it('doubles the span, jitters inside it, and starts over on a tap', async () => {
    await phone.signIn()
    server.before = () => {
      throw new TypeError('network')
    }
    const spans: number[] = []
    await phone.send()
    for (let i = 0; i < 11; i++) {
      spans.push(phone.next?.ms ?? -1)
      phone.next?.act()
      await phone.sender.idle()
    }
    expect(spans).toEqual([500, 1e3, 2e3, 4e3, 8e3, 16e3, 32e3, 64e3, 128e3, 15e4, 15e4])
    await phone.send()
    expect(phone.next?.ms).toBe(500)
  })
  it('waits at least as long as the server asks', async () => {
    await phone.signIn()
    await phone.write('a')
    server.before = (request) =>
      request.endsWith('push') ? server.error(503, 'busy', { 'Retry-After': '40' }) : undefined
    await phone.send()
    expect(phone.next?.ms).toBe(40_000)
    expect(await phone.badge()).toMatchObject({ waiting: 1, stuck: 'later' })
  })
})

describe('a refused entry', () => {
  it('goes to the tray with the reason and blocks nothing behind it', async () => {
    await phone.signIn()
    await phone.write('a', 'bad', 'c')
    server.refuse = (e) => (textOf(e).includes('bad') ? 'Not this one.' : undefined)
    await phone.send()
    expect(ledger()).toEqual([note('a'), note('c')])
    const rows = await phone.rows()
    expect(rows.map((r) => r.state)).toEqual(['sent', 'refused', 'sent'])
    expect(rows[1]?.words).toBe('Not this one.')
    expect(await phone.badge()).toMatchObject({ waiting: 0, tray: 1 })
  })
})

describe('a copied phone', () => {
  it('goes on as a new device and loses nothing', async () => {
    await phone.signIn()
    const [first] = await phone.write('a')
    if (!first) throw new Error('nothing written')
    await phone.send()
    // The copy writes under the same device id first.
    server.admit(server.books.get(BOOK) as never, {
      ...first.entry,
      n: 2,
      prev: first.entry.hash,
      hash: 'cc'.repeat(32),
    })
    await phone.write('mine', 'mine too')
    server.before = (request) => (request.endsWith('pull') ? server.json(200, page()) : undefined)
    const page = () => ({ records: [], head: 2, chain: '', more: false }) // its forged hash would not verify
    await phone.send()
    const rows = await phone.rows()
    expect(phone.notices).toContain('copied')
    expect(new Set(rows.map((r) => r.device)).size).toBe(2)
    expect(rows.map((r) => textOf(r.entry)).sort()).toEqual(['a', 'mine', 'mine too'].map(note).sort())
    expect(ledger().slice(2)).toEqual([note('mine'), note('mine too')])
    expect((await phone.badge()).waiting).toBe(0)
  })
})

describe('a copied phone that hears before it sends', () => {
  it('keeps its own line beside the one the ledger has under that number', async () => {
    await phone.signIn()
    await phone.write('a')
    await phone.send()
    const copy = await phone.copied()
    await copy.write('from the copy')
    await copy.send()
    await phone.write('mine')
    await phone.send()
    expect(phone.notices).toEqual(['copied'])
    expect(ledger()).toEqual(['a', 'from the copy', 'mine'].map(note))
    const rows = await phone.rows()
    expect(rows.map((r) => textOf(r.entry)).sort()).toEqual(ledger().sort())
    expect(new Set(rows.map((r) => r.device)).size).toBe(2)
    expect(await phone.storage.read(noticeIn)).toMatchObject({ code: 'copied' })
    await phone.storage.write(putAway)
    expect(await phone.storage.read(noticeIn)).toBeNull()
  })
})

describe('a server set back to an older copy', () => {
  it('is offered again what it lost', async () => {
    await phone.signIn()
    await phone.write('a', 'b', 'c')
    await phone.send()
    const book = server.books.get(BOOK)
    book?.records.splice(1)
    for (const key of [...(book?.turns.keys() ?? [])]) if (!key.endsWith(':1')) book?.turns.delete(key)
    await phone.write('d')
    await phone.send()
    expect(ledger()).toEqual(['a', 'b', 'c', 'd'].map(note))
    expect(await phone.states()).toEqual(['sent', 'sent', 'sent', 'sent'])
  })
})

describe('a ledger that was tampered with', () => {
  it('is not taken in', async () => {
    await phone.signIn()
    await phone.write('a', 'b')
    await phone.send()
    const record = server.books.get(BOOK)?.records[1]
    if (record) record.received++
    const other = new Phone(server)
    await other.signIn()
    await other.send()
    expect(await other.rows()).toEqual([])
    expect(other.notices).toEqual(['damaged'])
  })
})

describe('two people on one phone', () => {
  it('keeps the unsent lines of the one sealed while the other writes and sends', async () => {
    await phone.signIn()
    await phone.write("Varnham's")
    server.before = (request) => {
      if (request !== 'DELETE session') return undefined
      throw new TypeError('network')
    }
    expect(await phone.account.signOut()).toEqual({ sealed: 1 })
    expect(await phone.rows()).toEqual([])
    server.before = () => undefined
    Object.assign(server, { account: 'bb'.repeat(16), name: 'T. Askerly' })
    await phone.signIn()
    expect(server.asked.filter((r) => r === 'DELETE session')).toHaveLength(2) // said again at the next contact
    await phone.write("Askerly's")
    await phone.send()
    expect(ledger()).toEqual([note("Askerly's")])
    expect(await phone.account.sealed()).toEqual([{ name: 'I. Varnham', waiting: 1 }])
    const sealed = await phone.storage.read((tx) => inBook(tx, 'aa'.repeat(16), BOOK))
    expect(sealed.map((r) => textOf(r.entry))).toEqual([note("Varnham's")])
  })
})

describe("a device id that is another account's", () => {
  const taken = () => {
    let once = true
    server.before = (request) => {
      if (request !== 'POST session' || !once) return undefined
      once = false
      return server.error(409, 'conflict')
    }
  }
  it('is exchanged for a new one when nothing was written under it', async () => {
    taken()
    await phone.signIn()
    await phone.write('a')
    await phone.send()
    expect(ledger()).toEqual([note('a')])
  })
  it('with unsent lines under it is told, and they stay', async () => {
    await phone.write('a')
    taken()
    await expect(phone.signIn()).rejects.toMatchObject({ code: 'conflict', words: 'Said conflict.' })
    expect(await phone.states()).toEqual(['waiting'])
  })
})
