// What every screen may know: the engines here, whose phone this is, what still waits to be sent.

import { SvelteSet } from 'svelte/reactivity'
import type { Badge, EngineLine, Opening, Prefs, Session, Trouble } from '../worker/protocol'
import { words } from '../worker/words'
import { Book } from './book.svelte'
import { type Here, emptied, forget, missing, note, understood } from './emptied'
import { CallError, type Link } from './link'
import { Route } from './route.svelte'
import { Update } from './update.svelte'

const nothingWaits: Badge = {
  waiting: 0,
  since: 0,
  sending: null,
  lastTry: 0,
  lastSent: 0,
  stuck: '',
  tray: 0,
  unjoined: 0,
  demo: 0,
}

export class App {
  /** False until the worker has read the phone's storage. The shell stands before that. */
  ready = $state(false)
  engines = $state.raw<EngineLine[]>([])
  prefs = $state.raw<Prefs>({
    name: '',
    mode: '',
    view: 'cockpit',
    hand: 'right',
    text: '',
    pad: true,
    hints: [],
    triedWithoutSignal: false,
  })
  session = $state.raw<Session | null>(null)
  needsSignIn = $state(false)
  badge = $state.raw<Badge>(nothingWaits)
  /** Storage full, phone copied, shop set back: shown wherever the person is, until put away. */
  notice = $state.raw<Trouble | null>(null)
  /** Set when the phone's storage could not be opened at all. */
  trouble = $state.raw<Trouble | null>(null)
  /** The browser threw away what was here: what that was, until a person has read it. */
  emptied = $state.raw<Here | null>(emptied())
  /** The install offer of the browser, when it made one. */
  install = $state.raw<{ prompt(): Promise<void> } | null>(null)

  readonly route = new Route()
  readonly update = new Update(() => this.#dirty.size > 0)
  // Not reactive: a book is made while a screen is being drawn, and its own fields are what changes.
  // eslint-disable-next-line svelte/prefer-svelte-reactivity
  readonly #books = new Map<string, Book>()
  readonly #dirty = new SvelteSet<string>()

  constructor(readonly link: Link) {
    link.onEvent((event) => {
      if (event.event === 'badge') this.badge = event.badge
      else if (event.event === 'notice') this.notice = { code: event.code, words: event.words }
      else if (event.event === 'session') {
        this.session = event.session
        this.needsSignIn = event.needsSignIn
        if (!event.session) forget()
        void this.refresh()
      } else {
        void this.refresh()
        void this.#books.get(event.book)?.refresh()
      }
    })
    window.addEventListener('online', () => link.tell({ page: 'online' }))
    window.addEventListener('pageshow', (e) => {
      if (e.persisted) link.tell({ page: 'resumed' })
    })
    document.addEventListener('visibilitychange', () => {
      link.tell({ page: document.visibilityState === 'visible' ? 'resumed' : 'hidden' })
    })
    window.addEventListener('beforeinstallprompt', (e) => {
      e.preventDefault()
      this.install = e as unknown as { prompt(): Promise<void> }
    })
  }

  async start() {
    try {
      const start = await this.link.call('start', {})
      this.prefs = start.prefs
      this.engines = start.engines
      this.session = start.session
      this.needsSignIn = start.needsSignIn
      this.badge = start.badge
      // What was said while it started is newer.
      this.notice ??= start.notice
      this.ready = true
      this.#watch()
      void this.#tryWithoutSignal()
    } catch (error) {
      this.trouble = { code: 'start', words: error instanceof Error ? error.message : String(error) }
    }
  }

  // Own engines are here: ask the browser to keep them, and note them. They were and are not: say so.
  #watch() {
    if (this.engines.some((e) => !e.demo)) {
      note({ sent: this.badge.lastSent, device: this.session?.device ?? '' })
      // Some browsers leave this open until a person answers: nobody waits for it.
      void navigator.storage?.persist?.()
      return
    }
    if (this.session || !missing()) return
    this.emptied = emptied()
    this.notice = { code: 'emptied', words: words.emptied(this.emptied?.sent ?? 0) }
  }

  /** What was lost with the browser's storage has been read. */
  understood() {
    understood()
    this.emptied = null
    if (this.notice?.code === 'emptied') this.notice = null
  }

  // The no-signal check of the home screen: ticked when the app came up from the phone and the server was silent.
  async #tryWithoutSignal() {
    const fromPhone = 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null
    if (this.prefs.triedWithoutSignal || !fromPhone) return
    const { reached } = await this.link.call('server', {})
    if (!reached) await this.set({ triedWithoutSignal: true })
  }

  async refresh() {
    try {
      this.engines = await this.link.call('engines', {})
      this.#watch()
    } catch (error) {
      if (!(error instanceof CallError)) throw error
      this.notice = error.trouble
    }
  }

  /** The open engine. The same object for the same id, so that screens share it. */
  book(id: string): Book {
    let book = this.#books.get(id)
    if (!book) {
      book = new Book(this.link, id)
      this.#books.set(id, book)
      void book.refresh()
    }
    return book
  }

  async create(opening: Opening): Promise<string> {
    const { book } = await this.link.call('create', opening)
    await this.refresh()
    return book
  }

  /** The notice was read. */
  async putAway() {
    this.notice = null
    await this.link.call('put-away', {})
  }

  async set(prefs: Partial<Prefs>) {
    this.prefs = { ...this.prefs, ...prefs }
    this.prefs = await this.link.call('prefs', prefs)
  }

  async send() {
    this.badge = await this.link.call('send', {})
  }

  formOpen(name: string, dirty: boolean) {
    if (dirty) this.#dirty.add(name)
    else this.#dirty.delete(name)
    if (this.#dirty.size === 0) this.update.settled()
  }

  /** A newer version may start now: one is ready and nothing is half written. */
  get mayUpdate() {
    return this.update.ready && this.#dirty.size === 0
  }
}
