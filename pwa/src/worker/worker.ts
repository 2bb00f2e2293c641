// The worker: storage, network and the Go core in one place, away from the screens. This file is wiring:
// who is told what, and which call goes where.

import { Account } from './account'
import { Backoff } from './backoff'
import { badgeOf } from './badge'
import { Books } from './books'
import type { CardList } from './card'
import { Clock, type Heard } from './clock'
import { Core } from './core'
import { Demo } from './demo'
import { deviceOf } from './entries'
import { refOf, textOf, wallOf } from './entry'
import { Files } from './files'
import { startEditor, startGo, startSums } from './go'
import { Http } from './http'
import { Nudges } from './nudge'
import { noticeIn, putAway } from './notice'
import { People } from './people'
import { Photos, namedIn } from './photos'
import { prefsIn, setPrefs } from './prefs'
import type { AnswerOf, ArgsOf, Badge, Do, ToWorker, WorkerEvent } from './protocol'
import { Sender } from './sender'
import { Shelves } from './shelves'
import { Storage } from './storage'
import { Tray } from './tray'
import { Failure } from './trouble'
import { ownerIn } from './who'
import { words } from './words'

const wrongClock = { code: 'clock', words: words.clock }
const clock = new Clock(
  () => Date.now(),
  (heard) => {
    void storage.writeIfRoom((tx) => tx.objectStore('meta').put(heard, HEARD))
    if (heard.off !== 0) say({ event: 'notice', ...wrongClock })
  },
)
const now = () => clock.now()
const say = (event: WorkerEvent) => self.postMessage(event)

const storage = new Storage(() => say({ event: 'notice', code: 'nearly-full', words: words.nearlyFull }))
const core = new Core(startGo)
const sums = new Core(startSums)
const editor = new Core(startEditor)
const http = new Http(undefined, (server) => clock.heard(server))
const account = new Account(storage, http, () => void signedInOrOut(true))
const demo = new Demo(storage)
const shelves = new Shelves(storage, core, sums, clock, (shelf) => void shelfWrote(shelf))
const books = new Books(
  storage,
  core,
  demo,
  clock,
  (book) => wrote(book),
  (running, isDemo) => shelves.lay(running, isDemo),
)
const files = new Files(storage, core, now, (book) => void changed(book).then(() => sender.kick()))
const tray = new Tray(storage, (book) => books.sayings(book))
const sender = new Sender(
  storage,
  account,
  core,
  {
    changed: (book) => void changed(book),
    badge: () => void showBadge(),
    notice: (code, text) => say({ event: 'notice', code, words: text }),
    later(act, ms) {
      const timer = setTimeout(act, ms)
      return () => clearTimeout(timer)
    },
    now,
  },
  new Backoff(),
  {
    async heard(owner, hello) {
      const { account: who } = hello as { account?: { host?: boolean } }
      await account.isHost(owner, who?.host ?? false)
    },
    sent: (owner, limits) => photos.send(owner, limits),
  },
)
const people = new People(account, (entries) => books.said(entries))
const photos = new Photos(account, () => void showBadge(), now)
const nudges = new Nudges(http, account, () => void sender.kick())

/** The other tabs of this browser: they share the storage and nothing else. */
type Among = { changed: string } | { session: true } | { badge: true }
const tabs = new BroadcastChannel('linkrod')
tabs.onmessage = ({ data }: MessageEvent<Among>) => {
  if ('changed' in data)
    void books.stale(data.changed).then(() => say({ event: 'changed', book: data.changed }))
  else if ('session' in data) {
    account.forget()
    void signedInOrOut(false)
  }
  void showBadge()
}

/** Written on this phone: the screen that wrote it has its answer; the list and the other tabs have not. */
function wrote(book: string) {
  tabs.postMessage({ changed: book } satisfies Among)
  say({ event: 'changed', book: '' })
  void showBadge()
  void sender.kick()
}

/** A shelf was written here: what the engines are judged by is looked at again. */
async function shelfWrote(shelf: string) {
  wrote(shelf)
  await judgedAnew()
}
async function judgedAnew() {
  for (const { book } of await books.list()) say({ event: 'changed', book })
}

/** Changed from outside the book service (pulled, sent, taken from a file). */
async function changed(book: string) {
  if (await shelves.stale(book)) {
    tabs.postMessage({ changed: book } satisfies Among)
    say({ event: 'changed', book })
    return judgedAnew()
  }
  await books.stale(book)
  tabs.postMessage({ changed: book } satisfies Among)
  say({ event: 'changed', book })
}

