// The address. Path addresses through the history API; a secret travels only in the fragment and is
// taken out of the address bar as soon as it was read.

export class Route {
  path = $state(location.pathname)
  /** Counts every way taken, so that a link to the page that is open already is heard too. */
  taken = $state(0)
  /** What stood after `#` when the page came up (set-up token, pairing code). */
  secret = $state(location.hash.slice(1))

  constructor() {
    if (this.secret) history.replaceState(history.state, '', location.pathname + location.search)
    addEventListener('popstate', () => {
      this.path = location.pathname
    })
  }

  /** `search` fills a screen once, as a link does; it is no part of where one is. */
  go(path: string, search = '') {
    if (path !== this.path || search) history.pushState(null, '', path + (search || this.#keep()))
    this.#show(path)
  }

  /** Go without leaving the present address behind in the history. */
  replace(path: string) {
    history.replaceState(null, '', path + this.#keep())
    this.#show(path)
  }

  #show(path: string) {
    this.path = path
    this.taken++
    scrollTo(0, 0)
  }

  // `?mock` stays in the address while developing.
  #keep() {
    return import.meta.env.DEV ? location.search : ''
  }

  /** Match `/e/:book/oil` against the path: the named parts, or null. Reactive when read in a component. */
  at(pattern: string): Record<string, string> | null {
    const want = pattern.split('/')
    const have = this.path.replace(/(.)\/$/, '$1').split('/')
    if (want.length !== have.length) return null
    const parts: Record<string, string> = {}
    for (const [i, w] of want.entries()) {
      const h = have[i] ?? ''
      if (w.startsWith(':')) parts[w.slice(1)] = decodeURIComponent(h)
      else if (w !== h) return null
    }
    return parts
  }
}
