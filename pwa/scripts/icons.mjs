// Draws public/icons/*.png from our own mark.svg, which knows only straight strokes and circles:
//   npm run icons
// The pictures are committed; run it again after the mark has changed.
import { readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { crc32, deflateSync } from 'node:zlib'

const folder = fileURLToPath(new URL('../public/icons/', import.meta.url))
const PAPER = [0xf3, 0xf1, 0xea]
const INK = [0x15, 0x18, 0x1b]

/** The mark as distances: how far a point of the 30-unit grid is outside each stroke or disc. */
function shapes(svg) {
  const strokes = [
    ...svg.matchAll(/<path d="M(\S+) (\S+)L(\S+) (\S+)" stroke="[^"]+" stroke-width="(\S+)"/g),
  ].map((m) => {
    const [ax, ay, bx, by, width] = m.slice(1).map(Number)
    return (x, y) => {
      const [dx, dy] = [bx - ax, by - ay]
      const t = Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)))
      return Math.hypot(x - ax - t * dx, y - ay - t * dy) - width / 2
    }
  })
  const discs = [...svg.matchAll(/<circle cx="(\S+)" cy="(\S+)" r="(\S+)"/g)].map((m) => {
    const [cx, cy, r] = m.slice(1).map(Number)
    return (x, y) => Math.hypot(x - cx, y - cy) - r
  })
  return [...strokes, ...discs]
}

/** `fill`: how much of the picture's side the 30 units take. */
function draw(mark, size, fill) {
  const scale = (size * fill) / 30
  const rows = Buffer.alloc(size * (size * 3 + 1))
  for (let j = 0; j < size; j++) {
    for (let i = 0; i < size; i++) {
      const x = (i + 0.5 - size / 2) / scale
      const y = (j + 0.5 - size / 2) / scale
      const outside = Math.min(...mark.map((d) => d(x, y))) * scale
      const cover = Math.min(1, Math.max(0, 0.5 - outside))
      for (let c = 0; c < 3; c++)
        rows[j * (size * 3 + 1) + 1 + i * 3 + c] = Math.round(PAPER[c] + (INK[c] - PAPER[c]) * cover)
    }
  }
  return png(size, rows)
}

function png(size, rows) {
  const chunk = (type, data) => {
    const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
    const frame = Buffer.alloc(8)
    frame.writeUInt32BE(data.length, 0)
    frame.writeUInt32BE(crc32(body), 4)
    return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)])
  }
  const head = Buffer.alloc(13)
  head.writeUInt32BE(size, 0)
  head.writeUInt32BE(size, 4)
  head.set([8, 2, 0, 0, 0], 8) // 8 bits, RGB
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

const mark = shapes(readFileSync(folder + 'mark.svg', 'utf8'))
const pictures = [
  ['touch-180.png', 180, 0.82],
  ['icon-192.png', 192, 0.9],
  ['icon-512.png', 512, 0.9],
  ['maskable-512.png', 512, 0.66], // a launcher may cut away everything outside the middle 80 %
]
for (const [name, size, fill] of pictures) writeFileSync(folder + name, draw(mark, size, fill))
