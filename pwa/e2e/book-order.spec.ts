// Trap 15 (DEMO): two phones, one book, one evening without signal. Both readings are kept, the order is
// asked, a person answers, and both phones know it.
import { expect, join, logOil, pairCode, sentInTheEnd, setUp, startWithMine, test } from './fixture'

test('two people, one evening: both kept, the order asked and answered', async ({ phone, server }) => {
  test.setTimeout(240_000)
  const [owner, mechanic] = [await phone(), await phone()]
  await setUp(owner, server)
  const home = await startWithMine(owner, { meter: '500' })
  await logOil(owner, home, { level: '15', hours: '540.0' })
  await sentInTheEnd(owner)
  await join(mechanic, await pairCode(owner))
  await mechanic.goto(home)
  await expect(mechanic.locator('main h1')).not.toBeEmpty()
  await sentInTheEnd(mechanic)

  // The server is really gone while both write.
  await server.kill()
  await logOil(owner, home, { level: '13', hours: '541.0', add: 2 })
  await logOil(mechanic, home, { level: '15', hours: '541.0' })
  await server.start()
  await sentInTheEnd(owner)
  await sentInTheEnd(mechanic)
  await sentInTheEnd(owner)

  await owner.goto(home)
  await owner.getByRole('link', { name: /^Two levels for one evening/ }).click()
  await expect(owner.getByRole('heading', { name: 'Which was read first?' })).toBeVisible()
  await expect(owner.getByRole('button', { name: 'This one first' })).toHaveCount(2)
  await owner.getByLabel('How it is known').fill('The mechanic dipped it before the fill')
  await owner
    .locator('main section', { hasText: /nothing added/i })
    .getByRole('button', { name: 'This one first' })
    .click()
  await expect(owner.getByText(/The order is written/)).toBeVisible()
  await sentInTheEnd(owner)

  for (const page of [owner, mechanic]) {
    await sentInTheEnd(page)
    await page.goto(`${home}/log`)
    await expect(page.locator('main a.line', { hasText: '541.0' })).not.toHaveCount(0)
    await expect(page.getByText(/Order settled by hand/).first()).toBeVisible()
    await page.goto(home)
    await expect(page.getByRole('link', { name: /^Two levels for one evening/ })).toHaveCount(0)
  }
})
