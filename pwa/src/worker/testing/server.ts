// A server for tests: the ledger's rules as package sync states them, written a second time here
// with node:crypto, so that what the phone's Go core checks was not made by the same code.
import { createHash } from 'node:crypto'
import type { Entry } from '../entry'
import type { Fetch } from '../http'

const ZEROS = '0'.repeat(64)

function digest(...parts: Buffer[]): string {
  const sum = createHash('sha256')
  for (const part of parts) {
    const length = Buffer.alloc(4)
    length.writeUInt32BE(part.length)
    sum.update(length).update(part)
  }
  return sum.digest('hex')
}
const number = (n: number) => {
  const bytes = Buffer.alloc(8)
  bytes.writeBigUInt64BE(BigInt(n))
  return bytes
}
const hex = (text: string) => Buffer.from(text, 'hex')

interface Record {
  seq: number
  received: number
  account: string
  author: string
  chain: string
  entry: Entry
}
interface Book {
  owner: string
  records: Record[]
  /** What became of each number of each device: its hash, and its seq or why it was set aside. */
  turns: Map<string, { hash: string; seq: number; state?: string; words?: string }>
}

export class Server {
  readonly books = new Map<string, Book>()
  readonly asked: string[] = []
  account = 'aa'.repeat(16)
  name = 'I. Varnham'
  now = 1_762_700_000_000
  /** Called for each request before it is answered; what it returns is the answer instead. */
  before: (request: string) => Response | undefined | Promise<Response | undefined> = () => undefined
  /** Called after the server has done its work: throw to lose the reply. */
  after: (request: string) => void = () => undefined
  refuse: (entry: Entry) => string | undefined = () => undefined
  signedIn = true
  limits = { batch_entries: 500, batch_bytes: 262_144, entry_bytes: 32_768 }
  token = 1
  nonces: string[] = []

  readonly fetch: Fetch = async (url, init) => {
    const path = url.replace('/api/v1/', '')
    const request = `${init.method ?? 'GET'} ${path.replace(/\?.*/, '')}`
    this.asked.push(request)
    const instead = await this.before(request)
    if (instead) return instead
    const body = typeof init.body === 'string' ? (JSON.parse(init.body) as unknown) : undefined
    const access = new Headers(init.headers).get('Authorization') ?? ''
    const [status, reply] = this.#answer(request, path, body as never, access)
    this.after(request)
    if (status === 204) return new Response(null, { status })
    return this.json(status, reply)
  }

  json(status: number, reply: object, headers: HeadersInit = {}): Response {
    return new Response(JSON.stringify({ proto: 1, now: this.now, ...reply }), { status, headers })
  }
  error(status: number, code: string, headers: HeadersInit = {}): Response {
    return this.json(status, { error: { code, words: `Said ${code}.` } }, headers)
  }

