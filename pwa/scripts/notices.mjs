// notices.txt: the licences of what ships to the phone and was made by others. A Vite plugin, so that the list
// is what the bundle really holds. Shown under "This phone".
import { existsSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

const modules = fileURLToPath(new URL('../node_modules/', import.meta.url))
const GO = fileURLToPath(new URL('../src/worker/GO-LICENSE.txt', import.meta.url))

/** The package a bundled file belongs to, or null for our own. */
export function packageOf(file) {
  const [, name] = /.*node_modules\/((?:@[^/]+\/)?[^/]+)\//.exec(file) ?? []
  return name ?? null
}

/** Names of the packages whose code or files are in a bundle. */
export function packagesIn(bundle) {
  const files = Object.values(bundle).flatMap((f) => (f.type === 'chunk' ? f.moduleIds : f.originalFileNames))
  return new Set(files.map(packageOf).filter((name) => name !== null))
}

function noticeOf(name) {
  const { version, license } = JSON.parse(readFileSync(`${modules}${name}/package.json`, 'utf8'))
  const file = ['LICENSE', 'LICENSE.md', 'LICENSE.txt', 'license', 'LICENCE']
    .map((f) => `${modules}${name}/${f}`)
    .find(existsSync)
  if (!file) throw new Error(`${name} (${license}) ships and has no licence file to pass on`)
  return [`${name} ${version} (${license})`, readFileSync(file, 'utf8')]
}

export function notices() {
  // The line icons' strokes are copied into src/ui/icons.ts, where no bundler sees whose they are.
  const names = new Set(['@tabler/icons'])
  const collect = {
    name: 'linkrod:notices-collect',
    generateBundle: (_options, bundle) => packagesIn(bundle).forEach((name) => names.add(name)),
  }
  const write = {
    name: 'linkrod:notices',
    enforce: 'post',
    generateBundle(_options, bundle) {
      collect.generateBundle(_options, bundle)
      const parts = [...names].sort().map(noticeOf)
      parts.push([
        'Go: runtime and standard library, in the computing core (BSD-3-Clause)',
        readFileSync(GO, 'utf8'),
      ])
      const rule = '-'.repeat(72)
      const source = [
        'What ships in Linkrod on your phone and was made by others, with the terms it comes under.',
        ...parts.map(([title, text]) => `${title}\n${rule}\n${text.trim()}`),
      ].join('\n\n\n')
      this.emitFile({ type: 'asset', fileName: 'notices.txt', source: source + '\n' })
    },
  }
  return { collect, write }
}