async function signedInOrOut(here: boolean) {
  if (here) tabs.postMessage({ session: true } satisfies Among)
  await core.forget()
  const who = await account.current()
  say({ event: 'session', ...who })
  await showBadge()
  listen(who.session !== null && !who.needsSignIn)
  if (here && who.session) void sender.kick()
}

function listen(on: boolean) {
  if (on) nudges.start()
  else nudges.stop()
}

const owner = () => storage.read(ownerIn)

async function badge(): Promise<Badge> {
  const lines = await storage.read(async (tx) => badgeOf(tx, await ownerIn(tx), sender.doing))
  // Without their own room pictures are not there; readings are.
  const left = await photos.waiting(await owner()).catch(() => [])
  return { ...lines, photos: left.length }
}

async function showBadge() {
  say({ event: 'badge', badge: await badge() })
}

/** Under whom a book lies here. */
const ownerOf = (book: string): Promise<string> =>
  storage.read(async (tx) => ((await tx.objectStore('books').get(['demo', book])) ? 'demo' : ownerIn(tx)))

async function rowOf(book: string, key: string) {
  const whose = await ownerOf(book)
  const { device, n } = refOf(key)
  return storage.read((tx) => tx.objectStore('entries').get([whose, book, device, n]))
}

const none = null
const done = (act: Promise<unknown>) => act.then(() => none)
/** How this phone's clock stood to the server's when it was heard. */
const HEARD = 'heard'
const calls: { [D in Do]: (args: ArgsOf<D>) => Promise<AnswerOf<D>> } = {
  async start() {
    const [prefs, engines, who, shown, notice, heard] = await Promise.all([
      storage.read(prefsIn),
      books.list(),
      account.current(),
      badge(),
      storage.read(noticeIn),
      storage.read((tx) => tx.objectStore('meta').get(HEARD)),
    ])
    clock.begin(heard as Heard | undefined)
    void afterStart(who.session !== null && !who.needsSignIn)
    return { prefs, engines, ...who, badge: shown, notice: notice ?? (clock.wrong ? wrongClock : null) }
  },
  engines: () => books.list(),
  prefs: (change) => storage.write((tx) => setPrefs(tx, change)),
  async 'put-away'() {
    await storage.write(putAway)
    return none
  },

  open: ({ book }) => books.open(book),
  create: (opening) => books.create(opening),
  draft: ({ book, kind, draft }) => books.draft(book, kind, draft),
  save: ({ book, kind, draft }) => books.save(book, kind, draft),
  paper: ({ book, text }) => books.paper(book, text),
  tail: ({ last, digits }) => books.tail(last, digits),

  kinds: () => core.call('book.kinds', {}),
  form: ({ book, kind, typed }) => books.ask(book, 'book.form', { kind, typed }),
  ring: ({ book, measure }) => books.ask(book, 'book.ring', { measure }),
  log: ({ book, ...filter }) => books.ask(book, 'book.log', filter),
  cylinder: ({ book, cyl }) => books.cylinder(book, cyl),
  chapter: ({ book }) => demo.told(book),
  async 'chapter.tell'({ book, told }) {
    await demo.tell(book, told)
    await changed(book)
    return none
  },

  'sums.list': () => sums.call('sums.list', {}),
  'sums.work': (asked) => sums.call('sums.work', { ...asked, now: wallOf(clock.likely()) }),

  async 'cards.list'({ book }) {
    const missing = await shelves.ready()
    const list = book
      ? await books.ask<CardList>(book, 'cards.list', {})
      : await core.call<CardList>('cards.list', {})
    return { ...list, missing }
  },
  'cards.show': (card) => shelves.show(card),
  async 'cards.which'({ book, ...asked }) {
    await shelves.ready()
    return books.ask(book, 'cards.which', asked)
  },
  'cards.use': (asked) => shelves.use(asked),
  'cards.find': ({ query }) => shelves.find(query),
  'identify.look': ({ shelf, looked }) => shelves.look(shelf, looked),
  shelves: () => shelves.shared(),
  'shelf.create': ({ title, demo: invented }) => shelves.create(title, invented),
  'shelf.changes': ({ shelf }) => shelves.changes(shelf),
  'shelf.looked': ({ shelf }) => shelves.looked(shelf),
  'shelf.texts': ({ shelf }) => shelves.texts(shelf),
  'shelf.write': ({ shelf, bodies }) => shelves.write(shelf, bodies),
  'shelf.by': () => shelves.by(),
  'card.read': (asked) => editor.call('card.read', asked),
  'card.diff': (asked) => editor.call('card.diff', asked),
  'card.figures': (asked) => editor.call('card.figures', asked),
  'card.publish': (asked) => editor.call('card.publish', asked),

  async keep({ form, draft }) {
    await storage.write(async (tx) => {
      if (draft) await tx.objectStore('drafts').put(draft, form)
      else await tx.objectStore('drafts').delete(form)
    })
    return none
  },
  kept: ({ form }) => storage.read(async (tx) => (await tx.objectStore('drafts').get(form)) ?? null),

  'csv.read': ({ book, text }) => books.readCsv(book, text),
  'csv.take': ({ book, text, lines }) => books.takeCsv(book, text, lines),
  'csv.write': ({ book }) => books.writeCsv(book),
  'file.write': () => files.write(),
  'file.read': ({ text }) => files.read(text),
  'file.take': ({ text }) => files.take(text),

  async send() {
    await sender.kick()
    return badge()
  },
  async tray() {
    const left = await photos.waiting(await owner()).catch(() => [])
    return [...(await tray.lines()), ...(await tray.photos(left))]
  },
  async 'tray.put-by'({ key }) {
    await tray.putBy(key)
    await showBadge()
    return none
  },
  'tray.write': () => tray.write(),

  'photo.keep': async ({ book, file }) => photos.keep(await ownerOf(book), book, file),
  async 'photos.of'({ book, key }) {
    const row = await rowOf(book, key)
    if (!row) return []
    const show = async (sum: string) => ({ sum, ...(await photos.show(row.owner, book, sum)) })
    return Promise.all(namedIn(textOf(row.entry)).map(show))
  },
  'clock.of': async ({ book, key }) => (await rowOf(book, key))?.clock ?? null,
  'photo.show': async ({ book, sum }) => photos.show(await ownerOf(book), book, sum),

  members: ({ book }) => people.members(book),
  'member.change': ({ book, account: who, ...change }) => done(people.change(book, who, change)),
  'member.remove': ({ book, account: who }) => done(people.remove(book, who)),
  invitations: ({ book }) => people.invitations(book),
  invite: ({ book, role, signs }) => people.invite(book, role, signs),
  'invite.withdraw': ({ book, id }) => done(people.withdraw(book, id)),
  'invited.look': ({ secret }) => people.look(secret),
  async 'invited.join'({ secret, name, role = '', passphrase = '', label = '' }) {
    const joined = name
      ? await account.joinNew({ secret, name, role, passphrase, label })
      : await people.claim(secret)
    await sender.kick()
    return joined
  },
  devices: () => people.devices(),
  'device.remove': ({ device }) => done(people.removeDevice(device)),
  'device.last': ({ device }) => people.lastFrom(device),
  people: () => people.people(),
  'person.remove': ({ account: who }) => done(people.removePerson(who)),
  journal: ({ before }) => people.journal(before),
  aside: ({ book }) => people.aside(book),
  async 'aside.admit'({ book, reason, ...which }) {
    await people.admit(book, which, reason)
    await sender.kick()
    return none
  },
  disagreements: () => books.disagreements(),

  server: () => account.server(),
  'set-up': (answers) => account.setUp(answers),
  'set-up.check': (answers) => account.checkSetUp(answers),
  'sign-in': (answers) => account.signIn(answers),
  join: (answers) => account.join(answers),
  pair: () => account.pair(),
  'sign-out': () => account.signOut(),

  async phone() {
    const estimate = (await navigator.storage?.estimate?.()) ?? {}
    return {
      device: await storage.write(async (tx) => deviceOf(tx, await ownerIn(tx))),
      used: estimate.usage ?? 0,
      quota: estimate.quota ?? 0,
      kept: (await navigator.storage?.persisted?.()) ?? null,
      ballast: await storage.hasBallast(),
      sealed: await account.sealed(),
      version: import.meta.env['VITE_VERSION'] as string,
    }
  },
}

/** What can wait until the screen stands. */
async function afterStart(signedIn: boolean) {
  listen(signedIn)
  if (!(await storage.layBallast())) say({ event: 'notice', code: 'nearly-full', words: words.nearlyFull })
  await Promise.allSettled([layDemo(), sender.kick()])
}

async function layDemo() {
  for (const book of await demo.lay()) await changed(book)
}

self.onmessage = async ({ data }: MessageEvent<ToWorker>) => {
  if ('page' in data) {
    if (data.page === 'hidden') return listen(false)
    const { session, needsSignIn } = await account.current()
    listen(session !== null && !needsSignIn)
    return void sender.kick()
  }
  try {
    const act = calls[data.do] as (args: unknown) => Promise<unknown>
    self.postMessage({ id: data.id, ok: await act(data.args) })
  } catch (error) {
    self.postMessage({ id: data.id, error: Failure.of(error) })
  }
}