  #answer(request: string, path: string, body: never, access: string): [number, object] {
    if (request === 'POST session' || request === 'POST pairing/claim' || request === 'POST setup')
      return [200, this.#session()]
    if (request === 'POST session/refresh') {
      this.nonces.push((body as { nonce: string }).nonce)
      return this.signedIn ? [200, this.#session()] : [401, { error: { code: 'sign-in', words: 'Sign in.' } }]
    }
    if (request === 'DELETE session') return [204, {}]
    if (access !== `Bearer t${this.token}`) return [401, { error: { code: 'token', words: 'Token.' } }]
    if (request === 'GET hello') return [200, this.#hello()]
    const [, id = '', what] = path.replace(/\?.*/, '').split('/')
    if (request.startsWith('PUT')) return this.#put(id)
    const book = this.books.get(id)
    if (book?.owner !== this.account) return [404, { error: { code: 'not-found', words: 'No such book.' } }]
    if (what === 'push') return [200, this.#push(id, book, (body as { entries: Entry[] }).entries)]
    const query = new URL('http://x/' + path).searchParams
    if (what === 'chain') return [200, { at: this.#at(book, query.get('at') ?? '') }]
    if (what === 'salvage') return [200, this.#salvage(book, body)]
    return this.#pull(book, query)
  }

  #at(book: Book, positions: string) {
    const chainAt = (seq: number) => (seq === 0 ? ZEROS : book.records[seq - 1]?.chain)
    return positions
      .split(',')
      .map((text) => ({ seq: Number(text), chain: chainAt(Number(text)) }))
      .filter((p) => p.chain !== undefined)
  }

  /** What a phone hands back after a restore goes in as it was, unless it is there already. */
  #salvage(
    book: Book,
    body: { records: { account: string; author: string; received: number; entry: Entry }[] },
  ) {
    const results = body.records.map(({ author, entry }) => {
      const turn = book.turns.get(`${entry.device}:${entry.n}`)
      if (!turn) this.admit(book, entry, author)
      const seq = turn?.seq ?? book.records.length
      return { device: entry.device, n: entry.n, state: turn ? 'dup' : 'ok', seq }
    })
    return { results, ...head(book) }
  }

  #session() {
    return {
      access: `t${this.token}`,
      expires_ms: this.now + 600_000,
      account: { id: this.account, name: this.name, role: 'mechanic' },
      shop: 'Fellside',
    }
  }

  #hello() {
    const mine = [...this.books].filter(([, b]) => b.owner === this.account)
    return { books: mine.map(([book, b]) => ({ book, ...head(b) })), limits: this.limits }
  }

  #put(id: string): [number, object] {
    const book = this.books.get(id)
    if (book && book.owner !== this.account) return [404, { error: { code: 'not-found', words: 'No.' } }]
    if (!book) this.books.set(id, { owner: this.account, records: [], turns: new Map() })
    return [200, { role: 'owner' }]
  }

  #push(_id: string, book: Book, entries: Entry[]) {
    const results = []
    let stop = false
    for (const entry of entries) {
      const key = `${entry.device}:${entry.n}`
      const turn = book.turns.get(key)
      const before = book.turns.get(`${entry.device}:${entry.n - 1}`)
      if (stop) results.push({ n: entry.n, state: 'later' })
      else if (turn && turn.hash !== entry.hash) {
        stop = true
        results.push({ n: entry.n, state: 'fork', code: 'fork', words: 'Fork.' })
      } else if (turn) {
        if (turn.seq) results.push({ n: entry.n, state: 'dup', seq: turn.seq })
        else results.push({ n: entry.n, state: turn.state, words: turn.words })
      } else if (entry.n > 1 && !before) {
        stop = true
        let from = 1
        while (book.turns.has(`${entry.device}:${from}`)) from++
        results.push({ n: entry.n, state: 'gap', from })
      } else results.push(this.#take(book, key, entry))
    }
    return { results, ...head(book) }
  }

  #take(book: Book, key: string, entry: Entry) {
    const words = this.refuse(entry)
    if (words) {
      book.turns.set(key, { hash: entry.hash, seq: 0, state: 'rejected', words })
      return { n: entry.n, state: 'rejected', words }
    }
    this.admit(book, entry)
    return { n: entry.n, state: 'ok', seq: book.records.length }
  }

  /** Put an entry into a ledger, whoever wrote it. */
  admit(book: Book, entry: Entry, author = this.name) {
    const seq = book.records.length + 1
    const before = hex(head(book).chain)
    const chain = digest(before, number(seq), hex(entry.hash), hex(this.account), number(this.now))
    book.records.push({ seq, received: this.now, account: this.account, author, chain, entry })
    book.turns.set(`${entry.device}:${entry.n}`, { hash: entry.hash, seq })
  }

  #pull(book: Book, query: URLSearchParams): [number, object] {
    const after = Number(query.get('after'))
    const limit = Number(query.get('limit'))
    const known = after === 0 ? ZEROS : book.records[after - 1]?.chain
    if (known !== query.get('chain')) return [409, { error: { code: 'rewound', words: 'Rewound.' } }]
    const records = book.records.slice(after, after + limit)
    return [200, { records, ...head(book), more: after + records.length < book.records.length }]
  }
}

const head = (book: Book) => ({ head: book.records.length, chain: book.records.at(-1)?.chain ?? ZEROS })
