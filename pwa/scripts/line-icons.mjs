// Writes src/ui/icons.ts: the strokes of the few line icons we use, out of @tabler/icons (MIT, 24 px grid).
// Run after adding a name here: node scripts/line-icons.mjs
import { readFileSync, writeFileSync } from 'node:fs'

const used = {
  add: 'plus',
  again: 'refresh',
  back: 'arrow-left',
  call: 'phone',
  cards: 'book-2',
  check: 'check',
  clock: 'clock',
  close: 'x',
  correct: 'pencil',
  drain: 'droplet-off',
  droplet: 'droplet',
  'file-in': 'file-import',
  'file-out': 'file-export',
  flip: 'arrows-exchange',
  hangar: 'moon',
  bench: 'bulb',
  sun: 'sun',
  log: 'list-details',
  meter: 'gauge',
  next: 'chevron-right',
  note: 'note',
  pair: 'qrcode',
  people: 'users',
  phone: 'device-mobile',
  'phone-send': 'device-mobile-up',
  print: 'printer',
  propeller: 'propeller',
  same: 'arrow-back-up',
  search: 'search',
  wrench: 'tool',
  look: 'eye-search',
  send: 'device-mobile-share',
  shop: 'building-warehouse',
  speak: 'speakerphone',
  step: 'stairs-up',
  stop: 'hand-stop',
  strike: 'strikethrough',
  table: 'table',
  wipe: 'backspace',
}

const from = new URL('../node_modules/@tabler/icons/icons/outline/', import.meta.url)
const lines = Object.entries(used)
  .sort(([a], [b]) => a.localeCompare(b))
  .map(([name, file]) => {
    const svg = readFileSync(new URL(`${file}.svg`, from), 'utf8')
    const d = [...svg.matchAll(/<path d="([^"]+)"/g)].map((m) => m[1].replace(/\s+/g, ' ')).join('')
    return `  ${/-/.test(name) ? `'${name}'` : name}:\n    '${d}',`
  })
writeFileSync(
  new URL('../src/ui/icons.ts', import.meta.url),
  `// Written by scripts/line-icons.mjs from @tabler/icons (MIT). Strokes on a 24 px grid.\nexport const icons = {\n${lines.join('\n')}\n} as const\n\nexport type IconName = keyof typeof icons\n`,
)
