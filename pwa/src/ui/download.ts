// A file for the person to keep, made on this phone.
import type { Download } from '../worker/protocol'

export function keep(file: Download): void {
  const url = URL.createObjectURL(new Blob([file.text], { type: file.type }))
  const link = document.createElement('a')
  link.href = url
  link.download = file.name
  link.click()
  // The browser has taken the blob over by the time the next task runs.
  setTimeout(() => URL.revokeObjectURL(url), 10_000)
}
