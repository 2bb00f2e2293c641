// Two people, two values, and a third while somebody settles them.
import {
  expect,
  join,
  onSheet,
  pairCode,
  sentInTheEnd,
  setUp,
  startWithMine,
  test,
  type Page,
} from './fixture'

/** Both sides of what is listed, and how many are. */
async function listed(page: Page) {
  await page.goto('/disagreements')
  await expect(page.getByText(/Nobody disagrees|Two values for/).first()).toBeVisible()
  return (await page.locator('.side .figure').allInnerTexts()).sort()
}

test('two values stand side by side with who, when and on which phone; settling one while another arrives is itself kept open', async ({
  phone,
  server,
}) => {
  const first = await phone()
  await setUp(first, server)
  const home = await startWithMine(first, { meter: '541' })
  await sentInTheEnd(first)
  const second = await phone()
  await join(second, await pairCode(first))
  await second.goto(home)
  await sentInTheEnd(second)

  await server.kill('SIGKILL')
  await onSheet(first, home, 'full_mark', { Figure: '16' })
  await onSheet(second, home, 'full_mark', { Figure: '15.5' })
  await server.start()
  await sentInTheEnd(first)
  await sentInTheEnd(second)
  await sentInTheEnd(first)
  expect(await listed(first)).toEqual(['15.5 qt', '16 qt'])
  const sides = first.locator('.side')
  await expect(sides.first()).toContainText('Osric Penhallow')
  const phones = await sides.locator('.sub').allInnerTexts()
  expect(new Set(phones.map((p) => /phone ([0-9a-f]{4})/.exec(p)?.[1])).size, 'two phones').toBe(2)
  await first.goto('/tray')
  await first.getByRole('link', { name: 'One value was given twice' }).click()
  await expect(first).toHaveURL(/disagreements/)

  // Not without a reason, and by the keyboard alone.
  const settle = first.getByRole('button', { name: 'Settle on 16 qt' })
  await settle.focus()
  await first.keyboard.press('Enter')
  await expect(first.getByText(/Say why this one/)).toBeVisible()

  // The second phone has not heard of it and settles on the other one, while the first settles on this one.
  await server.kill('SIGKILL')
  await first.getByLabel('Why this one').fill('DEMO read on the stick')
  await settle.focus()
  await first.keyboard.press('Enter')
  await expect(first.getByText(/is settled/)).toBeVisible()
  expect(await listed(first)).toEqual([])
  await second.goto('/disagreements')
  await second.getByLabel('Why this one').fill('DEMO from the sheet')
  await second.getByRole('button', { name: 'Settle on 15.5 qt' }).click()
  await expect(second.getByText(/is settled/)).toBeVisible()
  await server.start()
  for (const p of [first, second, first]) await sentInTheEnd(p)
  for (const p of [first, second]) expect(await listed(p)).toEqual(['15.5 qt', '16 qt'])

  // Settled by one who has seen both: closed for everybody, and every value is still in the log.
  await first.getByLabel('Why this one').fill('DEMO we looked together')
  await first.getByRole('button', { name: 'Settle on 16 qt' }).click()
  await expect(first.getByText(/is settled/)).toBeVisible()
  await sentInTheEnd(first)
  await sentInTheEnd(second)
  for (const p of [first, second]) expect(await listed(p)).toEqual([])
  await second.goto(`${home}/log`)
  const marks = second.locator('main a.line').filter({ hasText: /1[56](\.5)? (qt|quarts)/ })
  await expect(marks).toHaveCount(5)
})
