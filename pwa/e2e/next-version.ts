// The next version of the whole program, made cheaply: the front end as built, under new names and with the next
// number in it, inside a server built from the same sources.
import { execFileSync } from 'node:child_process'
import { cpSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, resolve } from 'node:path'
import { writeServiceWorker } from '../scripts/service-worker.mjs'
import manifest from '../package.json' with { type: 'json' }

const root = resolve(import.meta.dirname, '../..')

export interface NextVersion {
  /** Where its sources lie, embed/dist among them. */
  folder: string
  binary: string
  /** The number it shows, and that of the built program. */
  number: string
  before: string
  remove(): void
}

export function nextVersion(): NextVersion {
  const folder = mkdtempSync(join(tmpdir(), 'linkrod-next-'))
  const elsewhere = ['.git', 'build', 'data', 'pwa'].map((name) => join(root, name))
  cpSync(root, folder, { recursive: true, filter: (path) => !elsewhere.includes(path) })
  const number = `${manifest.version}-next`
  renumber(join(folder, 'embed/dist'), number)
  const binary = join(folder, 'linkrod')
  execFileSync('go', ['build', '-o', binary, './server'], { cwd: folder, stdio: 'inherit' })
  return {
    folder,
    binary,
    number,
    before: manifest.version,
    remove: () => rmSync(folder, { recursive: true, force: true }),
  }
}

/** Scripts hold each other's names, so with one of them changed all go by new names; the core keeps its own. */
function renumber(dist: string, number: string) {
  const assets = join(dist, 'assets')
  const scripts = readdirSync(assets).filter((name) => name.endsWith('.js'))
  const renamed = (text: string) =>
    scripts.reduce((all, name) => all.replaceAll(name, name.replace(/\.js$/, '-next.js')), text)
  for (const name of [...scripts.map((s) => `assets/${s}`), 'index.html']) {
    const path = join(dist, name)
    const text = renamed(readFileSync(path, 'utf8')).replaceAll(`\`${manifest.version}\``, `\`${number}\``)
    writeFileSync(path, text)
    // What was compressed is the version before.
    for (const ending of ['.br', '.gz']) rmSync(path + ending, { force: true })
  }
  for (const name of scripts) renameSync(join(assets, name), join(assets, name.replace(/\.js$/, '-next.js')))
  for (const ending of ['.br', '.gz']) rmSync(join(dist, 'sw.js') + ending, { force: true })
  writeServiceWorker(dist + '/')
}
