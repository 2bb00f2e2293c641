// Who is signed in on this phone, and the tokens of that.
//
// The access token lives in memory only; the refresh cookie is the browser's and no script sees it. Each
// refresh carries a nonce kept until its reply came, so that a lost reply is asked for again and answered
// alike instead of signing anybody out. Nothing here ever deletes an entry: signing out, an expired sign-in
// and another person signing in only change whose books are shown and sent.

import { alone } from './alone'
import { count, deviceOf, inState, joinOwn } from './entries'
import { newId } from './entry'
import { type Http, NoAnswer, Refused } from './http'
import type { Pairing, ServerState, Session } from './protocol'
import type { Reading, Storage } from './storage'
import { Failure } from './trouble'
import { SESSION, sessionIn } from './who'
import { words } from './words'

interface SessionReply {
  access: string
  expires_ms: number
  now: number
  account: { id: string; name: string; role: string }
  shop: string
  telephone?: string
  book?: string // joined by an invitation: the book
}
interface Known {
  account: string
  name: string
}

const NEEDS = 'needsSignIn'
const NONCE = 'nonce' // of the exchange whose answer is still to come
const BEFORE = 'nonce.before' // of the last one answered: proof, should the browser die before it writes the cookie
const OWES = 'owesSignOut'
const PEOPLE = 'people'

/** A token is left alone for its last seconds, so that it does not expire on its way. */
const MARGIN = 30_000

const sessionOf = (reply: SessionReply): Session => ({
  account: reply.account.id,
  name: reply.account.name,
  role: reply.account.role,
  shop: reply.shop,
  telephone: reply.telephone ?? '',
})

export class Account {
  #access: { token: string; until: number } | null = null
  #refreshing: Promise<string> | null = null

  constructor(
    private readonly storage: Storage,
    private readonly http: Http,
    /** Called when who is signed in, or whether they must again, has changed. */
    private readonly changed: () => void,
    private readonly elapsed: () => number = () => performance.now(),
  ) {}

  current(): Promise<{ session: Session | null; needsSignIn: boolean }> {
    return this.storage.read(async (tx) => ({
      session: await withDevice(tx),
      needsSignIn: (await tx.objectStore('meta').get(NEEDS)) === true,
    }))
  }

  /** Another tab signed in or out: what this one holds in memory is no longer anybody's. */
  forget() {
    this.#access = null
  }

  async server(): Promise<ServerState> {
    try {
      const state = await this.http.call<{ set_up: boolean; shop?: string }>('GET', 'state')
      return { reached: true, setUp: state.set_up, shop: state.shop ?? '' }
    } catch (error) {
      if (error instanceof NoAnswer) return { reached: false, setUp: false, shop: '' }
      throw error
    }
  }

  async checkSetUp(answers: object): Promise<null> {
    await this.http.call('POST', 'setup/check', answers)
    return null
  }
  async setUp(answers: object): Promise<Session> {
    return this.#enter('setup', answers, '')
  }
  async signIn(answers: { name: string; passphrase: string; label: string }): Promise<Session> {
    return this.#enter('session', answers, answers.name)
  }
  async join(answers: { code: string; label: string }): Promise<Session> {
    return this.#enter('pairing/claim', answers, '')
  }

  /** A new account, by an invitation. */
  async joinNew(answers: {
    secret: string
    name: string
    role: string
    passphrase: string
    label: string
  }): Promise<{ book: string }> {
    let book = ''
    await this.#enter('invitations/claim', answers, '', (reply) => (book = reply.book ?? ''))
    return { book }
  }

  /** A call in nobody's name. */
  open<T>(path: string, body: object): Promise<T> {
    return this.http.call<T>('POST', path, body)
  }

