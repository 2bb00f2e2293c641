// A story told in steps, for the browsers that Playwright does not drive. Each step stands on the one before,
// so after one that failed the rest is not tried and counts as failed too.

/** @param {[what: string, act: () => Promise<unknown>][]} steps */
export async function tell(steps) {
  let passed = 0
  for (const [what, act] of steps) {
    const begun = Date.now()
    try {
      await act()
    } catch (error) {
      process.stdout.write(`  ✘ ${what}\n${error instanceof Error ? error.stack : error}\n`)
      break
    }
    process.stdout.write(`  ✓ ${what} (${((Date.now() - begun) / 1000).toFixed(1)} s)\n`)
    passed++
  }
  process.stdout.write(`${passed} passed, ${steps.length - passed} failed\n`)
  if (passed < steps.length) process.exitCode = 1
}

/**
 * Looks until it is so.
 * @template T
 * @param {string} what
 * @param {() => Promise<T>} look
 * @returns {Promise<T>}
 */
export async function until(what, look, limit = 30_000) {
  const end = Date.now() + limit
  for (;;) {
    const seen = await look()
    if (seen) return seen
    if (Date.now() > end) throw new Error(`${what}: not so after ${limit / 1000} s`)
    await new Promise((again) => setTimeout(again, 50))
  }
}

/**
 * Runs in the page: what can be touched and reads so, or begins so.
 * @param {string} words
 * @returns {HTMLElement | undefined}
 */
export function find(words) {
  const reads = (el) => {
    const copy = el.cloneNode(true)
    for (const drawing of copy.querySelectorAll('svg')) drawing.remove()
    return (el.getAttribute('aria-label') ?? copy.textContent).trim()
  }
  return [...document.querySelectorAll('a, button, label, [role=spinbutton]')].find(
    (el) => el.getClientRects().length > 0 && reads(el).startsWith(words),
  )
}
