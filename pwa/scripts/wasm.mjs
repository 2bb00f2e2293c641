// As much of the WebAssembly binary format as packing the core needs: sections, and the data section's
// segments. https://webassembly.github.io/spec/core/binary/modules.html

export const DATA = 11

/** A cursor over bytes that reads LEB128 numbers. */
class Cursor {
  constructor(bytes, at = 0) {
    this.bytes = bytes
    this.at = at
  }
  byte() {
    return this.bytes[this.at++]
  }
  take(n) {
    return this.bytes.subarray(this.at, (this.at += n))
  }
  unsigned() {
    for (let n = 0, shift = 0; ; shift += 7) {
      const b = this.byte()
      n |= (b & 127) << shift
      if (!(b & 128)) return n >>> 0
    }
  }
}

export function unsigned(n) {
  const out = []
  for (; n > 127; n >>>= 7) out.push((n & 127) | 128)
  return Buffer.from([...out, n])
}

/** i32.const takes a signed number. */
function signed(n) {
  const out = []
  for (;;) {
    const b = n & 127
    n >>= 7
    if ((n === 0 && !(b & 64)) || (n === -1 && b & 64)) return Buffer.from([...out, b])
    out.push(b | 128)
  }
}

/** [id, bytes] of each section, in order. */
export function sections(module) {
  if (module.readUInt32LE(0) !== 0x6d736100 || module.readUInt32LE(4) !== 1)
    throw new Error('this is no WebAssembly module of version 1')
  const list = []
  for (const at = new Cursor(module, 8); at.at < module.length;) {
    const id = at.byte()
    list.push([id, at.take(at.unsigned())])
  }
  return list
}

export const module = (list) =>
  Buffer.concat([
    Buffer.from([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]),
    ...list.flatMap(([id, bytes]) => [Buffer.from([id]), unsigned(bytes.length), bytes]),
  ])

const I32_CONST = 0x41
const END = 0x0b

/** The data section's segments as {offset, bytes}; all must be active ones of memory 0 at a constant offset. */
export function segments(section) {
  const at = new Cursor(section)
  return Array.from({ length: at.unsigned() }, () => {
    if (at.unsigned() !== 0 || at.byte() !== I32_CONST) throw new Error('a data segment of another kind')
    let offset = 0
    for (let shift = 0, b = 128; b & 128; shift += 7) {
      b = at.byte()
      offset |= (b & 127) << shift
      if (!(b & 128) && b & 64 && shift < 25) offset |= -1 << (shift + 7)
    }
    if (at.byte() !== END) throw new Error('a data segment at a computed offset')
    return { offset: offset >>> 0, bytes: at.take(at.unsigned()) }
  })
}

export const dataSection = (list) =>
  Buffer.concat([
    unsigned(list.length),
    ...list.flatMap(({ offset, bytes }) => [
      Buffer.from([0, I32_CONST]),
      signed(offset | 0),
      Buffer.from([END]),
      unsigned(bytes.length),
      bytes,
    ]),
  ])
