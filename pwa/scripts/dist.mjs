// The built front end as a list of files. Shared by the scripts that run after Vite.
import { createHash } from 'node:crypto'
import { readFileSync, readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'

export const DIST = fileURLToPath(new URL('../../embed/dist/', import.meta.url))

/** Paths below dist with a leading slash, sorted; not the compressed twins and dot-files. */
export function files(dist = DIST) {
  return readdirSync(dist, { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && !f.name.startsWith('.') && !/\.(br|gz)$/.test(f.name))
    .map((f) => `${f.parentPath.slice(dist.length)}/${f.name}`.replace(/^\/*/, '/'))
    .sort()
}

export const read = (path, dist = DIST) => readFileSync(dist + path.slice(1))
export const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex')
