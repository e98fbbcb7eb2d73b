import { rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { openChromium } from '../support/open-chromium.ts'
import { tablet, wall } from '../support/sample-page.ts'
import { startServer } from '../support/start-server.ts'

const folder = fileURLToPath(new URL('../../.cache/accounts-data', import.meta.url))
const password = 'four plain words here'

let browser: Browser
let server: Awaited<ReturnType<typeof startServer>>
/** By a name: passkeys belong to one. */
let address = ''
beforeAll(async () => {
  rmSync(folder, { recursive: true, force: true })
  // The records of the sample without its readings: this is about people.
  server = await startServer(folder, ['--no-sample', '--site', 'sample-site', '--administrator-link'])
  address = server.address.replace('127.0.0.1', 'localhost')
  browser = await openChromium()
})
afterAll(async () => {
  await browser?.close()
  await server?.stop()
  rmSync(folder, { recursive: true, force: true })
})

const openMenu = async (page: Page) => {
  const menu = page.locator('details.title-settings')
  await menu.locator('summary').click()
}
const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true })

it('an administrator is made, signs in by a passkey, and shares a view that reads until it is revoked', async () => {
  const context = await browser.newContext({ viewport: { width: tablet.width, height: tablet.height } })
  const page = await context.newPage()
  // Web Authentication Level 3, 11.2: an authenticator without a person.
  const devtools = await context.newCDPSession(page)
  await devtools.send('WebAuthn.enable')
  await devtools.send('WebAuthn.addVirtualAuthenticator', {
    options: {
      protocol: 'ctap2',
      transport: 'internal',
      hasResidentKey: true,
      hasUserVerification: true,
      isUserVerified: true,
      automaticPresenceSimulation: true,
    },
  })
  await expect.poll(() => server.said()).toContain('#invitation=')
  const [invitation] = /#invitation=[\w-]+/.exec(server.said()) ?? ['']
  await page.goto(`${address}/${invitation}`)
  await page.locator('input[name=name]').fill('Ada Marsh')
  await page.locator('input[name=username]').fill('ada')
  await page.locator('input[name=password]').fill(password)
  await page.locator('input[name=again]').fill(password)
  await button(page, 'Make the account').click()
  await page.getByRole('heading', { name: 'Skarrow Quay' }).waitFor()
  expect(page.url()).not.toContain('invitation')

  await openMenu(page)
  await button(page, 'Password, codes and passkeys').click()
  const passkeys = page.getByRole('region', { name: 'Passkeys' })
  await passkeys.locator('input[name=name]').fill('Tablet')
  await passkeys.locator('input[name=password]').fill(password)
  await passkeys.getByRole('button', { name: 'Make a passkey on this device' }).click()
  await passkeys.getByText('For localhost').waitFor()
  const { violations } = await new AxeBuilder({ page }).include('dialog[open]').analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
  await button(page, 'Close').click()
  await button(page, 'Sign out').click()

  await button(page, 'Sign in with a passkey').click()
  await page.getByRole('heading', { name: 'Skarrow Quay' }).waitFor()
  await openMenu(page)
  await button(page, 'Share this view').click()
  await button(page, 'Make a link').click()
  const link = (await page.locator('dialog[open] .invitation-link').textContent()) ?? ''
  expect(link).toContain('site=skarrow-quay')

  const other = await browser.newContext({ viewport: { width: wall.width, height: wall.height } })
  const reader = await other.newPage()
  await reader.goto(link)
  await reader.getByText(/^Read by link of Ada Marsh until /).waitFor()
  await reader.getByRole('heading', { name: 'Skarrow Quay' }).waitFor()
  expect(reader.url()).not.toContain('#link')
  expect(new URL(reader.url()).search).toBe(new URL(link).search)

  await button(page, 'Revoke this link').click()
  await page.getByText(/revoked/).waitFor()
  await reader.reload()
  await reader.getByRole('heading', { name: 'Sign in' }).waitFor()
})
