// What every drawing needs: numbers short enough for a path, and text that cannot become markup.

/** A number for an SVG attribute: at most two decimals, no trailing zeros. */
export const num = (x: number): string => String(Math.round(x * 100) / 100)

/** A point as "x y". */
export const pt = (x: number, y: number): string => `${num(x)} ${num(y)}`

const special: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Names, serials and notes are typed by people; they go into a drawing as text only. */
export const esc = (s: string): string => s.replace(/[&<>"']/g, (c) => special[c] ?? c)

/** A point at `angle` degrees clockwise from the top. */
export function polar(radius: number, angle: number): [number, number] {
  const a = (angle * Math.PI) / 180
  return [radius * Math.sin(a), -radius * Math.cos(a)]
}
