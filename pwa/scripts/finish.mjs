// What is left to do when Vite has ended.
import { writeFileSync } from 'node:fs'

// Vite empties the folder; git keeps it by this file.
writeFileSync(new URL('../../embed/dist/.gitkeep', import.meta.url), '')
