// Writes dist/sw.js: the list of every file of this version in front of sw/sw.ts. Built with SW=off in the
// environment it is sw/off.ts instead, the way back from a broken one.
import { readFileSync, writeFileSync } from 'node:fs'
import ts from 'typescript'
import { DIST, files, read, sha256 } from './dist.mjs'

const source = (name) => readFileSync(new URL(`../sw/${name}.ts`, import.meta.url), 'utf8')

export const plainScript = (text) =>
  ts.transpileModule(text, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext, removeComments: true },
  }).outputText

/** The text of sw.js for this list of [path, digest]. */
export function serviceWorker(list) {
  const script = plainScript(source('sw'))
  const version = sha256(JSON.stringify(list) + script).slice(0, 12)
  return `const VERSION=${JSON.stringify(version)};const FILES=${JSON.stringify(list)};\n${script}`
}

export function writeServiceWorker(dist = DIST) {
  // The service worker itself is the browser's to keep, not the cache's. The editor's own program is for who
  // writes cards, at a desk: no phone fetches it before it is asked for.
  const paths = files(dist).filter((path) => path !== '/sw.js' && !/^\/assets\/editor-.*\.wasm$/.test(path))
  const list = paths.map((path) => [path, sha256(read(path, dist))])
  writeFileSync(dist + 'sw.js', process.env.SW === 'off' ? plainScript(source('off')) : serviceWorker(list))
}
