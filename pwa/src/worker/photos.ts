// Photographs: made small, without the place they were taken, kept here and sent in pieces.
//
//   F1  What is kept and sent is drawn anew from the picture's pixels: nothing of the file it came in goes along,
//       no place, no time, no camera.
//   F2  A photograph is named by the SHA-256 of its bytes; a line of the book names it. The line never waits for
//       it: it is sent first, and says that the picture is still to come.
//   F3  A cut line costs one piece: the server is asked how far it has come, and it goes on from there. A picture
//       that arrives damaged is taken back by the server and begun anew, three times; then it lies in the tray.
//   F4  They lie in a database of their own: readings never share its fate. What has not been sent is never thrown
//       away; what has been sent and what was fetched may go.

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import type { Account } from './account'
import { Refused } from './http'
import type { Owner } from './protocol'
import { Failure } from './trouble'
import { words } from './words'

export interface Photo {
  owner: Owner
  book: string
  sum: string
  bytes: Blob
  state: 'waiting' | 'sent' | 'refused'
  /** How often it arrived damaged. */
  tries: number
  written: number
  words: string
}
interface Schema extends DBSchema {
  photos: { key: [Owner, string, string]; value: Photo }
}

const NAME = 'linkrod-photos'
/** The longer edge of what is kept, pixels: fine enough to read a wear step, small enough for a hangar's line. */
const EDGE = 2048
const TYPE = 'image/jpeg'
const TRIES = 3

interface Limits {
  photo_bytes?: number
  photo_chunk?: number
}

export class Photos {
  #db: Promise<IDBPDatabase<Schema>> | null = null

  constructor(
    private readonly account: Account,
    private readonly changed: () => void,
    private readonly now: () => Date,
    private readonly draw: (file: Blob) => Promise<Blob> = drawnAnew,
  ) {}

  /** Keep a picture for a line that is still to be written; its name. */
  async keep(owner: Owner, book: string, file: Blob): Promise<{ sum: string; bytes: number }> {
    const bytes = await this.draw(file)
    const sum = await sha256(await bytes.arrayBuffer())
    const db = await this.#open()
    try {
      const known = await db.get('photos', [owner, book, sum])
      await db.put(
        'photos',
        known ?? {
          owner,
          book,
          sum,
          bytes,
          state: 'waiting',
          tries: 0,
          written: this.now().getTime(),
          words: '',
        },
      )
    } catch (error) {
      throw new Failure('photo-full', words.noRoomForPhoto, { cause: error })
    }
    return { sum, bytes: bytes.size }
  }

  /** A picture a line names: from here, or fetched and kept here. null: not to be had now. */
  async show(owner: Owner, book: string, sum: string): Promise<{ bytes: Blob | null; pending: boolean }> {
    const db = await this.#open()
    const here = await db.get('photos', [owner, book, sum])
    if (here) return { bytes: here.bytes, pending: here.state === 'waiting' }
    try {
      const bytes = await this.account.bytes(`books/${book}/photos/${sum}`)
      // What came is what was named, or it is not shown.
      if ((await sha256(await bytes.arrayBuffer())) !== sum) return { bytes: null, pending: true }
      const written = this.now().getTime()
      await db
        .put('photos', { owner, book, sum, bytes, state: 'sent', tries: 0, written, words: '' })
        .catch(() => undefined)
      return { bytes, pending: false }
    } catch (error) {
      if (error instanceof Failure) return { bytes: null, pending: true }
      throw error
    }
  }

  /** What has not been sent, for the tray. */
  async waiting(owner: Owner): Promise<Photo[]> {
    const db = await this.#open()
    const all = await db.getAll('photos', IDBKeyRange.bound([owner], [owner, []]))
    return all.filter((p) => p.state !== 'sent')
  }

  /** Everything written without an account becomes the account's. */
  async join(account: string) {
    const db = await this.#open()
    const tx = db.transaction('photos', 'readwrite')
    for (
      let at = await tx.store.openCursor(IDBKeyRange.bound([''], ['', []]));
      at;
      at = await at.continue()
    ) {
      const photo = at.value
      await at.delete()
      await tx.store.put({ ...photo, owner: account })
    }
    await tx.done
  }

  /** Send what waits. Throws NoAnswer when the line breaks; what arrived so far is the server's. */
  async send(owner: Owner, limits: Limits) {
    await this.join(owner)
    for (const photo of await this.waiting(owner))
      if (photo.state === 'waiting') await this.#sendOne(photo, limits.photo_chunk ?? 1 << 18)
  }

  async #sendOne(photo: Photo, piece: number) {
    const path = `books/${photo.book}/photos/${photo.sum}`
    try {
      let at = await this.#begun(path, photo.bytes.size)
      while (at < photo.bytes.size) {
        const part = photo.bytes.slice(at, at + piece)
        try {
          at = await this.account.upload('PATCH', path, { 'Upload-Offset': String(at) }, part)
        } catch (error) {
          if (!(error instanceof Refused) || error.status !== 409) throw error
          // Another tab, or a reply that was lost: it stands elsewhere.
          at = await this.#begun(path, photo.bytes.size)
        }
      }
      await this.#put({ ...photo, state: 'sent', words: '' })
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      if (error.status === 422) {
        const tries = photo.tries + 1
        const next = { ...photo, tries, words: error.words }
        await this.#put(tries < TRIES ? next : { ...next, state: 'refused' })
        if (tries < TRIES) await this.#sendOne(next, piece)
        return
      }
      // The line that names it is still to arrive, or this account may not write there: later.
      if (error.status >= 500 || error.status === 429 || error.status === 404 || error.status === 403) return
      await this.#put({ ...photo, state: 'refused', words: error.words })
    }
  }

  /** How far the server has it; announced when it has nothing of it. */
  async #begun(path: string, size: number): Promise<number> {
    try {
      return await this.account.upload('HEAD', path, {})
    } catch (error) {
      if (!(error instanceof Refused) || error.status !== 404) throw error
      return this.account.upload('POST', path, { 'Upload-Length': String(size) })
    }
  }

  async #put(photo: Photo) {
    const db = await this.#open()
    await db.put('photos', photo)
    this.changed()
  }

  #open(): Promise<IDBPDatabase<Schema>> {
    const forget = () => (this.#db = null)
    this.#db ??= openDB<Schema>(NAME, 1, {
      upgrade: (db) => void db.createObjectStore('photos', { keyPath: ['owner', 'book', 'sum'] }),
      terminated: forget,
    }).catch((error: unknown) => {
      forget()
      throw new Failure('no-storage', words.noStorage, { cause: error })
    })
    return this.#db
  }
}

/** The picture's pixels, small enough, in a file of our own (F1). */
async function drawnAnew(file: Blob): Promise<Blob> {
  let picture: ImageBitmap
  try {
    picture = await createImageBitmap(file)
  } catch (error) {
    throw new Failure('no-picture', words.noPicture, { cause: error })
  }
  const scale = Math.min(1, EDGE / Math.max(picture.width, picture.height))
  const canvas = new OffscreenCanvas(Math.round(picture.width * scale), Math.round(picture.height * scale))
  canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
  picture.close()
  return canvas.convertToBlob({ type: TYPE, quality: 0.85 })
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  return Array.from(sum, (b) => b.toString(16).padStart(2, '0')).join('')
}

/** The photographs a line names. */
export function namedIn(text: string): string[] {
  const body = JSON.parse(text) as { photo?: unknown }
  return Array.isArray(body.photo)
    ? body.photo.filter((p): p is string => typeof p === 'string' && /^[0-9a-f]{64}$/.test(p))
    : []
}
