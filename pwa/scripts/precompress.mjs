// A .br and a .gz beside every file that gains by it, so that the server compresses nothing while it serves.
import { writeFileSync } from 'node:fs'
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import { DIST, files, read } from './dist.mjs'

const BROTLI = { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_LGWIN]: 24 }

export const brotli = (bytes) =>
  brotliCompressSync(bytes, { params: { ...BROTLI, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } })

export function precompress(dist = DIST) {
  for (const path of files(dist)) {
    const bytes = read(path, dist)
    const keep = (ending, small) => {
      if (small.length < bytes.length) writeFileSync(dist + path.slice(1) + ending, small)
    }
    keep('.br', brotli(bytes))
    keep('.gz', gzipSync(bytes, { level: 9 }))
  }
}
