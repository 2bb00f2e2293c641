// A newer version: downloaded whole by the service worker, started only on the person's word and never
// while a form is half written.

import { scriptURL } from './trusted'

const HOUR = 3_600_000
/** After a failed first installation. */
const AGAIN = 15_000

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
    const registration = await this.#install(sw)
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState !== 'visible' || Date.now() - this.#looked < HOUR) return
      this.#looked = Date.now()
      // No signal is no fault here: it looks again in an hour.
      registration.update().catch(() => undefined)
    })
    await sw.ready
    this.complete = true
  }

  // A line that breaks while the files come leaves no service worker at all the first time; what had come stays in
  // the cache, so that the next try fetches only the rest.
  async #install(sw: ServiceWorkerContainer): Promise<ServiceWorkerRegistration> {
    for (;;) {
      try {
        const registration = await sw.register(scriptURL('/sw.js'), { updateViaCache: 'none' })
        this.#looked = Date.now()
        this.#offer(registration.waiting)
        registration.addEventListener('updatefound', () => this.#watch(registration.installing))
        if (registration.active || (await this.#watch(registration.installing))) return registration
      } catch (error) {
        if (error instanceof DOMException && error.name === 'SecurityError') throw error // not over https
      }
      await new Promise((again) => setTimeout(again, AGAIN))
    }
  }

  /** Follow a version that is being installed. False: it could not be. */
  #watch(next: ServiceWorker | null): Promise<boolean> {
    return new Promise((done) => {
      const look = () => {
        if (next?.state === 'installed' && navigator.serviceWorker.controller) this.#offer(next)
        if (next?.state === 'redundant') done(false)
        else if (!next || next.state !== 'installing') done(true)
      }
      next?.addEventListener('statechange', look)
      look()
    })
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
