// What stands between a phone and the server: a proxy of our own, so that lines break for the whole browser, its
// worker and service worker included. A browser's emulated offline does not reach all of them.
import { once } from 'node:events'
import { createServer, request } from 'node:http'

/**
 * What happens to one request. Nothing: it goes through.
 * @typedef {object} Trouble
 * @property {'lose reply' | 'portal' | 'cut request' | 'flip a byte'} does
 * @property {number | undefined} [share] of the body that gets through, with 'cut request'
 */

/** The log-in page of a guest network, as it comes: status 200, and no word of ours. */
const PORTAL = '<!doctype html><title>Welcome</title><h1>Guest network</h1><p>Agree to go on.</p>'

export class Between {
  /** Asked for every request; the answer is done to it. @type {(method: string, path: string) => Trouble | null} */
  trouble = () => null
  /** Every request that came, as "POST /api/v1/…", in order; with " @offset" for a piece of a photograph.
   *  @type {string[]} */
  asked = []
  /** What of a body went through, with 'cut request': bytes of each. @type {number[]} */
  cut = []
  #server = createServer((ask, answer) => void this.#pass(ask, answer))
  url = ''

  /** @param {import('./server.mjs').Server} server */
  constructor(server) {
    this.server = server
  }

  /** @param {import('./server.mjs').Server} server */
  static async before(server) {
    const between = new Between(server)
    between.#server.listen(0, '127.0.0.1')
    await once(between.#server, 'listening')
    const address = between.#server.address()
    if (address === null || typeof address === 'string') throw new Error('no port')
    between.url = `http://localhost:${address.port}`
    return between
  }

  /** A link of the server's, as it is through here. @param {string} link */
  through(link) {
    return link.replace(this.server.url, this.url)
  }

  async close() {
    this.#server.closeAllConnections()
    this.#server.close()
    await once(this.#server, 'close')
  }

  /**
   * @param {import('node:http').IncomingMessage} ask
   * @param {import('node:http').ServerResponse} answer
   */
  async #pass(ask, answer) {
    const { method = 'GET', url = '/' } = ask
    const offset = ask.headers['upload-offset']
    this.asked.push(`${method} ${url}${offset === undefined ? '' : ` @${offset}`}`)
    const trouble = this.trouble(method, url)
    if (trouble?.does === 'portal') {
      answer.writeHead(200, { 'Content-Type': 'text/html' })
      answer.end(PORTAL)
      return
    }
    const target = new URL(url, this.server.url)
    const on = request(target, {
      method,
      headers: { ...ask.headers, host: target.host, origin: this.server.url },
    })
    if (!ask.headers.origin) on.removeHeader('origin')
    on.on('error', () => answer.destroy())
    on.on('response', (reply) => {
      if (trouble?.does === 'lose reply') {
        // The server has answered, so what was asked is done; nobody hears of it.
        reply.resume()
        reply.on('end', () => answer.destroy())
        return
      }
      answer.writeHead(reply.statusCode ?? 502, reply.headers)
      reply.on('error', () => answer.destroy())
      reply.pipe(answer)
      answer.on('close', () => reply.destroy())
    })
    ask.on('error', () => on.destroy())
    if (trouble?.does === 'cut request') {
      const body = await all(ask)
      const part = body.subarray(0, Math.floor(body.length * (trouble.share ?? 0.6)))
      this.cut.push(part.length)
      // Cut only when the server has what got through: the line breaks behind it, not before.
      on.write(part, () => setImmediate(() => on.destroy()))
      answer.destroy()
    } else if (trouble?.does === 'flip a byte') {
      const body = await all(ask)
      body[body.length >> 1] = (body[body.length >> 1] ?? 0) ^ 1
      on.end(body)
    } else ask.pipe(on)
  }
}

/** @param {import('node:http').IncomingMessage} ask */
async function all(ask) {
  const parts = []
  for await (const part of ask) parts.push(part)
  return Buffer.concat(parts)
}
