// WebKitGTK's own test browser, over plain WebDriver: its session keeps nothing after it ends, so this is the
// server killed, the page loaded again, painted, and computing.
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { freePort, Server } from './server.mjs'
import { find, tell, until } from './story.mjs'

const server = await Server.make()
const port = await freePort()
const driver = spawn('WebKitWebDriver', [`--port=${port}`], { stdio: 'ignore' })

async function ask(method, path, body) {
  const answer = await fetch(`http://127.0.0.1:${port}${path}`, {
    method,
    ...(body && { body: JSON.stringify(body) }),
  })
  const { value } = await answer.json()
  if (value?.error) throw new Error(`${path}: ${value.message}`)
  return value
}
let session = ''
const go = (url) => ask('POST', `/session/${session}/url`, { url })
/** The value of an expression in the page, promises awaited. */
const page = (script, ...args) =>
  ask('POST', `/session/${session}/execute/async`, {
    script: `const done = arguments[arguments.length - 1]; const args = [...arguments];
      Promise.resolve((() => { ${script} })()).then(done, (error) => done({ failed: String(error) }))`,
    args,
  }).then((value) => {
    if (value?.failed) throw new Error(value.failed)
    return value
  })

const says = (words) =>
  until(`the page says “${words}”`, () =>
    page('return document.body.innerText.replace(/\\s+/g, " ").includes(args[0])', words),
  )
/** Something to touch whose words begin so. Stepper keys listen to the pointer, all others to the click. */
const touch = (words) =>
  until(`“${words}” to touch`, () =>
    page(
      `const el = (${find})(args[0])
       el?.click()
       return el !== undefined`,
      words,
    ),
  )
/** A figure on the number pad; its session takes no keys, so the field hears what a keyboard makes it hear. */
const pad = (text) =>
  until('a number pad', () =>
    page(
      `const input = document.querySelector('dialog[open] .pad input, .pad input')
       if (!input) return false
       input.value = args[0]
       input.dispatchEvent(new InputEvent('input', { bubbles: true }))
       return true`,
      text,
    ),
  )
const at = (test) =>
  until(`an address like ${test}`, () => page('return new RegExp(args[0]).test(location.pathname)', test))

await tell([
  [
    'loads, starts with an engine of its own',
    async () => {
      await until('the driver listens', () => ask('GET', '/status').catch(() => false))
      const made = await ask('POST', '/session', {
        capabilities: {
          alwaysMatch: {
            'webkitgtk:browserOptions': {
              binary: '/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser',
              args: ['--automation'],
            },
          },
        },
      })
      session = made.sessionId
      await ask('POST', `/session/${session}/timeouts`, { script: 30_000, pageLoad: 60_000 })
      await go(server.url + '/start')
      await touch('7 cylinders')
      await touch('Next')
      await touch('From the cockpit')
      await touch('Next')
      await touch('US quarts')
      await touch('Next')
      await pad('541.0')
      await touch('Open the book')
      await at('^/e/')
    },
  ],
  [
    'the service worker answers for the page',
    () =>
      until('a controller', () =>
        page('return navigator.serviceWorker.ready.then(() => navigator.serviceWorker.controller !== null)'),
      ),
  ],
  [
    'the server killed: the page loads again and is painted',
    async () => {
      await server.kill('SIGKILL')
      const reached = await page('return fetch("/healthz").then(() => true, () => false)')
      if (reached) throw new Error('the server still answers')
      await ask('POST', `/session/${session}/refresh`, {})
      await until('the engine’s ring', () => page('return document.querySelector("svg.ring") !== null'))
      const painted = await page('return performance.getEntriesByName("first-contentful-paint").length')
      if (!painted) throw new Error('nothing was painted')
      // What the screen shows is not one colour.
      const shot = await ask('GET', `/session/${session}/screenshot`)
      if (Buffer.from(shot, 'base64').length < 5_000) throw new Error('the screen is empty')
    },
  ],
  [
    'logs oil, and the core computes',
    async () => {
      // By a link, as a person goes. Loading another page while a worker is at work can leave this engine's
      // IndexedDB without an answer for every page until the browser is closed (WebKitGTK 2.50).
      await until('a link to the oil page', () =>
        page('const a = document.querySelector("main a[href$=\'/oil\']"); a?.click(); return a !== null'),
      )
      await touch('–')
      await pad('15')
      await touch('Done')
      await touch('1 quarts more')
      await touch('Tach')
      await until('the pad of hours', () =>
        page('return document.querySelector("dialog[open] .pad") !== null'),
      )
      await page('document.querySelector("dialog[open] .pad + button")?.click()')
      await pad('541.6')
      await touch('Done')
      await touch('Save on this phone')
      await says('Saved on this phone.')
      // In words: only the core says them.
      await says('Fifteen quarts')
    },
  ],
])

if (session) await ask('DELETE', `/session/${session}`).catch(() => undefined)
const ended = once(driver, 'exit')
driver.kill()
await ended
await server.remove()
