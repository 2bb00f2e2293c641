// The one Trusted Types policy of the app (the server's CSP names it `app`): script addresses of our own
// origin, and our own drawings as SVG text. Browsers without Trusted Types take the plain strings.

interface Rules<Url, Html> {
  createScriptURL(url: string): Url
  createHTML(html: string): Html
}
interface Factory {
  createPolicy(name: string, rules: Rules<string, string>): Rules<unknown, unknown>
}

/** A tag that no drawing of ours has. */
const FOREIGN =
  /<(?!\/?(svg|g|path|circle|ellipse|line|rect|polyline|polygon|text|tspan|title|desc|defs|pattern|clipPath|mask)\b)/

const rules: Rules<string, string> = {
  createScriptURL(url) {
    if (new URL(url, location.href).origin !== location.origin) throw new TypeError('foreign script: ' + url)
    return url
  },
  // Drawings are made by pure functions that escape what they are given; a slip there stops here. (Handlers in
  // attributes and javascript: addresses never run: the CSP allows no inline script.)
  createHTML(html) {
    if (!html.startsWith('<svg') || FOREIGN.test(html))
      throw new TypeError('this is no drawing: ' + html.slice(0, 80))
    return html
  },
}

const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes
const policy = factory?.createPolicy('app', rules) ?? rules

/** An address that `new Worker` and `serviceWorker.register` accept under the policy. */
export const scriptURL = (url: string) => policy.createScriptURL(url) as string

/** SVG text that `{@html}` accepts under the policy. */
export const drawing = (svg: string) => policy.createHTML(svg) as string
