// @vitest-environment node
// The service worker as it is built, in a world of two maps: a server's files and the browser's caches.
import { createHash } from 'node:crypto'
import { mkdtempSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import vm from 'node:vm'
import { describe, expect, it } from 'vitest'
import { serviceWorker, writeServiceWorker } from '../scripts/service-worker.mjs'

const digest = (text: string) => createHash('sha256').update(text).digest('hex')
type Files = Record<string, string>

class World {
  readonly caches = new Map<string, Map<string, Response>>()
  readonly fetched: string[] = []
  skipped = false
  claimed = false
  constructor(public served: Files) {}

  /** Start the service worker of a version; what it answers to events. */
  start(files: Files) {
    const listeners = new Map<string, (event: unknown) => void>()
    const list = Object.entries(files).map(([path, text]) => [path, digest(text)])
    const open = (name: string) => {
      const map = this.caches.get(name) ?? new Map<string, Response>()
      this.caches.set(name, map)
      return {
        put: async (path: string, response: Response) => void map.set(path, response),
        match: async (path: string) => map.get(path)?.clone(),
      }
    }
    const scope = {
      addEventListener: (type: string, act: (event: unknown) => void) => listeners.set(type, act),
      skipWaiting: async () => void (this.skipped = true),
      clients: { claim: async () => void (this.claimed = true) },
    }
    vm.runInNewContext(serviceWorker(list as [string, string][]), {
      self: scope,
      location: { origin: 'https://hangar.example' },
      URL,
      Set,
      Promise,
      Uint8Array,
      Array,
      crypto: globalThis.crypto,
      caches: {
        open: async (name: string) => open(name),
        keys: async () => [...this.caches.keys()],
        delete: async (name: string) => this.caches.delete(name),
        match: async (path: string) =>
          [...this.caches.values()]
            .map((c) => c.get(path))
            .find((r) => r !== undefined)
            ?.clone(),
      },
      fetch: async (what: string | { url: string }) => {
        const path = typeof what === 'string' ? what : new URL(what.url).pathname
        this.fetched.push(path)
        const text = this.served[path]
        return text === undefined ? new Response('', { status: 404 }) : new Response(text)
      },
    })
    const wait = async (type: string) => {
      let work: Promise<unknown> = Promise.resolve()
      listeners.get(type)?.({ waitUntil: (p: Promise<unknown>) => (work = p) })
      await work
    }
    return {
      install: () => wait('install'),
      activate: () => wait('activate'),
      message: (data: unknown) => listeners.get('message')?.({ data }),
      /** The text answered, or undefined when it is left to the network. */
      async fetch(url: string, request: { mode?: string; method?: string } = {}) {
        let answer: Promise<Response> | undefined
        listeners.get('fetch')?.({
          request: { url, method: 'GET', mode: 'cors', ...request },
          respondWith: (p: Promise<Response>) => (answer = p),
        })
        return answer && (await (await answer).text())
      },
    }
  }
}

const one: Files = { '/index.html': 'one', '/assets/core-aa.wasm': 'core', '/assets/app-11.js': 'app one' }
const two: Files = { '/index.html': 'two', '/assets/core-aa.wasm': 'core', '/assets/app-22.js': 'app two' }

describe('install', () => {
  it('keeps every listed file', async () => {
    const world = new World(one)
    await world.start(one).install()
    expect([...(world.caches.values().next().value as Map<string, Response>).keys()].sort()).toEqual(
      Object.keys(one).sort(),
    )
  })
  it('fails whole when one file is missing', async () => {
    const { '/assets/app-11.js': _gone, ...rest } = one
    await expect(new World(rest).start(one).install()).rejects.toThrow('/assets/app-11.js: 404')
  })
  it('fails when the server changed between two files', async () => {
    await expect(new World({ ...one, '/index.html': 'two' }).start(one).install()).rejects.toThrow(
      'not the file of version',
    )
  })
  it('takes unchanged hashed files from the version before', async () => {
    const world = new World(one)
    await world.start(one).install()
    world.served = two
    world.fetched.length = 0
    await world.start(two).install()
    expect(world.fetched.sort()).toEqual(['/assets/app-22.js', '/index.html'])
  })
  it('does not take over by itself, only on the word', async () => {
    const world = new World(one)
    const sw = world.start(one)
    await sw.install()
    sw.message('anything')
    expect(world.skipped).toBe(false)
    sw.message('start')
    expect(world.skipped).toBe(true)
  })
})

describe('activate', () => {
  it('drops older versions of the app and nothing else, and takes over the pages', async () => {
    const world = new World(one)
    world.caches.set('somebody-else', new Map())
    await world.start(one).install()
    world.served = two
    const next = world.start(two)
    await next.install()
    expect(world.caches.size).toBe(3)
    await next.activate()
    expect(world.caches.size).toBe(2)
    expect(world.caches.has('somebody-else')).toBe(true)
    expect(world.claimed).toBe(true)
  })
})

describe('fetch', () => {
  const at = 'https://hangar.example'
  async function running() {
    const world = new World(one)
    const sw = world.start(one)
    await sw.install()
    world.served = {}
    return sw
  }
  it('answers every page address with the page, and listed files, without the server', async () => {
    const sw = await running()
    expect(await sw.fetch(at + '/e/b-0711/oil', { mode: 'navigate' })).toBe('one')
    expect(await sw.fetch(at + '/assets/core-aa.wasm')).toBe('core')
  })
  it('answers a listed file with that file even when it is opened as a page', async () => {
    const sw = await running()
    expect(await sw.fetch(at + '/assets/app-11.js', { mode: 'navigate' })).toBe('app one')
  })
  it('serves its own version while a newer one waits', async () => {
    const world = new World(one)
    const sw = world.start(one)
    await sw.install()
    world.served = two
    await world.start(two).install()
    expect(await sw.fetch(at + '/', { mode: 'navigate' })).toBe('one')
  })
  it.each([
    ['the API', '/api/v1/hello', {}],
    ['the page of the certificate', '/install', { mode: 'navigate' }],
    ['what is not listed', '/assets/app-99.js', {}],
    ['a write', '/index.html', { method: 'POST' }],
  ])('leaves %s to the network', async (_what, path, request) => {
    expect(await (await running()).fetch(at + path, request)).toBeUndefined()
  })
  it('leaves other origins to the network', async () => {
    expect(await (await running()).fetch('https://elsewhere.example/index.html')).toBeUndefined()
  })
})

describe('the list', () => {
  it('names every file of the build by its digest, without twins, dot-files and the workers themselves', () => {
    const dist = mkdtempSync(tmpdir() + '/linkrod-dist-') + '/'
    mkdirSync(dist + 'assets')
    for (const name of [
      'index.html',
      'index.html.br',
      'assets/a-1.js',
      'assets/a-1.js.gz',
      '.gitkeep',
      'sw.js',
    ])
      writeFileSync(dist + name, name)
    writeServiceWorker(dist)
    const text = readFileSync(dist + 'sw.js', 'utf8')
    const list = JSON.parse(/FILES=(\[.*\]);\n/.exec(text)?.[1] ?? 'null') as unknown
    expect(list).toEqual([
      ['/assets/a-1.js', digest('assets/a-1.js')],
      ['/index.html', digest('index.html')],
    ])
  })
  it('changes the version when any file changes', () => {
    const version = (list: [string, string][]) => /VERSION="(\w+)"/.exec(serviceWorker(list))?.[1]
    expect(version([['/a', '1']])).toMatch(/^[0-9a-f]{12}$/)
    expect(version([['/a', '1']])).not.toBe(version([['/a', '2']]))
  })
})