  /** The server says whether who is signed in is the host. */
  async isHost(owner: string, host: boolean): Promise<boolean> {
    const changed = await this.storage.write(async (tx) => {
      const session = await sessionIn(tx)
      if (session?.account !== owner || (session.host ?? false) === host) return false
      await tx.objectStore('meta').put({ ...session, host }, SESSION)
      return true
    })
    if (changed) this.changed()
    return changed
  }

  async pair(): Promise<Pairing> {
    const p = await this.call<{
      code: string
      expires_ms: number
      url: string
      qr_svg: string
      only_here?: string
    }>('POST', 'pairing', {})
    return { code: p.code, expires: p.expires_ms, url: p.url, qr: p.qr_svg, onlyHere: p.only_here ?? '' }
  }

  /** A call in the name of who is signed in. A refused token is renewed once. */
  async call<T>(method: string, path: string, body?: unknown): Promise<T> {
    const token = await this.access()
    try {
      return await this.http.call<T>(method, path, body, token)
    } catch (error) {
      if (!(error instanceof Refused) || error.status !== 401) throw error
      if (this.#access?.token === token) this.#access = null
      return this.http.call<T>(method, path, body, await this.access())
    }
  }

  /** A piece of a file in the name of who is signed in. */
  async upload(method: string, path: string, head: Record<string, string>, body: Blob | null = null) {
    return this.http.upload(method, path, head, body, await this.access())
  }

  async bytes(path: string): Promise<Blob> {
    return this.http.bytes(path, await this.access())
  }

  /** A token that is good for a while. Fails with 'sign-in' when the person has to sign in again. */
  async access(): Promise<string> {
    if (this.#access && this.elapsed() < this.#access.until) return this.#access.token
    this.#refreshing ??= alone('refresh', () => this.#refresh()).finally(() => (this.#refreshing = null))
    return this.#refreshing
  }

  /** Unsent entries stay, sealed under the account that wrote them. Works without signal. */
  async signOut(): Promise<{ sealed: number }> {
    const sealed = await this.storage.write(async (tx) => {
      const meta = tx.objectStore('meta')
      const session = await sessionIn(tx)
      await meta.delete(SESSION)
      await meta.delete(NEEDS)
      await meta.delete(NONCE)
      await meta.put(true, OWES)
      return session ? await count(tx, session.account, 'waiting') : 0
    })
    const token = this.#access?.token ?? ''
    this.#access = null
    this.changed()
    await this.settleSignOut(token).catch((error: unknown) => {
      // Said again at the next contact; the cookie is useless to anybody without this phone until then.
      if (!(error instanceof NoAnswer)) throw error
    })
    return { sealed }
  }

  /** Tell the server of a sign-out it has not heard of yet. */
  async settleSignOut(token = ''): Promise<void> {
    const owes = await this.storage.read((tx) => tx.objectStore('meta').get(OWES))
    if (owes !== true) return
    try {
      await this.http.call('DELETE', 'session', undefined, token)
    } catch (error) {
      if (!(error instanceof Refused)) throw error // refused: there was no sign-in left to end
    }
    await this.storage.write((tx) => tx.objectStore('meta').delete(OWES))
  }

  /** People signed out here who left unsent entries. */
  async sealed(): Promise<{ name: string; waiting: number }[]> {
    return this.storage.read(async (tx) => {
      const here = (await sessionIn(tx))?.account
      const known = ((await tx.objectStore('meta').get(PEOPLE)) ?? []) as Known[]
      const lines = []
      for (const { account, name } of known) {
        if (account === here) continue
        const waiting = await count(tx, account, 'waiting')
        if (waiting > 0) lines.push({ name, waiting })
      }
      return lines
    })
  }

  async #enter(
    path: string,
    answers: object,
    name: string,
    hear: (reply: SessionReply) => void = () => undefined,
  ): Promise<Session> {
    await this.settleSignOut()
    const enter = async () => {
      const device = await this.#deviceFor(name)
      const reply = await this.http.call<SessionReply>('POST', path, { ...answers, device })
      hear(reply)
      return reply
    }
    try {
      return await this.#adopt(await enter())
    } catch (error) {
      // This device id is another account's there: the storage was copied. Nothing written under it here yet,
      // so it goes on under a new one; otherwise the server's words say what to do.
      if (!(error instanceof Refused) || error.status !== 409 || !(await this.#renewDevice())) throw error
      return this.#adopt(await enter())
    }
  }

  /** This phone's unclaimed device id, so that what was written without an account comes along; somebody who
   *  was here before and left nothing new goes on under theirs. */
  async #deviceFor(name: string): Promise<string> {
    return this.storage.write(async (tx) => {
      const meta = tx.objectStore('meta')
      const known = ((await meta.get(PEOPLE)) ?? []) as Known[]
      const same = known.find((k) => name !== '' && k.name.toLowerCase() === name.trim().toLowerCase())
      const theirs = same && (await meta.get('device:' + same.account))
      if (typeof theirs === 'string' && (await inState(tx, '', 'waiting')).length === 0) return theirs
      return deviceOf(tx, '')
    })
  }

  async #renewDevice(): Promise<boolean> {
    return this.storage.write(async (tx) => {
      if ((await inState(tx, '', 'waiting')).length > 0) return false
      await tx.objectStore('meta').delete('device:')
      return true
    })
  }

  async #adopt(reply: SessionReply): Promise<Session> {
    const session = sessionOf(reply)
    const { account: id, name } = session
    await this.storage.write(async (tx) => {
      const meta = tx.objectStore('meta')
      await meta.put(session, SESSION)
      await meta.delete(NEEDS)
      await meta.delete(NONCE)
      await meta.delete(BEFORE)
      const known = ((await meta.get(PEOPLE)) ?? []) as Known[]
      await meta.put([...known.filter((k) => k.account !== id), { account: id, name }], PEOPLE)
      await joinOwn(tx, id)
    })
    this.#hold(reply)
    this.changed()
    return session
  }

