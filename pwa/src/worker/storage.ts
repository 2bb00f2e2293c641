// The phone's storage: one IndexedDB database, and the rules for writing to it.
//
//   W1  A write resolves only when its transaction has completed with strict durability. Nothing on the way
//       is swallowed: it resolves, or it rejects with a Failure the person is told.
//   W2  A dead handle (phones drop the connection behind a sleeping app) is opened again once.
//   W3  When the quota or the disk is full, the ballast (2 MiB kept for this) goes and the write is tried again, so
//       that one more reading always fits.
//   W4  Transactions, not locks, keep two tabs apart: what must be decided together is read and written in
//       one transaction.

import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB } from 'idb'
import type { Entry } from './entry'
import type { Draft, Owner } from './protocol'
import { Failure } from './trouble'
import type { Chip } from './view'
import { words } from './words'

/** waiting: not in any ledger yet. sent: the ledger has it at `seq`. refused, held: in the tray.
 *  putBy: refused, and the person has seen to it. lost: somebody else's, and the server lost it when it was set
 *  back; it is offered again. Only own entries wait, are refused or held. */
export type State = 'waiting' | 'sent' | 'refused' | 'held' | 'putBy' | 'lost'

/** Between these two times by the server's clock, ms. */
export interface Span {
  from: number
  to: number
}

/** How the device's machine (package sync) stands in one book. It is the machine's own; these fields may be read. */
export interface DeviceState {
  joined?: boolean
  head?: { seq: number; chain: string }
  role?: string
  signs?: boolean
  /** Why nothing goes up: '' | 'not-mine' | 'revoked'. */
  shut?: string
  /** This Linkrod is older than the server still talks to. */
  old?: boolean
}

/** An entry as it lies here: own ones and other people's alike. */
export interface Row {
  owner: Owner
  book: string
  device: string
  n: number // below 0: shelved, because another entry stands under this number in the ledger
  entry: Entry
  state: State
  seq: number // 0: none yet
  own?: boolean // this phone answers for it: written here, or taken from a file. Old rows do not say: see isOwn
  written: number // ms, by this phone's clock
  author: string // '' : written here
  account?: string // '' until the ledger has said
  received?: number // ms, by the server's clock; 0 until the ledger has said
  words: string // why it is in the tray
  clock?: Span // this phone's clock was wrong: written between these
}

export interface BookRow {
  owner: Owner
  book: string
  sync?: DeviceState | null // what device.step left; the machine begins anew without it
  /** What it is a book of; an engine where it does not say. */
  of?: 'engine' | 'shelf'
  opened: number // ms
  // What the engine list shows, as the core said it last. Kept so that the list needs no core.
  line: { name: string; named: boolean; model: string; state: string; chip: Chip | null; twice?: number }
}

interface Schema extends DBSchema {
  entries: {
    key: [Owner, string, string, number] // owner, book, device, n
    value: Row
    indexes: { state: [Owner, State, number] } // owner, state, written
  }
  books: { key: [Owner, string]; value: BookRow }
  meta: { key: string; value: unknown }
  drafts: { key: string; value: Draft }
  ballast: { key: string; value: Uint8Array }
}

export type Store = 'entries' | 'books' | 'meta' | 'drafts' | 'ballast'
export type Tx<M extends IDBTransactionMode> = IDBPTransaction<Schema, Store[], M>
export type Reading = Tx<'readonly'>
export type Writing = Tx<'readwrite'>

export const NAME = 'linkrod'
const VERSION = 1
const BALLAST = 2 * 1024 * 1024
const EVERYTHING: Store[] = ['entries', 'books', 'meta', 'drafts']

export class Storage {
  #db: Promise<IDBPDatabase<Schema>> | null = null

  /** `full` is called when the ballast had to go. */
  constructor(
    private readonly full: () => void = () => undefined,
    private readonly name = NAME,
  ) {}

