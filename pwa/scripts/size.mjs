// What a first visit costs in bytes, every file named; fails when a budget is passed.
import { files, read } from './dist.mjs'
import { brotli } from './precompress.mjs'

const kB = (n) => (n / 1000).toFixed(1).padStart(8)
const html = read('/index.html').toString()

/** The Go core; the sums, which come when one is opened; what the first screen needs before anything is drawn; everything else. */
function groupOf(path) {
  if (/^\/assets\/core-.*\.wasm$/.test(path)) return 'core'
  if (/^\/assets\/sums-.*\.wasm$/.test(path)) return 'sums'
  // The first screen: the page, what it names, the font the style sheet names, its icon in the tab.
  if (path === '/index.html' || html.includes(`"${path}"`) || /\.(woff2|css)$/.test(path)) return 'shell'
  return 'rest'
}

const budgets = { shell: 140_000, core: 800_000, sums: 700_000 }
const sums = { shell: 0, core: 0, sums: 0, rest: 0 }
const rows = files()
  .map((path) => {
    const bytes = read(path)
    const br = Math.min(bytes.length, brotli(bytes).length)
    const group = groupOf(path)
    sums[group] += br
    return { path, group, raw: bytes.length, br }
  })
  .sort((a, b) => a.group.localeCompare(b.group) || b.br - a.br)

console.log('group    raw kB   br kB  file')
for (const { path, group, raw, br } of rows) console.log(`${group.padEnd(5)} ${kB(raw)}${kB(br)}  ${path}`)
let over = 0
for (const [group, most] of Object.entries(budgets)) {
  const fits = sums[group] > 0 && sums[group] <= most
  if (!fits) over++
  console.log(
    `${group}: ${kB(sums[group]).trim()} of ${kB(most).trim()} kB brotli${fits ? '' : '  OVER (or missing)'}`,
  )
}
console.log(`rest: ${kB(sums.rest).trim()} kB brotli`)
console.log(`${Object.keys(budgets).length - over} passed, ${over} failed`)
process.exitCode = over > 0 ? 1 : 0