  async #refresh(): Promise<string> {
    const question = await this.storage.write(async (tx) => {
      const meta = tx.objectStore('meta')
      if (!(await sessionIn(tx)) || (await meta.get(NEEDS)) === true) return null
      const before = ((await meta.get(BEFORE)) ?? '') as string
      const kept = await meta.get(NONCE)
      if (typeof kept === 'string') return { nonce: kept, before }
      const nonce = newId()
      await meta.put(nonce, NONCE)
      return { nonce, before }
    })
    if (question === null) throw new Failure('sign-in', words.needsSignIn)
    try {
      const reply = await this.http.call<SessionReply>('POST', 'session/refresh', question)
      await this.storage.write(async (tx) => {
        await tx.objectStore('meta').delete(NONCE)
        await tx.objectStore('meta').put(question.nonce, BEFORE)
        // What the shop is called and its telephone may have changed since.
        if ((await sessionIn(tx))?.account === reply.account.id)
          await tx.objectStore('meta').put(sessionOf(reply), SESSION)
      })
      return this.#hold(reply)
    } catch (error) {
      if (!(error instanceof Refused) || error.status !== 401) throw error
      await this.storage.write(async (tx) => {
        await tx.objectStore('meta').delete(NONCE)
        await tx.objectStore('meta').put(true, NEEDS)
      })
      this.changed()
      throw new Failure('sign-in', words.needsSignIn)
    }
  }

  // Lifetime by the server's own two times, measured here without a clock: this phone's may be years off.
  #hold(reply: SessionReply): string {
    const life = reply.expires_ms - reply.now
    this.#access = { token: reply.access, until: this.elapsed() + Math.max(0, life - MARGIN) }
    return reply.access
  }
}

async function withDevice(tx: Reading): Promise<Session | null> {
  const session = await sessionIn(tx)
  const device = await tx.objectStore('meta').get('device:' + (session?.account ?? ''))
  return session && typeof device === 'string' ? { ...session, device } : session
}
