// @vitest-environment node
import 'fake-indexeddb/auto'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { Storage } from './storage'
import { Failure } from './trouble'
import { words } from './words'

let name = ''
let n = 0
beforeEach(() => {
  name = `storage-${++n}`
})
afterEach(() => {
  vi.restoreAllMocks()
})

const put = (storage: Storage, value: unknown, key = 'k') =>
  storage.write((tx) => tx.objectStore('meta').put(value, key))
const get = (storage: Storage, key = 'k') => storage.read((tx) => tx.objectStore('meta').get(key))

/** Every handle opened from now on. */
function handles(): IDBDatabase[] {
  const seen: IDBDatabase[] = []
  const real = IDBDatabase.prototype.transaction
  vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
    if (!seen.includes(this)) seen.push(this)
    return real.apply(this, args)
  })
  return seen
}

/** From now on the browser has no room, until `room` says so. */
function noRoom(room: () => boolean) {
  const real = IDBObjectStore.prototype.put
  vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (this: IDBObjectStore, ...args) {
    if (!room()) throw new DOMException('full', 'QuotaExceededError')
    return real.apply(this, args)
  })
}

describe('a write', () => {
  it('asks for strict durability and resolves only when the transaction completed', async () => {
    const storage = new Storage(undefined, name)
    await get(storage)
    const order: string[] = []
    const asked: unknown[] = []
    const real = IDBDatabase.prototype.transaction
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(function (this: IDBDatabase, ...args) {
      asked.push([args[1], args[2]])
      const tx = real.apply(this, args)
      tx.addEventListener('complete', () => order.push('complete'))
      return tx
    })
    await put(storage, 1)
    order.push('resolved')
    expect(asked).toEqual([['readwrite', { durability: 'strict' }]])
    expect(order).toEqual(['complete', 'resolved'])
  })

  it('is not saved when its transaction aborts after every request went well', async () => {
    const storage = new Storage(undefined, name)
    const aborted = storage.write(async (tx) => {
      await tx.objectStore('meta').put(1, 'k')
      tx.abort()
    })
    await expect(aborted).rejects.toMatchObject({ code: 'not-saved', words: words.notSaved })
    expect(await get(storage)).toBeUndefined()
  })

  it('writes nothing when the change fails half-way, and says its own words', async () => {
    const storage = new Storage(undefined, name)
    const failed = storage.write(async (tx) => {
      await tx.objectStore('meta').put(1, 'k')
      throw new Failure('mine', 'My words.')
    })
    await expect(failed).rejects.toMatchObject({ code: 'mine', words: 'My words.' })
    expect(await get(storage)).toBeUndefined()
  })
})

describe('a dead handle', () => {
  it('is opened again once and the write goes through', async () => {
    const seen = handles()
    const storage = new Storage(undefined, name)
    await put(storage, 1)
    seen[0]?.close() // as a phone does behind a sleeping app
    await put(storage, 2)
    expect(await get(storage)).toBe(2)
    expect(seen).toHaveLength(2)
  })

  it('that cannot be replaced is told in words, never swallowed', async () => {
    const storage = new Storage(undefined, name)
    await put(storage, 1)
    vi.spyOn(IDBDatabase.prototype, 'transaction').mockImplementation(() => {
      throw new DOMException('Connection to Indexed Database server lost', 'UnknownError')
    })
    await expect(put(storage, 2)).rejects.toMatchObject({ code: 'not-saved', words: words.notSaved })
    vi.restoreAllMocks()
    expect(await get(storage)).toBe(1)
  })
})

describe('a full phone', () => {
  it('gives up the ballast, writes the reading and tells the person', async () => {
    const full = vi.fn()
    const storage = new Storage(full, name)
    expect(await storage.layBallast()).toBe(true)
    let ballast = true
    const clear = IDBObjectStore.prototype.clear
    vi.spyOn(IDBObjectStore.prototype, 'clear').mockImplementation(function (this: IDBObjectStore) {
      ballast = false
      return clear.call(this)
    })
    noRoom(() => !ballast)
    await put(storage, 'reading')
    expect(await get(storage)).toBe('reading')
    expect(full).toHaveBeenCalledOnce()
    expect(await storage.hasBallast()).toBe(false)
  })

  it('says not saved when even that was not enough, and keeps what was there', async () => {
    const storage = new Storage(undefined, name)
    await put(storage, 'before')
    noRoom(() => false)
    await expect(put(storage, 'after')).rejects.toMatchObject({ code: 'not-saved', words: words.notSaved })
    vi.restoreAllMocks()
    expect(await get(storage)).toBe('before')
  })

  it('goes without what may be lost, and keeps the ballast for a reading', async () => {
    const full = vi.fn()
    const storage = new Storage(full, name)
    expect(await storage.layBallast()).toBe(true)
    noRoom(() => false)
    await storage.writeIfRoom((tx) => tx.objectStore('meta').put('opened just now', 'key'))
    expect(await get(storage)).toBeUndefined()
    expect(full).not.toHaveBeenCalled()
    expect(await storage.hasBallast()).toBe(true)
  })

  it('starts without ballast when there is no room for it', async () => {
    const storage = new Storage(undefined, name)
    noRoom(() => false)
    expect(await storage.layBallast()).toBe(false)
  })
})

describe('opening', () => {
  it('lets a newer version in and says so afterwards', async () => {
    const storage = new Storage(undefined, name)
    await put(storage, 1)
    await new Promise<void>((done, fail) => {
      const newer = indexedDB.open(name, 99)
      newer.onsuccess = () => {
        newer.result.close()
        done()
      }
      newer.onerror = () => fail(newer.error ?? new Error('not opened'))
    })
    await expect(get(storage)).rejects.toMatchObject({ code: 'older', words: words.newerStorage })
  })

  it('says when the browser keeps nothing', async () => {
    const storage = new Storage(undefined, name)
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('denied', 'SecurityError')
    })
    await expect(put(storage, 1)).rejects.toMatchObject({ code: 'no-storage', words: words.noStorage })
  })
})
