// Talking to the server. Three things can come of a call: its answer, a refusal with a code, or no answer.
//
// Every reply of ours is JSON with `proto`. Anything else (a hotel's log-in page with status 200, a proxy's
// error, a torn body) is no answer, whatever its status: the phone keeps what it has and tries again.

import { Failure } from './trouble'
import { words } from './words'

export class NoAnswer extends Failure {
  constructor(cause?: unknown) {
    super('no-answer', words.noAnswer, { cause })
  }
}

export class Refused extends Failure {
  constructor(
    readonly status: number,
    code: string,
    text: string,
    /** Milliseconds the server asks to wait; 0 = it does not say. */
    readonly wait: number,
    /** The form field it is about; '' = none. */
    override readonly field = '',
    /** The whole answer. */
    readonly reply: object = {},
  ) {
    super(code, text)
  }
}

const PATIENCE = 20_000

export type Fetch = (url: string, init: RequestInit) => Promise<Response>

export class Http {
  constructor(
    private readonly fetch: Fetch = (url, init) => globalThis.fetch(url, init),
    /** The server's clock, as each reply says it, ms. */
    private readonly told: (now: number) => void = () => undefined,
  ) {}

  async call<T>(method: string, path: string, body?: unknown, access = ''): Promise<T> {
    const headers: Record<string, string> = { Accept: 'application/json' }
    if (body !== undefined) headers['Content-Type'] = 'application/json'
    if (access) headers['Authorization'] = 'Bearer ' + access
    const init: RequestInit = {
      method,
      headers,
      credentials: 'same-origin',
      cache: 'no-store',
      redirect: 'error',
      signal: AbortSignal.timeout(PATIENCE),
    }
    if (body !== undefined) init.body = JSON.stringify(body)
    let response: Response
    let reply: Reply
    try {
      response = await this.fetch('/api/v1/' + path, init)
      if (response.status === 204) return undefined as T
      reply = (await response.json()) as Reply
    } catch (error) {
      throw new NoAnswer(error)
    }
    if (typeof reply !== 'object' || reply === null || typeof reply.proto !== 'number') throw new NoAnswer()
    if (typeof reply.now === 'number') this.told(reply.now)
    if (response.ok) return reply as T
    const seconds = Number(response.headers.get('Retry-After') ?? 0)
    throw new Refused(
      response.status,
      reply.error?.code ?? 'refused',
      reply.error?.words ?? words.noAnswer,
      (seconds || 0) * 1000,
      reply.error?.field,
      reply,
    )
  }

  /** A piece of a file, by the rules of resumable uploads: how far the server has it now. The header is our sign
   *  that it was our server that answered. */
  async upload(
    method: string,
    path: string,
    head: Record<string, string>,
    body: Blob | null,
    access: string,
  ) {
    const headers: Record<string, string> = { ...head, Authorization: 'Bearer ' + access }
    if (body) headers['Content-Type'] = 'application/offset+octet-stream'
    let response: Response
    try {
      const signal = AbortSignal.timeout(PATIENCE)
      response = await this.fetch('/api/v1/' + path, {
        method,
        headers,
        body,
        cache: 'no-store',
        redirect: 'error',
        signal,
      })
    } catch (error) {
      throw new NoAnswer(error)
    }
    const ours = response.headers.get('Tus-Resumable') === '1.0.0' || response.status === 401
    if (!ours) throw new NoAnswer()
    const at = response.headers.get('Upload-Offset')
    if (response.ok && at !== null) return Number(at)
    const reply = (await response.json().catch(() => null)) as Reply
    throw new Refused(
      response.status,
      reply?.error?.code ?? 'refused',
      reply?.error?.words ?? words.noAnswer,
      0,
    )
  }

  /** A file, whole. */
  async bytes(path: string, access: string): Promise<Blob> {
    let response: Response
    try {
      response = await this.fetch('/api/v1/' + path, {
        headers: { Authorization: 'Bearer ' + access },
        cache: 'no-store',
        redirect: 'error',
        signal: AbortSignal.timeout(PATIENCE * 3),
      })
      if (response.ok) return await response.blob()
    } catch (error) {
      throw new NoAnswer(error)
    }
    throw new Refused(response.status, 'refused', words.noAnswer, 0)
  }

  /** A reply that stays open, or no answer. The caller ends it through `signal`. */
  async stream(path: string, access: string, signal: AbortSignal): Promise<ReadableStream<Uint8Array>> {
    let response: Response
    try {
      response = await this.fetch('/api/v1/' + path, {
        headers: { Accept: 'text/event-stream', Authorization: 'Bearer ' + access },
        cache: 'no-store',
        redirect: 'error',
        signal,
      })
    } catch (error) {
      throw new NoAnswer(error)
    }
    const ours = response.headers.get('Content-Type')?.startsWith('text/event-stream')
    if (!response.ok || !ours || !response.body) throw new NoAnswer()
    return response.body
  }
}

type Reply = {
  proto?: unknown
  now?: unknown
  error?: { code: string; words: string; field?: string }
} | null
