// A newer version: downloaded whole by the service worker, started only on the person's word and never
// while a form is half written.

import { scriptURL } from './trusted'

const HOUR = 3_600_000

export class Update {
  /** A newer Linkrod lies ready on this phone. */
  ready = $state(false)
  /** This version is complete on the phone: it opens without signal. */
  complete = $state(false)
  #waiting: ServiceWorker | null = null
  #looked = 0
  #reloads = false

  /** `half` says whether a form in this page is half written. */
  constructor(private readonly half: () => boolean) {}

  async register() {
    const on = import.meta.env.PROD && import.meta.env['VITE_SW'] !== 'off'
    if (!on || !('serviceWorker' in navigator)) return
    const sw = navigator.serviceWorker
    // The first controller of a page is no update; every later one is.
    let had = !!sw.controller
    sw.addEventListener('controllerchange', () => {
      if (had) this.#reload()
      had = true
    })
    const registration = await sw.register(scriptURL('/sw.js'), { updateViaCache: 'none' })
    this.#looked = Date.now()
    this.#offer(registration.waiting)
    registration.addEventListener('updatefound', () => {
      const next = registration.installing
      next?.addEventListener('statechange', () => {
        if (next.state === 'installed' && sw.controller) this.#offer(next)
      })
    })
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible' || Date.now() - this.#looked < HOUR) return
      this.#looked = Date.now()
      // No signal is no fault here: it looks again in an hour.
      registration.update().catch(() => undefined)
    })
    await sw.ready
    this.complete = true
  }

  /** Nothing is half written any more: what waited for that happens. */
  settled() {
    if (this.#reloads) this.#reload()
  }

  // Another tab may have started the new version while a form is open here: this page goes on until it is done.
  #reload() {
    this.#reloads = true
    if (!this.half()) location.reload()
  }

  #offer(worker: ServiceWorker | null) {
    if (!worker) return
    this.#waiting = worker
    this.ready = true
  }

  /** The person said yes. Every open tab reloads when the new version takes over. */
  start() {
    this.#waiting?.postMessage('start')
  }
}
