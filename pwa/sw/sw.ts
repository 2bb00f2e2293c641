// The service worker. It keeps one thing: the whole app of one version, so that Linkrod opens without signal.
// Readings are none of its business; they lie in IndexedDB, which it never touches.
//
//   install   every file of this version into a cache of its own; one that fails fails the whole, and the
//             version before goes on. A file with a hash in its name is taken from an older cache if it is
//             there, so an update does not fetch the unchanged core again.
//   waiting   until the person says so ('start'): a running page never changes under a half-written form.
//   activate  drop the older versions, take over the open pages.
//   fetch     files of this version from this version's cache; every page address is index.html; the rest
//             (the API, other origins) is left to the network.

/** Written in front of this file at build: [path, SHA-256 in hex] of every file. */
declare const FILES: [path: string, digest: string][]
/** A hash over that list and this file. */
declare const VERSION: string

const sw = self as unknown as ServiceWorkerGlobalScope
const PREFIX = 'linkrod-app-'
const CACHE = PREFIX + VERSION
const SHELL = '/index.html'
const listed = new Set(FILES.map(([path]) => path))

sw.addEventListener('install', (event) => event.waitUntil(install()))
sw.addEventListener('activate', (event) => event.waitUntil(activate()))
sw.addEventListener('message', (event) => {
  if (event.data === 'start') void sw.skipWaiting()
})
sw.addEventListener('fetch', (event) => {
  const { request } = event
  if (request.method !== 'GET') return
  const url = new URL(request.url)
  if (url.origin !== location.origin) return
  if (url.pathname.startsWith('/api/') || url.pathname.startsWith('/install')) return
  // A file can be opened as a page of its own: the notices are.
  const path = request.mode === 'navigate' && !listed.has(url.pathname) ? SHELL : url.pathname
  if (!listed.has(path)) return
  event.respondWith(answer(path, request))
})

async function install() {
  const cache = await caches.open(CACHE)
  await Promise.all(FILES.map(async ([path, digest]) => cache.put(path, await bring(path, digest))))
}

async function bring(path: string, digest: string): Promise<Response> {
  const hashed = path.startsWith('/assets/')
  const kept = hashed && (await caches.match(path))
  if (kept) return kept
  // The page is fetching the same hashed files just now: let the browser hand over what it has.
  const response = await fetch(path, { cache: hashed ? 'default' : 'no-cache' })
  if (!response.ok) throw new Error(`${path}: ${response.status}`)
  // A server that was updated between two files would mix two versions in one cache.
  const bytes = await response.clone().arrayBuffer()
  if ((await sha256(bytes)) !== digest) throw new Error(`${path} is not the file of version ${VERSION}`)
  return response
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const sum = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  return Array.from(sum, (b) => b.toString(16).padStart(2, '0')).join('')
}

async function activate() {
  const names = await caches.keys()
  await Promise.all(names.filter((n) => n.startsWith(PREFIX) && n !== CACHE).map((n) => caches.delete(n)))
  await sw.clients.claim()
}

async function answer(path: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE)
  // Not there although it is listed: the browser took it away. The network may still have it.
  return (await cache.match(path)) ?? fetch(request)
}
