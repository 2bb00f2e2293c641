// The phone's storage failing under the app: errors put into the browser's own IndexedDB, below our wrapper, while
// the app runs. What can be mended is mended without a word; what can't be is said, and stays typed.
import { expect, lines, saveOil, startWithMine, test, writeOil, type Page } from './fixture'

/** The one worker that keeps the readings. */
async function keeper(page: Page) {
  await expect.poll(() => page.workers().length).toBe(1)
  const [worker] = page.workers()
  if (!worker) throw new Error('no worker')
  return worker
}

const notSaved = 'Not saved. The phone refused to write. Keep this screen open and write it on paper.'

test('IDB connection dies on resume: the handle is opened again and the reading is saved', async ({
  phone,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '15', hours: '541.6' })
  // What the system does to an app that slept: every handle it had is closed underneath it.
  await (
    await keeper(page)
  ).evaluate(() => {
    const transaction = IDBDatabase.prototype.transaction
    const dead = new WeakSet<IDBDatabase>()
    let slept = false
    IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...args) {
      if (!slept) dead.add(this)
      slept = true
      if (dead.has(this)) throw new DOMException('The database connection is closing.', 'InvalidStateError')
      return transaction.apply(this, args)
    }
  })
  await saveOil(page)
  expect((await lines(page, home)).filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(1)
})

test('the connection is lost in the middle of writing: it is tried again once, and stands once', async ({
  phone,
}) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '15', hours: '541.6' })
  await (
    await keeper(page)
  ).evaluate(() => {
    const add = IDBObjectStore.prototype.add
    let times = 0
    IDBObjectStore.prototype.add = function (this: IDBObjectStore, ...args) {
      if (this.name === 'entries' && times++ === 0)
        throw new DOMException('Connection to Indexed Database server lost.', 'UnknownError')
      return add.apply(this, args)
    }
  })
  await saveOil(page)
  expect((await lines(page, home)).filter((l) => l.startsWith('Level 15 quarts'))).toHaveLength(1)
})

for (const [what, name] of [
  ['every new handle is dead too', 'InvalidStateError'],
  ['the disk answers with faults', 'UnknownError'],
  ['the transaction is torn down', 'AbortError'],
] as const)
  test(`${what}: it says that nothing is saved, keeps what was typed, and saves it at the next press`, async ({
    phone,
  }) => {
    const page = await phone()
    const home = await startWithMine(page, { meter: '541' })
    await page.goto(`${home}/oil`)
    await writeOil(page, { level: '14.5', hours: '541.6' })
    const worker = await keeper(page)
    await worker.evaluate((name) => {
      const put = IDBObjectStore.prototype.put
      const world = globalThis as unknown as { mend: () => void }
      world.mend = () => void (IDBObjectStore.prototype.put = put)
      IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args) {
        if (this.name !== 'entries') return put.apply(this, args)
        // Torn down as the browser does it: the request is made, then the transaction goes.
        if (name === 'AbortError') {
          const request = put.apply(this, args)
          this.transaction.abort()
          return request
        }
        throw new DOMException('put in by the test', name)
      }
    }, name)
    await page.getByRole('button', { name: /^Save on this phone/ }).click()
    await expect(page.getByText(notSaved)).toBeVisible()
    await expect(page.getByText(/^Saved on this phone/)).toHaveCount(0)
    await expect(page.getByRole('spinbutton', { name: 'Level before adding' })).toHaveAttribute(
      'aria-valuetext',
      '14.5 quarts',
    )
    await worker.evaluate(() => (globalThis as unknown as { mend: () => void }).mend())
    await saveOil(page)
    expect((await lines(page, home)).filter((l) => l.startsWith('Level 14.5 quarts'))).toHaveLength(1)
  })

test('a write that completes late: nothing says saved before storage has said so', async ({ phone }) => {
  const page = await phone()
  const home = await startWithMine(page, { meter: '541' })
  await page.goto(`${home}/oil`)
  await writeOil(page, { level: '15', hours: '541.6' })
  const worker = await keeper(page)
  // A slow disk: the transaction is kept open by reading on and on until the test lets it go.
  await worker.evaluate(() => {
    const put = IDBObjectStore.prototype.put
    const world = globalThis as unknown as { letGo: boolean; held: number }
    world.letGo = false
    world.held = 0
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...args) {
      const request = put.apply(this, args)
      if (this.name !== 'entries') return request
      const hold = () => {
        world.held++
        if (!world.letGo) this.count().onsuccess = hold
      }
      this.count().onsuccess = hold
      return request
    }
  })
  await page.getByRole('button', { name: /^Save on this phone/ }).click()
  await expect
    .poll(() => worker.evaluate(() => (globalThis as unknown as { held: number }).held))
    .toBeGreaterThan(50)
  await expect(page.getByText(/^Saved on this phone\./)).toHaveCount(0)
  await worker.evaluate(() => void ((globalThis as unknown as { letGo: boolean }).letGo = true))
  await expect(page.getByText('Saved on this phone.').first()).toBeVisible()
})
