// The real program, started, killed and started again on the same port and data folder. Plain JavaScript, so
// that the browsers without Playwright use the same one.
import { execFileSync, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { createInterface } from 'node:readline'

const built = resolve(import.meta.dirname, '../../build/linkrod')

/** @returns {Promise<number>} */
export async function freePort() {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  await once(probe, 'close')
  if (address === null || typeof address === 'string') throw new Error('no port')
  return address.port
}

/**
 * @typedef {object} Options
 * @property {string} [data] folder of its data; a new one otherwise
 * @property {string} [binary] the program; the built one otherwise
 * @property {string[]} [flags] more flags of `serve`
 */

export class Server {
  /** @type {import('node:child_process').ChildProcess | null} */
  #child = null
  /** The app's link. */
  url = ''
  /** The set-up link of the last start; '' once there is an account. */
  setUp = ''
  /** Where its own certificate authority is to be had; '' when it has none. */
  trust = ''
  /** What the program said on stderr, for a failing test. */
  log = ''

  /**
   * @param {number} port
   * @param {Options} options
   */
  constructor(port, { data, binary = built, flags = [] } = {}) {
    this.port = port
    /** The program it runs at the next start. */
    this.binary = binary
    this.data = data ?? mkdtempSync(join(tmpdir(), 'linkrod-e2e-'))
    this.flags = flags
  }

  /** @param {Options} [options] */
  static async make(options) {
    const server = new Server(await freePort(), options)
    await server.start()
    return server
  }

  /** Resolves when the program has printed its link, so it listens. */
  async start() {
    if (this.#child) return
    const address = ['-data', this.data, '-addr', `localhost:${this.port}`]
    const child = spawn(this.binary, ['serve', ...address, ...this.flags], {
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    this.#child = child
    this.setUp = ''
    child.stderr.on('data', (chunk) => (this.log += chunk))
    await new Promise((ready, fail) => {
      createInterface({ input: child.stdout }).on('line', (line) => {
        const link = /https?:\/\/\S+/.exec(line)?.[0] ?? ''
        if (line.startsWith('Linkrod:')) this.url = link.replace(/\/$/, '')
        if (line.startsWith('Set up:')) this.setUp = link
        if (line.startsWith('Trust:')) this.trust = link
        // The program prints its links in one piece: with the first, the others are there too.
        if (this.url) ready(undefined)
      })
      child.once('error', fail)
      child.once('exit', (code) => fail(new Error(`the server ended with ${code}:\n${this.log}`)))
    })
  }

  /**
   * Ends the process for real and waits until it is gone. May be called twice.
   * @param {'SIGKILL' | 'SIGTERM'} signal
   */
  async kill(signal = 'SIGKILL') {
    const child = this.#child
    this.#child = null
    if (!child || child.exitCode !== null) return
    const gone = once(child, 'exit')
    child.kill(signal)
    await gone
  }

  /**
   * One of its commands on the same data: backup, restore, check. What it prints.
   * @param {string} command
   * @param {string[]} args
   */
  run(command, ...args) {
    return execFileSync(this.binary, [command, '-data', this.data, ...args], { encoding: 'utf8' })
  }

  async remove() {
    await this.kill()
    rmSync(this.data, { recursive: true, force: true })
  }
}