  /** A consistent look at everything. */
  read<T>(look: (tx: Reading) => Promise<T>): Promise<T> {
    return this.#revived(async () => {
      const tx = (await this.#open()).transaction(EVERYTHING, 'readonly')
      const [seen] = await Promise.all([look(tx), tx.done])
      return seen
    })
  }

  /** Run `change` in one transaction and resolve when it is durable. `change` may run more than once, so it
   *  does nothing but read and write `tx`. */
  async write<T>(change: (tx: Writing) => Promise<T>): Promise<T> {
    try {
      try {
        return await this.#revived(() => this.#durably(change))
      } catch (error) {
        if (!isFull(error)) throw error
        await this.#revived(() => this.#dropBallast())
        this.full()
        return await this.#revived(() => this.#durably(change))
      }
    } catch (error) {
      if (error instanceof Failure) throw error
      throw new Failure('not-saved', words.notSaved, { cause: error })
    }
  }

  /** Write what may be lost without a reading being lost. It never takes the ballast, and a full phone goes
   *  without it. */
  async writeIfRoom(change: (tx: Writing) => Promise<unknown>): Promise<void> {
    try {
      await this.#revived(() => this.#durably(change))
    } catch (error) {
      if (!isFull(error)) throw error
    }
  }

  /** Lay the ballast if it is not there. False: it no longer fits. */
  async layBallast(): Promise<boolean> {
    const db = await this.#open()
    if ((await db.count('ballast')) > 0) return true
    const filler = new Uint8Array(BALLAST)
    // Random, so that nothing below us compresses it away; 64 KiB is the most one call gives.
    for (let at = 0; at < BALLAST; at += 65536) crypto.getRandomValues(filler.subarray(at, at + 65536))
    try {
      await db.put('ballast', filler, 'ballast')
      return true
    } catch (error) {
      if (isFull(error)) return false
      throw error
    }
  }

  async hasBallast(): Promise<boolean> {
    return (await (await this.#open()).count('ballast')) > 0
  }

  async #dropBallast() {
    const db = await this.#open()
    const tx = db.transaction('ballast', 'readwrite', { durability: 'strict' })
    await Promise.all([tx.store.clear(), tx.done])
  }

  async #durably<T>(change: (tx: Writing) => Promise<T>): Promise<T> {
    const tx = (await this.#open()).transaction(EVERYTHING, 'readwrite', { durability: 'strict' })
    let result: T
    try {
      result = await change(tx)
    } catch (error) {
      if (tx.error === null) abort(tx)
      await tx.done.catch(() => undefined)
      // An abort reaches the pending requests first; its reason stands on the transaction.
      throw tx.error ?? error
    }
    await tx.done
    return result
  }

  async #revived<T>(act: () => Promise<T>): Promise<T> {
    try {
      return await act()
    } catch (error) {
      if (!isDead(error)) throw error
      this.#forget()
      return act()
    }
  }

  #open(): Promise<IDBPDatabase<Schema>> {
    this.#db ??= this.#openNow().catch((error: unknown) => {
      this.#db = null
      throw error
    })
    return this.#db
  }

  async #openNow(): Promise<IDBPDatabase<Schema>> {
    try {
      return await openDB<Schema>(this.name, VERSION, {
        upgrade(db) {
          const entries = db.createObjectStore('entries', { keyPath: ['owner', 'book', 'device', 'n'] })
          entries.createIndex('state', ['owner', 'state', 'written'])
          db.createObjectStore('books', { keyPath: ['owner', 'book'] })
          db.createObjectStore('meta')
          db.createObjectStore('drafts')
          db.createObjectStore('ballast')
        },
        // A newer version wants in from another tab: let go, and open again at the next use.
        blocking: () => this.#forget(),
        terminated: () => this.#forget(),
      })
    } catch (error) {
      if (named(error, 'VersionError')) throw new Failure('older', words.newerStorage, { cause: error })
      throw new Failure('no-storage', words.noStorage, { cause: error })
    }
  }

  #forget() {
    const old = this.#db
    this.#db = null
    old?.then((db) => db.close()).catch(() => undefined)
  }
}

/** All keys that begin with these parts. Arrays sort after numbers and strings, so [] is above them all. */
export const startingWith = (...parts: IDBValidKey[]) => IDBKeyRange.bound(parts, [...parts, []])

const named = (error: unknown, name: string) => (error as { name?: string } | null)?.name === name
/** No room: the quota says so, or the disk under it does. A full disk comes up under other names; after a new
 *  handle did not help either, one of them means the same. */
const isFull = (error: unknown) =>
  named(error, 'QuotaExceededError') || named(error, 'UnknownError') || named(error, 'DataError')
const isDead = (error: unknown) => named(error, 'InvalidStateError') || named(error, 'UnknownError')

function abort(tx: Writing) {
  try {
    tx.abort()
  } catch {
    // It had ended by itself.
  }
}
