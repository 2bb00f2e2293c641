// Where a card is: "/cards/demo/torque-t7b@3", under an engine's address when one is open.
export const cardHref = (base: string, shelf: string, card: string, version?: number): string =>
  `${base}/card/${shelf}/${card}${version ? `@${version}` : ''}`

/** "torque-t7b@3" in an address. */
export function cardAt(part: string): { card: string; version?: number } {
  const [card = '', version] = part.split('@')
  return version && /^\d+$/.test(version) ? { card, version: Number(version) } : { card }
}
