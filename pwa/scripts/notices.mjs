// dist/notices.txt: the licences of what ships to the phone beside our own code. Shown under "This phone".
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { DIST } from './dist.mjs'

const modules = new URL('../node_modules/', import.meta.url)
const manifest = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'))

/** Packages whose code or drawings are in the bundle: what we depend on at run time, all that those bring
 *  along, and the icon set, whose strokes are copied into our own file. */
export function shipped() {
  const found = new Map()
  const visit = (name) => {
    if (found.has(name)) return
    const { version, license, dependencies } = JSON.parse(read(name, 'package.json'))
    found.set(name, { name, version, license })
    // Svelte's own dependencies are its compiler's; its runtime brings none.
    if (name !== 'svelte') Object.keys(dependencies ?? {}).forEach(visit)
  }
  Object.keys(manifest.dependencies).forEach(visit)
  visit('@tabler/icons')
  return [...found.values()].sort((a, b) => (a.name < b.name ? -1 : 1))
}

const read = (name, file) => readFileSync(new URL(`${name}/${file}`, modules), 'utf8')

function licenceText({ name, license }) {
  const file = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license', 'LICENCE'].find((f) =>
    existsSync(new URL(`${name}/${f}`, modules)),
  )
  if (!file) throw new Error(`${name} (${license}) has no licence file to pass on`)
  return read(name, file).trim()
}

function goLicence() {
  const file = new URL('../src/worker/GO-LICENSE.txt', import.meta.url)
  return readFileSync(file, 'utf8').trim()
}

export function writeNotices(dist = DIST) {
  const rule = '-'.repeat(72)
  const parts = shipped().map((p) => `${p.name} ${p.version} (${p.license})\n${rule}\n${licenceText(p)}\n`)
  parts.push(
    `Go, its runtime and standard library, in the computing core (BSD-3-Clause)\n${rule}\n${goLicence()}\n`,
  )
  writeFileSync(
    dist + 'notices.txt',
    `What ships in Linkrod on your phone and was made by others, with the terms it comes under.\n\n${parts.join('\n\n')}`,
  )
}
