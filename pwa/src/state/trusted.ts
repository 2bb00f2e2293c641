// The one Trusted Types policy of the app (the server's CSP names it `app`): script addresses of our own
// origin, nothing else. Browsers without Trusted Types take the plain string.

interface Policy {
  createScriptURL(url: string): unknown
}
interface Factory {
  createPolicy(name: string, rules: { createScriptURL(url: string): string }): Policy
}

function ownOrigin(url: string): string {
  if (new URL(url, location.href).origin !== location.origin) throw new TypeError('foreign script: ' + url)
  return url
}

const factory = (globalThis as { trustedTypes?: Factory }).trustedTypes
const policy: Policy = factory?.createPolicy('app', { createScriptURL: ownOrigin }) ?? {
  createScriptURL: ownOrigin,
}

/** An address that `new Worker` and `serviceWorker.register` accept under the policy. */
export const scriptURL = (url: string) => policy.createScriptURL(url) as string
