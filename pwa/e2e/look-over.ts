// Looking a screen over, as it stands: what axe finds, what is too wide, what is cut or printed over other
// words, what is too small to touch. Every function answers with the faults, in words; none is good.
import { AxeBuilder } from '@axe-core/playwright'
import type { Page } from './fixture'

/** What axe has to say by WCAG 2.2 A and AA, about everything there is at this width. */
export async function accessible(
  page: Page,
  width: number,
  about: 'all' | 'colours' = 'all',
): Promise<string[]> {
  await whole(page, width)
  // One frame only: without legacy mode each look opens a second page to put frames together.
  const axe = new AxeBuilder({ page })
    .setLegacyMode()
    .options({ resultTypes: ['violations'], preload: false })
  if (about === 'all') axe.withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22a', 'wcag22aa'])
  else axe.withRules(['color-contrast', 'link-in-text-block'])
  const { violations } = await axe.analyze()
  return violations.map((v) => `axe ${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)
}

/** Letters of this size in CSS pixels; '' is the page's own size again. */
export const letters = (page: Page, size: string) =>
  page.evaluate((size) => (document.documentElement.style.fontSize = size), size)

/** At this width: nothing to scroll to sideways, nothing cut, no words over others. */
export async function fits(page: Page, width: number): Promise<string[]> {
  await whole(page, width)
  return page.evaluate(inPlace)
}

/** A screen of this width that is as high as the page: nothing is left undrawn because it is far below, and
 *  the bar at the bottom covers nothing that could be scrolled out from under it. */
async function whole(page: Page, width: number) {
  await page.setViewportSize({ width, height: 844 })
  await drawn(page)
  const height = await page.evaluate(() => document.documentElement.scrollHeight)
  if (height <= 844) return
  await page.setViewportSize({ width, height })
  await drawn(page)
}

/** Two frames: layout has settled and what measures itself has drawn itself anew. */
const drawn = (page: Page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))))

function inPlace(): string[] {
  const faults: string[] = []
  const name = (el: Element) => `${el.tagName.toLowerCase()}.${el.getAttribute('class') ?? ''}`
  const page = document.documentElement
  if (page.scrollWidth > page.clientWidth) faults.push(`${page.scrollWidth - page.clientWidth} px too wide`)

  const shown = document.querySelector('dialog[open]') ?? document.body
  const hides = (el: Element) => getComputedStyle(el).overflowX !== 'visible'
  for (const el of shown.querySelectorAll('*')) {
    const scrolls = /auto|scroll/.test(getComputedStyle(el).overflowX)
    if (scrolls && el.scrollWidth > el.clientWidth + 1) faults.push(`${name(el)} scrolls sideways`)
  }

  const above = (el: Element | null, is: (style: CSSStyleDeclaration) => boolean) => {
    while (el && !is(getComputedStyle(el))) el = el.parentElement
    return el
  }
  /** A line of text: where it is, and what it stands in. */
  interface Line {
    node: Node
    box: DOMRect
    layer: Element | null
  }
  const lines: Line[] = []
  const walker = document.createTreeWalker(shown, NodeFilter.SHOW_TEXT)
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const el = node.parentElement
    if (!el || !node.textContent?.trim() || !el.checkVisibility({ visibilityProperty: true })) continue
    // Words for screen readers only, and the link that comes into view when it has the focus.
    if (el.closest('.skip, title, desc') || above(el, (s) => s.clipPath.startsWith('inset(50%'))) continue
    const layer = above(el, (s) => /sticky|fixed/.test(s.position))
    const range = document.createRange()
    range.selectNodeContents(node)
    for (const box of range.getClientRects()) if (box.width > 1) lines.push({ node, box, layer })
  }

  const said = (l: Line) => `“${l.node.textContent?.trim().slice(0, 40)}”`
  for (const l of lines) {
    if (l.box.left < -1 || l.box.right > page.clientWidth + 1) faults.push(`${said(l)} runs off the screen`)
    for (let el = l.node.parentElement; el && el !== shown; el = el.parentElement) {
      if (!hides(el)) continue
      const box = el.getBoundingClientRect()
      if (l.box.left < box.left - 1 || l.box.right > box.right + 1)
        faults.push(`${said(l)} is cut by ${name(el)}`)
      break
    }
  }
  // The middle of a line is where its letters are; lines set close share a little above and below.
  const middle = (b: DOMRect) => ({ top: b.top + b.height * 0.3, bottom: b.bottom - b.height * 0.3 })
  for (const [i, a] of lines.entries())
    for (const b of lines.slice(i + 1)) {
      if (a.node === b.node || a.layer !== b.layer) continue
      const [ma, mb] = [middle(a.box), middle(b.box)]
      const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left)
      const down = Math.min(ma.bottom, mb.bottom) - Math.max(ma.top, mb.top)
      if (across > 2 && down > 1) faults.push(`${said(a)} is printed over ${said(b)}`)
    }
  return [...new Set(faults)]
}

/** Everything to touch is large enough: 48 px, 64 where numbers are entered, 24 for a link among words. */
export const touchable = (page: Page): Promise<string[]> => page.evaluate(targets)

function targets(): string[] {
  const faults: string[] = []
  const shown = document.querySelector('dialog[open]') ?? document.body
  const all = 'a[href], button, summary, input, textarea, select, [role=slider], [role=spinbutton]'
  for (const found of shown.querySelectorAll(all)) {
    // What stands in a label is touched by touching the label.
    const el = found.closest('label') ?? found
    if (!el.checkVisibility({ visibilityProperty: true }) || found.closest('.skip')) continue
    const { width, height } = el.getBoundingClientRect()
    const link = el.matches('a, summary, .act') && el.closest('p, td, th') !== null
    // The figure itself is shown there and has the focus already: nobody has to hit it.
    const entry = el.closest('.pad, .stepper') !== null && !el.matches('input')
    const least = link ? 24 : entry ? 64 : 48
    if (Math.min(width, height) < least - 0.5)
      faults.push(
        `${el.tagName.toLowerCase()}.${el.className} “${(el.getAttribute('aria-label') ?? el.textContent ?? '').trim().slice(0, 30)}” is ${Math.round(width)} × ${Math.round(height)}, not ${least}`,
      )
  }
  return faults
}
