import { describe, expect, it } from 'vitest'
import type { Access } from '../../../api/access/create-access.ts'
import { sayHowToSignIn } from '../../../api/access/say-how-to-sign-in.ts'
import { readSettings } from '../../../api/settings.ts'

/** What is said at a start, and the invitations that were made for it. */
async function said(
  environment: Record<string, string>,
  { hasAccounts = false, words = [] as string[] } = {},
): Promise<{ text: string; invited: object[] }> {
  const settings = readSettings(environment, words)
  if (!settings.ok) throw new Error('settings')
  const lines: string[] = []
  const invited: object[] = []
  const access = {
    hasAccounts: async () => hasAccounts,
    invite: async (membership: object, lastsMs: number) => {
      invited.push({ ...membership, lastsMs })
      return { token: 'TOKEN', expiresAtEpochMs: 0 }
    },
  } as unknown as Access
  await sayHowToSignIn({
    access,
    settings: settings.value,
    address: `http://${settings.value.host}:8477`,
    say: (line) => lines.push(line),
  })
  return { text: lines.join('\n'), invited }
}
const first = { site: '*', role: 'administrator', lastsMs: 86_400_000 }

describe('at its start the server', () => {
  it('says on loopback alone that one reads, and prints a link to make an account', async () => {
    for (const host of ['127.0.0.1', '::1', 'localhost']) {
      const { text, invited } = await said({ STILLGROUND_HOST: host })
      expect(text).toContain('changes nothing')
      expect(text).toContain('/#invitation=TOKEN')
      expect(invited).toEqual([first])
    }
  })

  it('says nothing of accounts where it is open for changes, or somebody has one', async () => {
    expect(await said({}, { words: ['--open-for-changes'] })).toEqual({ text: '', invited: [] })
    expect(await said({}, { hasAccounts: true })).toEqual({ text: '', invited: [] })
  })

  it.each([
    [{ STILLGROUND_HOST: '0.0.0.0' }, 'http://127.0.0.1:8477/#invitation=TOKEN'],
    [{ STILLGROUND_HOST: '192.0.2.7' }, 'http://192.0.2.7:8477/#invitation=TOKEN'],
    [{ STILLGROUND_NAMES: 'ground.example' }, 'http://127.0.0.1:8477/#invitation=TOKEN'],
    [
      { STILLGROUND_NAMES: 'ground.example', STILLGROUND_BEHIND_TLS: 'yes' },
      'https://ground.example/#invitation=TOKEN',
    ],
    [{ STILLGROUND_BEHIND_TLS: 'yes' }, 'http://127.0.0.1:8477/#invitation=TOKEN'],
  ])('prints a link for the first administrator where others reach it: %j', async (environment, link) => {
    const { text, invited } = await said(environment)
    expect(text).toContain(link)
    expect(invited).toEqual([first])
    expect(text.includes('a proxy that speaks TLS')).toBe(!('STILLGROUND_BEHIND_TLS' in environment))
  })

  it('prints none once there is an account, unless it is told to', async () => {
    const environment = { STILLGROUND_HOST: '0.0.0.0' }
    expect((await said(environment, { hasAccounts: true })).invited).toEqual([])
    const told = await said({}, { hasAccounts: true, words: ['--administrator-link'] })
    expect(told.invited).toEqual([first])
    expect(told.text).toContain('#invitation=TOKEN')
  })
})
