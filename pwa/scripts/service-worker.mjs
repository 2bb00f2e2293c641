// Writes dist/sw.js: the list of every file of this version in front of sw/sw.ts.
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

/** The service workers themselves are the browser's to keep, not the cache's. */
export const kept = (paths) => paths.filter((p) => p !== '/sw.js' && p !== '/sw-off.js')

export function writeServiceWorker(dist = DIST) {
  const list = kept(files(dist)).map((path) => [path, sha256(read(path, dist))])
  writeFileSync(dist + 'sw.js', serviceWorker(list))
  writeFileSync(dist + 'sw-off.js', plainScript(source('off')))
}
