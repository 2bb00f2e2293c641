// In which order a person walks the cylinders: a habit of this phone, kept beside its storage.

const KEY = 'linkrod.order'

export function orderOf(otherwise: 'ring' | 'firing'): 'ring' | 'firing' {
  const kept = localStorage.getItem(KEY)
  return kept === 'ring' || kept === 'firing' ? kept : otherwise
}
export const rememberOrder = (order: 'ring' | 'firing') => localStorage.setItem(KEY, order)
