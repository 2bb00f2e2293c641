// The way back from a broken service worker (`SW=off make -B front`): served as /sw.js it takes itself and its caches away and lets the
// pages load from the network again. Readings are not touched.

const sw = self as unknown as ServiceWorkerGlobalScope

sw.addEventListener('install', () => void sw.skipWaiting())
sw.addEventListener('activate', (event) => event.waitUntil(leave()))

async function leave() {
  for (const name of await caches.keys()) if (name.startsWith('linkrod-app-')) await caches.delete(name)
  await sw.registration.unregister()
  for (const page of await sw.clients.matchAll({ type: 'window' })) await page.navigate(page.url)
}
