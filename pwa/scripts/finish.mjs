// What is left to do when Vite has ended, in this order: the list of files is taken when all are there, and
// compression comes last.
import { writeFileSync } from 'node:fs'
import { DIST } from './dist.mjs'
import { precompress } from './precompress.mjs'
import { writeServiceWorker } from './service-worker.mjs'

writeServiceWorker()
precompress()
// Vite empties the folder; git keeps it by this file.
writeFileSync(DIST + '.gitkeep', '')
