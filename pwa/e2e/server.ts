// The real program, started, killed and started again on the same port and data folder.
import { spawn, type ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { createInterface } from 'node:readline'

const binary = resolve(import.meta.dirname, '../../build/linkrod')

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, '127.0.0.1')
  await once(probe, 'listening')
  const address = probe.address()
  probe.close()
  await once(probe, 'close')
  if (address === null || typeof address === 'string') throw new Error('no port')
  return address.port
}

export class Server {
  private child: ChildProcess | null = null
  /** The set-up link of the last start; '' once there is an account. */
  setUp = ''
  /** What the program said on stderr, for a failing test. */
  log = ''

  private constructor(
    readonly data: string,
    readonly port: number,
    private readonly flags: string[],
  ) {}

  static async make(options: { data?: string; flags?: string[] } = {}): Promise<Server> {
    const data = options.data ?? mkdtempSync(join(tmpdir(), 'linkrod-e2e-'))
    const server = new Server(data, await freePort(), options.flags ?? [])
    await server.start()
    return server
  }

  get url(): string {
    return `http://localhost:${this.port}`
  }

  /** Resolves when the program has printed its link, so it listens. */
  async start(): Promise<void> {
    if (this.child) return
    const child = spawn(
      binary,
      ['serve', '-data', this.data, '-addr', `localhost:${this.port}`, ...this.flags],
      { stdio: ['ignore', 'pipe', 'pipe'] },
    )
    this.child = child
    this.setUp = ''
    child.stderr!.on('data', (chunk: Buffer) => (this.log += chunk.toString()))
    const lines = createInterface({ input: child.stdout! })
    await new Promise<void>((ready, fail) => {
      lines.on('line', (line) => {
        const link = /https?:\/\/\S+/.exec(line)?.[0] ?? ''
        if (line.startsWith('Set up:')) this.setUp = link
        if (line.startsWith('Linkrod:')) ready()
      })
      child.once('exit', (code) => fail(new Error(`the server ended with ${code}:\n${this.log}`)))
    })
  }

  /** Ends the process for real and waits until it is gone. May be called twice. */
  async kill(signal: 'SIGKILL' | 'SIGTERM' = 'SIGKILL'): Promise<void> {
    const child = this.child
    this.child = null
    if (!child || child.exitCode !== null) return
    const gone = once(child, 'exit')
    child.kill(signal)
    await gone
  }

  async remove(): Promise<void> {
    await this.kill()
    rmSync(this.data, { recursive: true, force: true })
  }
}
