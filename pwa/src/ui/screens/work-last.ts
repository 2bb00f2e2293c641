// Which sums were worked out last on this phone, the newest first. A convenience and nothing that must last.
const key = 'linkrod.sums'

export function lastWorked(): string[] {
  try {
    const list: unknown = JSON.parse(localStorage.getItem(key) ?? '[]')
    return Array.isArray(list) ? list.filter((id) => typeof id === 'string') : []
  } catch {
    return []
  }
}

export function workedOut(id: string) {
  try {
    localStorage.setItem(
      key,
      JSON.stringify([id, ...lastWorked().filter((other) => other !== id)].slice(0, 3)),
    )
  } catch {
    // A full phone goes on without this list.
  }
}
